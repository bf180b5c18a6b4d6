using Spurless.Numerics;

namespace Spurless.Mixing.Causes;

/// <summary>A figure in dB at a frequency.</summary>
/// <param name="FrequencyHz">Frequency in hertz, above 0.</param>
/// <param name="Db">Figure in dB.</param>
public readonly record struct FrequencyResponsePoint(long FrequencyHz, double Db);

/// <summary>An isolation in dB over frequency: linear in dB over lg f between the points, the end value beyond.</summary>
/// <remarks>Where a frequency lies over 3 % outside the points, the value is held and marked as assumed: ferrite isolators are tuned
/// (common practice).</remarks>
public sealed class FrequencyResponse
{
    /// <summary>Beyond this fraction of a stated frequency a figure is marked as assumed.</summary>
    public const double TrustedFraction = 0.03;

    private readonly FrequencyResponsePoint[] _points;
    private readonly double[] _logHz;
    private readonly double[] _db;

    private FrequencyResponse(FrequencyResponsePoint[] points)
    {
        _points = points;
        _logHz = [.. points.Select(static p => Math.Log(p.FrequencyHz))];
        _db = [.. points.Select(static p => p.Db)];
    }

    /// <summary>A single figure: holds everywhere, as if stated at the transmitter's own frequency.</summary>
    /// <param name="db">Figure in dB, finite.</param>
    /// <param name="ownFrequencyHz">The transmitter's frequency in hertz.</param>
    /// <returns>The frequency response.</returns>
    public static FrequencyResponse Single(double db, long ownFrequencyHz) => FromPoints(new FrequencyResponsePoint(ownFrequencyHz, db));

    /// <summary>Figures at several frequencies.</summary>
    /// <param name="points">One or more points in any order; frequencies above 0 and different, figures finite.</param>
    /// <returns>The frequency response.</returns>
    /// <exception cref="ArgumentException">No point, a frequency twice or not above 0, or a figure that is not finite.</exception>
    public static FrequencyResponse FromPoints(params ReadOnlySpan<FrequencyResponsePoint> points)
    {
        FrequencyResponsePoint[] sorted = points.ToArray();
        if (sorted.Length == 0)
        {
            throw new ArgumentException("at least one point", nameof(points));
        }

        Array.Sort(sorted, static (a, b) => a.FrequencyHz.CompareTo(b.FrequencyHz));
        for (int i = 0; i < sorted.Length; i++)
        {
            if (sorted[i].FrequencyHz <= 0
                || !double.IsFinite(sorted[i].Db)
                || (i > 0 && sorted[i].FrequencyHz == sorted[i - 1].FrequencyHz))
            {
                throw new ArgumentException("frequencies above 0 Hz and different, figures finite", nameof(points));
            }
        }

        return new FrequencyResponse(sorted);
    }

    /// <summary>Whether two frequencies differ by more than 3 % of the stated one.</summary>
    internal static bool Far(long frequencyHz, long statedHz) => Math.Abs(frequencyHz - statedHz) > TrustedFraction * statedHz;

    /// <summary>The figure at a frequency.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>dB.</returns>
    public double At(long frequencyHz) => Interpolation.Held(_logHz, _db, Math.Log(frequencyHz));

    /// <summary>The stated frequency from which a figure would be carried over 3 %, or null where the figure is covered.</summary>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    /// <returns>Hertz, or null.</returns>
    public long? HeldFromHz(long frequencyHz)
    {
        long end = frequencyHz < _points[0].FrequencyHz ? _points[0].FrequencyHz
            : frequencyHz > _points[^1].FrequencyHz ? _points[^1].FrequencyHz : frequencyHz;
        return Far(frequencyHz, end) ? end : null;
    }
}
