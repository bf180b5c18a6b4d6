using System.Globalization;

namespace Spurless.Pages.Shell;

/// <summary>How far a run is, in words.</summary>
internal static class HowFar
{
    // Below this no time is told: it would be over before it is read.
    private static readonly TimeSpan Telling = TimeSpan.FromSeconds(1.5);

    /// <summary>'40 % done, about 3 s left'; near its end 'almost done', as the last step takes what it takes.</summary>
    /// <param name="fraction">How much is done, 0 to 1; what is not a number counts as 0.</param>
    /// <param name="left">The time left; null where it is not known yet.</param>
    public static string Says(double fraction, TimeSpan? left = null)
    {
        double percent = double.IsFinite(fraction) ? Math.Floor(Math.Clamp(fraction, 0, 1) * 100) : 0;
        return percent >= 99
            ? "almost done"
            : string.Create(CultureInfo.InvariantCulture, $"{percent:0} % done")
                + (left is { } time && time >= Telling
                    ? string.Create(CultureInfo.InvariantCulture, $", about {Math.Ceiling(time.TotalSeconds):0} s left") : "");
    }
}
