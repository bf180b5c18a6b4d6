using Spurless.Numerics;

namespace Spurless.Mixing.Causes;

/// <summary>Adjacent-channel selectivity of a receiver over the offset of the carrier, relative to its 12 dB SINAD sensitivity.</summary>
/// <remarks>
/// Linear in dB over the logarithm of the offset between the points. Nearer in than the first point its figure is held and marked; the last
/// one
/// holds to twice its offset, and beyond that nothing is claimed: there blocking and the oscillator's noise take over.
/// </remarks>
public sealed class AdjacentSelectivity
{
    /// <summary>The last figure holds so many times its offset (our choice).</summary>
    public const double ReachesTimes = 2;

    private readonly double[] _offsetHz;
    private readonly double[] _logOffset;
    private readonly double[] _db;

    private AdjacentSelectivity(FrequencyResponsePoint[] points, bool assumed)
    {
        _offsetHz = [.. points.Select(static p => (double)p.FrequencyHz)];
        _logOffset = [.. points.Select(static p => Math.Log(p.FrequencyHz))];
        _db = [.. points.Select(static p => p.Db)];
        IsAssumed = assumed;
    }

    /// <summary>Whether it was taken for want of a figure.</summary>
    public bool IsAssumed { get; }

    /// <summary>One sigma in dB: stated 3 dB, taken for want of a figure 6 dB (as for intercepts; our choice).</summary>
    public double SigmaDb => IsAssumed ? 6 : 3;

    /// <summary>From its points.</summary>
    /// <param name="points">One or more in any order; offsets above 0 and different, figures above 0 dB.</param>
    /// <exception cref="ArgumentException">No point, an offset twice or not above 0, or a figure that is not above 0.</exception>
    public static AdjacentSelectivity FromPoints(params ReadOnlySpan<FrequencyResponsePoint> points)
    {
        FrequencyResponsePoint[] sorted = points.ToArray();
        Array.Sort(sorted, static (a, b) => a.FrequencyHz.CompareTo(b.FrequencyHz));
        bool good = sorted.Length > 0;
        for (int i = 0; i < sorted.Length; i++)
        {
            good &= sorted[i].FrequencyHz > 0 && sorted[i].Db > 0 && double.IsFinite(sorted[i].Db)
                && (i == 0 || sorted[i].FrequencyHz != sorted[i - 1].FrequencyHz);
        }

        return good
            ? new AdjacentSelectivity(sorted, assumed: false)
            : throw new ArgumentException("offsets above 0 Hz and different, figures above 0 dB", nameof(points));
    }

    /// <summary>
    /// What is taken where nothing was stated: the least that ETSI EN 300 086 asks of a receiver (from memory), one raster away.
    /// </summary>
    /// <param name="channelHz">Raster of the channel in hertz, above 0.</param>
    /// <returns>60 dB up to a raster of 12.5 kHz, 70 dB above.</returns>
    public static AdjacentSelectivity Usual(long channelHz) =>
        new([new FrequencyResponsePoint(channelHz, channelHz <= 12_500 ? 60 : 70)], assumed: true);

    /// <summary>Whether it says anything of a carrier at an offset.</summary>
    /// <param name="offsetHz">Offset in hertz, either sign.</param>
    public bool Covers(double offsetHz) => Math.Abs(offsetHz) <= ReachesTimes * _offsetHz[^1];

    /// <summary>The selectivity at an offset.</summary>
    /// <param name="offsetHz">Offset in hertz, either sign, not 0.</param>
    /// <returns>dB.</returns>
    public double AtDb(double offsetHz) => Interpolation.Held(_logOffset, _db, Math.Log(Math.Abs(offsetHz)));

    /// <summary>What was assumed at an offset, or null.</summary>
    /// <param name="offsetHz">Offset in hertz, either sign.</param>
    public Assumption? AssumedAt(double offsetHz)
    {
        double offset = Math.Abs(offsetHz);
        return IsAssumed ? new Assumption(AssumptionKind.AdjacentSelectivity) { FromHz = _offsetHz[0], Value = _db[0] }
            : offset < _offsetHz[0] ? new Assumption(AssumptionKind.AdjacentHeld) { FromHz = _offsetHz[0], ToHz = offset }
            : offset > _offsetHz[^1] ? new Assumption(AssumptionKind.AdjacentHeld) { FromHz = _offsetHz[^1], ToHz = offset }
            : null;
    }
}
