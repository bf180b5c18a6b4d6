using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Tests.Levels;

/// <summary>Cascades against check values 1.4 (tolerance 0.0001 dB there).</summary>
public class CascadeTests
{
    private const double None = double.PositiveInfinity;

    // Figures of the public manual pages of a general numerics package (seen when the list was made); OIP3 as printed there.
    [Fact]
    public void Total_of_three_stages_is_as_a_manual_prints_it()
    {
        CascadeStage[] stages = [new(11, 25, 30 - 11), new(-3, 3, None), new(7, 5, 10 - 7)];
        double[] gain = [11, 8, 15];
        double[] noise = [25.0000, 25.0011, 25.0058];
        double[] input = [19.0000, 19.0000, -5.0173];
        double[] output = [30.0000, 27.0000, 9.9827];
        for (int n = 1; n <= 3; n++)
        {
            CascadeStage total = Cascade.Total(stages.AsSpan(0, n));
            Assert.Equal(gain[n - 1], total.GainDb, 1e-4);
            Assert.Equal(noise[n - 1], total.NoiseFigureDb, 1e-4);
            Assert.Equal(input[n - 1], total.InterceptDbm, 1e-4);
            Assert.Equal(output[n - 1], total.InterceptDbm + total.GainDb, 1e-4);
        }
    }

    // Inputs quoted from Besser & Gilmore, Practical RF Circuit Design vol. 1 (2003) p. 135; results computed independently in the list.
    [Fact]
    public void Total_of_a_front_end_is_as_computed_elsewhere()
    {
        CascadeStage[] stages =
            [new(-2.5, 2.5, None), new(15.3, 1.4, 23 - 15.3), new(-2.5, 2.5, None), new(14.5, 7.8, 22 - 14.5), new(-8, 8, None), new(35, 6.4, 4 - 35)];
        double[] noise = [2.5, 3.9, 3.9717, 4.7196, 4.7453, 4.8465];
        double[] input = [None, 10.2, 10.2, -3.0124, -3.0124, -47.8001];
        for (int n = 1; n <= stages.Length; n++)
        {
            CascadeStage total = Cascade.Total(stages.AsSpan(0, n));
            Assert.Equal(noise[n - 1], total.NoiseFigureDb, 1e-4);
            Assert.Equal(input[n - 1], total.InterceptDbm, 1e-4);
        }

        Assert.Equal(51.8, Cascade.Total(stages).GainDb, 1e-9);
    }

    // Same manual, noise figure page (its fifth gain used as +15, as its numbers do).
    [Fact]
    public void Total_of_seven_stages_has_the_manuals_noise_figure()
    {
        double[] noise = [1.0, 0.5, 5.0, 1.0, 0.6, 1.0, 6.0];
        double[] gain = [15, -0.5, -7, -1, 15, 20, -5];
        CascadeStage total = Cascade.Total([.. gain.Select((g, i) => new CascadeStage(g, noise[i], None))]);
        Assert.Equal(1.5252, total.NoiseFigureDb, 1e-4);
        Assert.Equal(36.5, total.GainDb, 1e-9);
        Assert.Equal(None, total.InterceptDbm);
    }

    [Fact]
    public void Total_of_a_loss_ahead_adds_dB_for_dB()
    {
        CascadeStage total = Cascade.Total([new(-2, 2, None), new(20, 6, -10)]);
        Assert.Equal(8.000, total.NoiseFigureDb, 1e-9);
        Assert.Equal(-8, total.InterceptDbm, 1e-9);
        // 2 dB and 20 dB of gain ahead of 8 dB: 2.143, not the 2.17 of noise figures added in dB (check values, trap).
        Assert.Equal(2.143, Cascade.Total([new(20, 2, None), new(0, 8, None)]).NoiseFigureDb, 0.001);
    }
}
