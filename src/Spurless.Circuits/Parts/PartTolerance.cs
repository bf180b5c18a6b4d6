namespace Spurless.Circuits.Parts;

/// <summary>How a part's true value lies about its nominal one.</summary>
public enum ToleranceKind
{
    /// <summary>Anywhere within plus or minus the fraction, evenly.</summary>
    Uniform,

    /// <summary>Gaussian; the fraction is two standard deviations.</summary>
    Normal,

    /// <summary>Anywhere in the bin of the E-series to which the nominal value belongs, evenly.</summary>
    Series,
}

/// <summary>The manufacturing tolerance of a part's value.</summary>
/// <param name="Kind">The shape of the distribution.</param>
/// <param name="Fraction">Half width as a fraction of the value (5 % is 0.05), not negative; 0 for a series bin.</param>
/// <param name="SeriesSize">Values per decade of the E-series (3, 6, 12, 24, 48, 96, 192); 0 unless <paramref name="Kind"/> is a
/// series.</param>
public sealed record PartTolerance(ToleranceKind Kind, double Fraction, int SeriesSize)
{
    /// <summary>Evenly within plus or minus a fraction.</summary>
    /// <param name="fraction">Fraction of the value, 0 to below 1.</param>
    public static PartTolerance Uniform(double fraction) => new(ToleranceKind.Uniform, Checked(fraction), 0);

    /// <summary>Gaussian, the fraction being two standard deviations.</summary>
    /// <param name="fraction">Fraction of the value, 0 to below 1.</param>
    public static PartTolerance Normal(double fraction) => new(ToleranceKind.Normal, Checked(fraction), 0);

    /// <summary>Evenly within the bin of an E-series: between the geometric means with both neighbours of the series.</summary>
    /// <param name="size">Values per decade: 3, 6, 12, 24, 48, 96 or 192 (IEC 60063).</param>
    public static PartTolerance Series(int size) => size is 3 or 6 or 12 or 24 or 48 or 96 or 192
        ? new(ToleranceKind.Series, 0, size)
        : throw new ArgumentOutOfRangeException(nameof(size), "The E-series have 3, 6, 12, 24, 48, 96 or 192 values a decade.");

    private static double Checked(double fraction) =>
        fraction is >= 0 and < 1
            ? fraction
            : throw new ArgumentOutOfRangeException(nameof(fraction), "A tolerance is at least 0 and below 100 %.");
}

/// <summary>What a part is rated for; null where nothing was stated.</summary>
/// <param name="PeakVoltageV">Greatest voltage across the part in volts, compared with the peak of the radio-frequency voltage.</param>
/// <param name="PowerW">Greatest dissipation in watts.</param>
/// <param name="CurrentA">Greatest rms current in amperes.</param>
public sealed record PartRating(double? PeakVoltageV = null, double? PowerW = null, double? CurrentA = null);
