namespace Spurless.Mixing.Levels;

/// <summary>The most that a stage can deliver of any product, referred to its input.</summary>
public static class Saturation
{
    /// <summary>How far a stage's 1 dB compression point lies under its third-order intercept, in dB: that of the cubic.</summary>
    /// <remarks>
    /// <c>1 - (3/4) a3 A^2 = 10^(-1/20)</c> with <c>a3 = 4/(3 A_IIP3^2)</c> gives <c>A^2/A_IIP3^2 = 0.1087</c>, 9.64 dB; common practice
    /// says 9.6.
    /// </remarks>
    public const double CompressionUnderInterceptDb = 9.64;

    /// <summary>The most of any product, as a level at the stage's input.</summary>
    /// <param name="totalPowerMw">Power of all carriers at the stage's input, in milliwatts, at least 0.</param>
    /// <param name="iip3Dbm">Third-order intercept in dBm.</param>
    /// <returns>
    /// dBm: the lower of all that comes in (a stage that only compresses, |f(x)| &lt;= |x|, has no more power at its output than a linear
    /// one, at all
    /// frequencies together) and the 1 dB compression point. Two carriers of 0 dBm into an IIP3 of -10 dBm: -19.64 dBm.
    /// </returns>
    public static double MostDbm(double totalPowerMw, double iip3Dbm) =>
        Math.Min(10 * Math.Log10(totalPowerMw), iip3Dbm - CompressionUnderInterceptDb);
}
