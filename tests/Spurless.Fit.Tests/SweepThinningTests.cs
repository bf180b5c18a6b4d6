using Spurless.Circuits.Parts;

namespace Spurless.Fit.Tests;

/// <summary>Few of a sweep's points: both ends, none twice, and dense where the curves turn, whatever is measured.</summary>
public sealed class SweepThinningTests
{
    public static TheoryData<bool, int> Counts => new()
    {
        { false, 9 }, { false, 24 }, { false, 60 }, { true, 9 }, { true, 24 }, { true, 60 },
    };

    [Theory]
    [MemberData(nameof(Counts))]
    public void Choose_takes_both_ends_and_none_twice(bool magnitudes, int count)
    {
        FitData data = Data(magnitudes);
        int[] chosen = SweepThinning.Choose(data, count);
        Assert.InRange(chosen.Length, 2, count);
        Assert.Equal((0, data.Points - 1), (chosen[0], chosen[^1]));
        Assert.Equal(chosen.Distinct().Order(), chosen);
    }

    /// <summary>
    /// Between two that are chosen lies no more than one share of the way, half along the curves and half along the frequencies, and the
    /// one step that leads over it.
    /// </summary>
    [Theory]
    [MemberData(nameof(Counts))]
    public void Choose_leaves_no_gap_longer_than_its_share(bool magnitudes, int count)
    {
        FitData data = Data(magnitudes);
        double[] way = new double[data.Points];
        for (int i = 1; i < way.Length; i++)
        {
            way[i] = way[i - 1] + Enumerable.Range(0, data.Parameters.Length).Sum(t => data.Magnitude[t]
                ? Math.Abs(data.Real[t][i] - data.Real[t][i - 1]) / 20
                : double.Hypot(data.Real[t][i] - data.Real[t][i - 1], data.Imaginary[t][i] - data.Imaginary[t][i - 1]));
        }

        double[] along = [.. way.Select((w, i) => ((w / way[^1]) + (i / (way.Length - 1.0))) / 2)];
        double step = Enumerable.Range(1, along.Length - 1).Max(i => along[i] - along[i - 1]);
        int[] chosen = SweepThinning.Choose(data, count);
        for (int i = 1; i < chosen.Length; i++)
        {
            Assert.True(
                along[chosen[i]] - along[chosen[i - 1]] <= (1.0 / (count - 1)) + step + 1e-9, $"between {chosen[i - 1]} and {chosen[i]}");
        }

        // In the pass-band, where all four turn, it is denser than even spacing would be; in decibels the skirts have the longer way.
        if (!magnitudes)
        {
            int best = Enumerable.Range(0, data.Points).MaxBy(i => Square(data, 1, i));
            int near = chosen.Count(i => Math.Abs(i - best) <= data.Points / 10);
            Assert.True(near > 0.2 * chosen.Length, $"{near} of {chosen.Length} within a tenth of the pass-band");
        }
    }

    [Fact]
    public void Choose_of_no_more_than_there_are_takes_all()
    {
        FitData data = Data(magnitudes: false);
        Assert.Equal(Enumerable.Range(0, data.Points), SweepThinning.Choose(data, data.Points));
        Assert.Equal(data.Points, SweepThinning.Choose(data, 10 * data.Points).Length);
    }

    private static double Square(FitData data, int t, int i) => Math.Pow(data.Real[t][i], 2) + Math.Pow(data.Imaginary[t][i], 2);

    private static FitData Data(bool magnitudes)
    {
        Circuit circuit = DemoFilter.ThreeTanks;
        return new FitData(magnitudes ? DemoFilter.Magnitudes(circuit, 3, returnLoss: false) : DemoFilter.Complex(circuit, 3));
    }
}
