using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Tests.Levels;

/// <summary>Cascades against check values 1.4 (tolerance 0.0001 dB there): gain and noise by Friis, the third-order intercept by the
/// products of the stages in phase.</summary>
public class CascadeTests
{
    private const double None = double.PositiveInfinity;

    // Figures of the public manual pages of a general numerics package (seen when the list was made); OIP3 as printed there.
    [Fact]
    public void Total_of_three_stages_is_as_a_manual_prints_it()
    {
        Stage[] stages = [new(11, 25, 30 - 11), new(-3, 3, None), new(7, 5, 10 - 7)];
        double[] gain = [11, 8, 15];
        double[] noise = [25.0000, 25.0011, 25.0058];
        double[] input = [19.0000, 19.0000, -5.0173];
        double[] output = [30.0000, 27.0000, 9.9827];
        for (int n = 1; n <= 3; n++)
        {
            Stage total = Total(stages.AsSpan(0, n));
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
        Stage[] stages =
            [
                new(-2.5, 2.5, None), new(15.3, 1.4, 23 - 15.3), new(-2.5, 2.5, None), new(14.5, 7.8, 22 - 14.5), new(-8, 8, None),
                new(35, 6.4, 4 - 35),
            ];
        double[] noise = [2.5, 3.9, 3.9717, 4.7196, 4.7453, 4.8465];
        double[] input = [None, 10.2, 10.2, -3.0124, -3.0124, -47.8001];
        for (int n = 1; n <= stages.Length; n++)
        {
            Stage total = Total(stages.AsSpan(0, n));
            Assert.Equal(noise[n - 1], total.NoiseFigureDb, 1e-4);
            Assert.Equal(input[n - 1], total.InterceptDbm, 1e-4);
        }

        Assert.Equal(51.8, Total(stages).GainDb, 1e-9);
    }

    // Same manual, noise figure page (its fifth gain used as +15, as its numbers do).
    [Fact]
    public void Total_of_seven_stages_has_the_manuals_noise_figure()
    {
        double[] noise = [1.0, 0.5, 5.0, 1.0, 0.6, 1.0, 6.0];
        double[] gain = [15, -0.5, -7, -1, 15, 20, -5];
        Stage total = Total([.. gain.Select((g, i) => new Stage(g, noise[i], None))]);
        Assert.Equal(1.5252, total.NoiseFigureDb, 1e-4);
        Assert.Equal(36.5, total.GainDb, 1e-9);
        Assert.Equal(None, total.InterceptDbm);
    }

    [Fact]
    public void Total_of_a_loss_ahead_adds_dB_for_dB()
    {
        Stage total = Total([new(-2, 2, None), new(20, 6, -10)]);
        Assert.Equal(8.000, total.NoiseFigureDb, 1e-9);
        Assert.Equal(-8, total.InterceptDbm, 1e-9);
        // 2 dB and 20 dB of gain ahead of 8 dB: 2.143, not the 2.17 of noise figures added in dB (check values, trap).
        Assert.Equal(2.143, Total([new(20, 2, None), new(0, 8, None)]).NoiseFigureDb, 0.001);
    }

    [Fact]
    public void Through_of_a_stage_that_lets_nothing_through_is_the_noise_of_the_source_temperature()
    {
        // Whatever stands in front: behind it there is kT0B, and nothing of the signal.
        NoiseCascade blocked = NoiseCascade.Source.Amplified(100, 3).Through(0);
        Assert.Equal(0, blocked.Gain);
        Assert.Equal(1, blocked.Output, 1e-12);
        Assert.Equal(None, blocked.NoiseFigureDb);
    }

    /// <summary>The stages together as the chain has them: the noise stage by stage, the product 2A-B of each stage from tones of
    /// -100 dBm, summed in voltage.</summary>
    private static Stage Total(ReadOnlySpan<Stage> stages)
    {
        const double tone = -100;
        NoiseCascade noise = NoiseCascade.Source;
        double gainDb = 0;
        List<double> products = [];
        foreach (Stage stage in stages)
        {
            if (stage.InterceptDbm != None)
            {
                // Made at the stage from tones raised by the gain so far, referred to the first input by the same gain.
                products.Add((3 * (tone + gainDb)) - (2 * stage.InterceptDbm) - gainDb);
            }

            double gain = Math.Pow(10, stage.GainDb / 10);
            noise = stage.NoiseFigureDb == -stage.GainDb ? noise.Through(gain) : noise.Amplified(gain, stage.NoiseFigureDb);
            gainDb += stage.GainDb;
        }

        double intercept = products.Count == 0 ? None : ((3 * tone) - LevelSum.VoltageDbm(products.ToArray())) / 2;
        return new Stage(10 * Math.Log10(noise.Gain), noise.NoiseFigureDb, intercept);
    }

    /// <summary>One stage: gain and noise figure in dB, third-order input intercept in dBm.</summary>
    private readonly record struct Stage(double GainDb, double NoiseFigureDb, double InterceptDbm);
}
