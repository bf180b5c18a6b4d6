namespace Spurless.Mixing.Levels;

/// <summary>
/// Levels and ratios as whole millionths of a decibel. Each figure is rounded once, when it comes in; sums of integers do not depend on
/// their order, so that every way of searching gives the same verdict at a threshold, bit for bit.
/// </summary>
public static class MicroDb
{
    /// <summary>Micro-dB in a decibel.</summary>
    public const int PerDecibel = 1_000_000;

    /// <summary>Stands for a level that nobody knows.</summary>
    public const int Unknown = int.MinValue;

    /// <summary>Greatest magnitude of a level, intercept or gain that the search takes: 1,000 dB.</summary>
    public const int Limit = 1_000 * PerDecibel;

    /// <summary>Rounds a figure in decibels (or dBm) to whole micro-dB, halves away from zero.</summary>
    /// <param name="decibels">dB or dBm, finite, magnitude at most 1,000.</param>
    /// <returns>Micro-dB, exact to half a millionth of a decibel.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or beyond 1,000 dB.</exception>
    public static int FromDecibels(double decibels)
    {
        // Written so that NaN fails too.
        if (!(Math.Abs(decibels) <= Limit / PerDecibel))
        {
            throw new ArgumentOutOfRangeException(nameof(decibels), decibels, "A level must be finite and within +-1,000 dB.");
        }

        return (int)Math.Round(decibels * PerDecibel, MidpointRounding.AwayFromZero);
    }

    /// <summary>As <see cref="FromDecibels"/>, but clamps to +-1,000 dB (a stop band may be computed deeper than that).</summary>
    /// <param name="decibels">dB or dBm; infinities are clamped, NaN is refused.</param>
    /// <returns>Micro-dB.</returns>
    /// <exception cref="ArgumentOutOfRangeException">NaN.</exception>
    public static int Clamped(double decibels) =>
        double.IsNaN(decibels) ? FromDecibels(decibels) : FromDecibels(Math.Clamp(decibels, -Limit / PerDecibel, Limit / PerDecibel));

    /// <summary>Micro-dB as decibels.</summary>
    /// <param name="microDb">Micro-dB.</param>
    /// <returns>dB (or dBm).</returns>
    public static double ToDecibels(long microDb) => microDb / (double)PerDecibel;
}
