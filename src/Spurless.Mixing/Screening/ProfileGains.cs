namespace Spurless.Mixing.Screening;

/// <summary>A profile's gains at all frequencies of a field, computed once, and the greatest of each band and run.</summary>
internal sealed class ProfileGains
{
    private readonly double[][] _gains;
    private readonly double[][] _most;
    private readonly double[][] _mostOfRun;

    public ProfileGains(ScreenProfile profile, ScreenField field)
    {
        _gains = [.. profile.Stages.Select(s => field.Frequencies.Select(f => s.GainDb(f)).ToArray())];
        _most = [.. _gains.Select(g => field.Trees.Select(t => Most(g, t)).ToArray())];
        _mostOfRun = [.. _gains.Select(g => field.Runs.Trees.Select(t => Most(g, t)).ToArray())];
    }

    public int Stages => _gains.Length;

    /// <summary>Gain to a stage at all frequencies of the field.</summary>
    public ReadOnlySpan<double> Of(int stage) => _gains[stage];

    /// <summary>Gain to a stage at a frequency of the field.</summary>
    public double At(int stage, int frequencyIndex) => _gains[stage][frequencyIndex];

    /// <summary>The greatest gain to a stage within a tree's band.</summary>
    public double Most(int stage, int tree) => _most[stage][tree];

    /// <summary>The greatest gain to a stage within each run.</summary>
    public ReadOnlySpan<double> MostOfRuns(int stage) => _mostOfRun[stage];

    private static double Most(double[] gains, ScreenTree tree)
    {
        double most = double.NegativeInfinity;
        for (int f = tree.FirstFrequency; f <= tree.LastFrequency; f++)
        {
            most = Math.Max(most, gains[f]);
        }

        return most;
    }
}
