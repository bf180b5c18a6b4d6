namespace Spurless.Design.Prototypes;

/// <summary>Between a band-pass filter and its low-pass prototype: <c>w = (f0 / BW) |f / f0 - f0 / f|</c>, f0 the geometric
/// middle.</summary>
public static class BandPassMap
{
    /// <summary>The prototype's frequency of a filter's.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <param name="centreHz">Middle in hertz.</param>
    /// <param name="widthHz">Bandwidth in hertz between the prototype's edges.</param>
    public static double ToPrototype(double frequencyHz, double centreHz, double widthHz) =>
        Offset(frequencyHz, centreHz) * centreHz / widthHz;

    /// <summary>The widest band in hertz with which a prototype still has a loss at a frequency.</summary>
    /// <param name="prototype">The prototype.</param>
    /// <param name="lossDb">Loss in dB that is needed, above the ripple.</param>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    /// <param name="centreHz">Middle in hertz.</param>
    public static double WidestFor(Prototype prototype, double lossDb, double frequencyHz, double centreHz)
    {
        ArgumentNullException.ThrowIfNull(prototype);
        return Offset(frequencyHz, centreHz) * centreHz / prototype.FrequencyOf(lossDb);
    }

    private static double Offset(double f, double centre) => Math.Abs((f / centre) - (centre / f));
}
