using System.Globalization;

namespace Spurless.Radio.Quantities;

/// <summary>Turns hertz into digits of megahertz, invariant and without unit: the one place that does.</summary>
public static class MegahertzText
{
    private const int MostDecimals = 6;

    // By least and most decimals: 0.0000, 0.0###.
    private static readonly string[,] _formats = Formats();

    /// <summary>
    /// A frequency in a sentence, on every page and in every command: as many decimals as it needs, 1 to 4 (100 Hz). Three places have a
    /// rule of their own: the carriers and channels of a site are exact, 4 to 6 decimals (<c>Figures.MegahertzExact</c>); columns of a
    /// table have 4, so that they can be compared down the column; what is to be typed or found again in a file (refusals, names, keys)
    /// has as many as it needs, 0 to 6. The resonances of coils have 3 at most: the formulas are not worth more.
    /// </summary>
    /// <param name="hertz">In hertz; may be negative (a difference).</param>
    public static string InWords(double hertz) => Of(hertz, 1, 4);

    /// <summary>A frequency in MHz with fixed decimals.</summary>
    /// <param name="hertz">In hertz; may be negative (a difference).</param>
    /// <param name="decimals">0 to 6.</param>
    public static string Of(double hertz, int decimals) => Of(hertz, decimals, decimals);

    /// <summary>A frequency in MHz with as many decimals as it needs.</summary>
    /// <param name="hertz">In hertz; may be negative (a difference).</param>
    /// <param name="least">The least decimals, 0 to <paramref name="most"/>.</param>
    /// <param name="most">The most, up to 6; what lies beyond is rounded.</param>
    public static string Of(double hertz, int least, int most) =>
        (hertz / 1e6).ToString(_formats[least, most], CultureInfo.InvariantCulture);

    private static string[,] Formats()
    {
        string[,] formats = new string[MostDecimals + 1, MostDecimals + 1];
        for (int least = 0; least <= MostDecimals; least++)
        {
            for (int most = least; most <= MostDecimals; most++)
            {
                formats[least, most] = most == 0 ? "0" : "0." + new string('0', least) + new string('#', most - least);
            }
        }

        return formats;
    }
}
