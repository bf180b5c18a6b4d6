using Spurless.Numerics;

namespace Spurless.Mixing.Causes;

/// <summary>Sideband noise of a transmitter or of a local oscillator over the offset from its carrier, alike on both sides.</summary>
/// <remarks>
/// Between the points linear in dB over the logarithm of the offset, the end values held beyond them; one point holds everywhere.
/// </remarks>
public sealed class SidebandNoise
{
    /// <summary>A figure holds within this fraction of the offset it was stated at; beyond it only bounds something (our choice).</summary>
    public const double TrustedFraction = 0.1;

    /// <summary>
    /// Steepest rise towards the carrier that a bound allows for, in dB a decade: the flicker region of an oscillator (Leeson's model).
    /// </summary>
    public const double SteepestRiseDb = 30;

    /// <summary>
    /// The noisiest that a usual base transmitter is: -140 dBc/Hz from 1 MHz on, 20 dB a decade more towards the carrier; the quietest are
    /// at
    /// -160 dBc/Hz far out (common practice).
    /// </summary>
    public static SidebandNoise NoisiestUsual { get; } =
        FromPoints(new NoisePoint(1e3, -80), new NoisePoint(1e6, -140), new NoisePoint(1e12, -140));

    /// <summary>How far the quietest usual base transmitter lies under <see cref="NoisiestUsual"/>, in dB.</summary>
    public const double UsualRangeDb = 20;

    private readonly NoisePoint[] _points;
    private readonly double[] _logOffset;
    private readonly double[] _dbcPerHz;

    private SidebandNoise(NoisePoint[] points)
    {
        _points = points;
        _logOffset = [.. points.Select(static p => Math.Log(p.OffsetHz))];
        _dbcPerHz = [.. points.Select(static p => p.DbcPerHz)];
    }

    /// <summary>Makes it from its points.</summary>
    /// <param name="points">One or more points in any order; offsets above 0 and different, densities finite.</param>
    /// <returns>The noise.</returns>
    /// <exception cref="ArgumentException">No point, an offset twice or not above 0, or a density that is not finite.</exception>
    public static SidebandNoise FromPoints(params ReadOnlySpan<NoisePoint> points)
    {
        NoisePoint[] sorted = points.ToArray();
        if (sorted.Length == 0)
        {
            throw new ArgumentException("at least one point", nameof(points));
        }

        Array.Sort(sorted, static (a, b) => a.OffsetHz.CompareTo(b.OffsetHz));
        for (int i = 0; i < sorted.Length; i++)
        {
            if (!(sorted[i].OffsetHz > 0) || !double.IsFinite(sorted[i].OffsetHz) || !double.IsFinite(sorted[i].DbcPerHz)
                || (i > 0 && sorted[i].OffsetHz == sorted[i - 1].OffsetHz))
            {
                throw new ArgumentException("offsets above 0 Hz and different, densities finite", nameof(points));
            }
        }

        return new SidebandNoise(sorted);
    }

    /// <summary>Density at an offset.</summary>
    /// <param name="offsetHz">Offset from the carrier in hertz, either sign.</param>
    /// <returns>Density in dBc/Hz.</returns>
    public double DensityDbcPerHz(double offsetHz) =>
        Interpolation.Held(_logOffset, _dbcPerHz, Math.Log(Math.Abs(offsetHz)));

    /// <summary>Noise power inside a band beside (or across) the carrier.</summary>
    /// <param name="offsetHz">Centre of the band less the carrier, in hertz, either sign.</param>
    /// <param name="bandwidthHz">Width of the band in hertz, above 0.</param>
    /// <returns>Power relative to the carrier, in dBc.</returns>
    /// <remarks>The density is a power law of the offset in each piece, so the integral is in closed form, exact to rounding. -145 dBc/Hz
    /// everywhere gives -105.97 dBc in 8 kHz.</remarks>
    public double IntegratedDbc(double offsetHz, double bandwidthHz)
    {
        if (!(bandwidthHz > 0) || !double.IsFinite(bandwidthHz) || !double.IsFinite(offsetHz))
        {
            throw new ArgumentOutOfRangeException(nameof(bandwidthHz), "a finite offset and a width above 0");
        }

        double centre = Math.Abs(offsetHz);
        double low = centre - (bandwidthHz / 2);
        double high = centre + (bandwidthHz / 2);
        double power = low >= 0 ? Integral(low, high) : Integral(0, high) + Integral(0, -low);
        return 10 * Math.Log10(power);
    }

    /// <summary>What was assumed for a band at this offset.</summary>
    /// <param name="offsetHz">Offset in hertz, either sign.</param>
    /// <param name="of">The transmitter whose noise it is; null for the receiver's oscillator.</param>
    /// <returns>Null where the offset lies between two points given.</returns>
    public Assumption? AssumedAt(double offsetHz, string? of)
    {
        double offset = Math.Abs(offsetHz);
        if (_points.Length == 1)
        {
            double stated = _points[0].OffsetHz;
            return offset == stated ? null : new Assumption(AssumptionKind.NoiseAtOneOffset) { Of = of, FromHz = stated, ToHz = offset };
        }

        return offset < _points[0].OffsetHz ? Held(_points[0].OffsetHz)
            : offset > _points[^1].OffsetHz ? Held(_points[^1].OffsetHz)
            : null;

        Assumption Held(double end) => new(AssumptionKind.NoiseHeld) { Of = of, FromHz = end, ToHz = offset };
    }

    /// <summary>Whether a figure was stated for an offset: between the outermost points, or within a tenth of one.</summary>
    /// <param name="offsetHz">Offset in hertz, either sign.</param>
    public bool Covers(double offsetHz)
    {
        double offset = Math.Abs(offsetHz);
        return offset >= _points[0].OffsetHz * (1 - TrustedFraction) && offset <= _points[^1].OffsetHz * (1 + TrustedFraction);
    }

    /// <summary>The most that a band can hold at an offset for which nothing was stated.</summary>
    /// <param name="offsetHz">Centre of the band less the carrier, in hertz, either sign, not 0.</param>
    /// <param name="bandwidthHz">Width of the band in hertz, above 0.</param>
    /// <returns>dBc. Farther out than the outermost point that point's figure, since noise does not rise with the offset; nearer in than
    /// the
    /// innermost one its figure with <see cref="SteepestRiseDb"/> a decade. -145 dBc/Hz at 1 MHz bounds 8 kHz at 293 MHz to -105.97 dBc, at
    /// 100 kHz to -75.97 dBc.</returns>
    public double AtMostDbc(double offsetHz, double bandwidthHz)
    {
        double offset = Math.Abs(offsetHz);
        double rise = offset < _points[0].OffsetHz ? SteepestRiseDb * Math.Log10(_points[0].OffsetHz / offset) : 0;
        return IntegratedDbc(offsetHz, bandwidthHz) + rise;
    }

    private double Integral(double fromHz, double toHz)
    {
        double sum = 0;
        double first = _points[0].OffsetHz;
        double last = _points[^1].OffsetHz;
        sum += Linear(_points[0].DbcPerHz) * Math.Max(0, Math.Min(toHz, first) - fromHz);
        for (int i = 1; i < _points.Length; i++)
        {
            double low = Math.Max(fromHz, _points[i - 1].OffsetHz);
            double high = Math.Min(toHz, _points[i].OffsetHz);
            if (high > low)
            {
                double span = Math.Log(_points[i].OffsetHz / _points[i - 1].OffsetHz);
                double slope = (_points[i].DbcPerHz - _points[i - 1].DbcPerHz) * Math.Log(10) / 10 / span;
                double width = Math.Log(high / low);
                // Integral of S0 (f/f0)^slope df over the piece, by u = ln f: S(low) low (e^((slope+1) width) - 1) / (slope + 1).
                sum += Linear(DensityDbcPerHz(low)) * low * width * GrowthMean((slope + 1) * width);
            }
        }

        sum += Linear(_points[^1].DbcPerHz) * Math.Max(0, toHz - Math.Max(fromHz, last));
        return sum;
    }

    private static double Linear(double db) => Math.Pow(10, db / 10);

    /// <summary><c>(e^x - 1)/x</c>, also where x is nearly 0.</summary>
    private static double GrowthMean(double x) =>
        Math.Abs(x) < 1e-3 ? 1 + (x / 2 * (1 + (x / 3 * (1 + (x / 4))))) : (Math.Exp(x) - 1) / x;
}
