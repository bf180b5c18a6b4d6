using System.Globalization;

namespace Spurless.Drawing.Words;

/// <summary>
/// Numbers as reports print them: one number of decimals per kind, invariant, with the signs of a <see cref="Typography"/>.
/// </summary>
public static class Figures
{
    /// <summary>A level or a ratio with one decimal, without unit: <c>-94.8</c>. A rounded zero carries no minus.</summary>
    /// <param name="value">In dB or dBm; finite.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Db(double value, Typography typography) => Sign(Rounded(value), typography, plus: false);

    /// <summary>A gain or a level over noise with one decimal and always a sign: <c>+33.9</c>.</summary>
    /// <param name="value">In dB; finite.</param>
    /// <param name="typography">The signs to use.</param>
    public static string SignedDb(double value, Typography typography) => Sign(Rounded(value), typography, plus: true);

    /// <summary>The same without any sign, for 'x dB under': <c>12.4</c>.</summary>
    /// <param name="value">In dB; finite.</param>
    public static string BareDb(double value) => Math.Abs(Rounded(value)).ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>What is needed at least, never rounded down: <c>14.1</c> of 14.007.</summary>
    /// <param name="value">In dB; finite, 0 or more.</param>
    public static string AtLeastDb(double value) => Math.Max(0, Math.Ceiling((value * 10) - 1e-6) / 10).ToString(
        "0.0", CultureInfo.InvariantCulture);

    /// <summary>A value to one decimal, halves away from zero, as it will be printed.</summary>
    /// <param name="value">Any finite number.</param>
    public static double Rounded(double value) => Math.Round(value, 1, MidpointRounding.AwayFromZero);

    /// <summary>A frequency in MHz without unit: four decimals, more where <paramref name="decimals"/> says so.</summary>
    /// <param name="hertz">In hertz; may be negative (a difference).</param>
    /// <param name="decimals">4 to 6; see <see cref="DecimalsFor"/>.</param>
    public static string Megahertz(long hertz, int decimals = 4)
    {
        decimal value = hertz / 1_000_000m;
        return value.ToString(decimals switch { 4 => "0.0000", 5 => "0.00000", _ => "0.000000" }, CultureInfo.InvariantCulture);
    }

    /// <summary>How many decimals print all of these frequencies exactly: 4, or 5 or 6 where one needs them.</summary>
    /// <param name="hertz">In hertz.</param>
    public static int DecimalsFor(IEnumerable<long> hertz)
    {
        int decimals = 4;
        foreach (long f in hertz)
        {
            decimals = Math.Max(decimals, f % 100 == 0 ? 4 : f % 10 == 0 ? 5 : 6);
        }

        return decimals;
    }

    /// <summary>A frequency with as many decimals as it needs, four at least.</summary>
    /// <param name="hertz">In hertz.</param>
    public static string MegahertzExact(long hertz) => Megahertz(hertz, DecimalsFor([hertz]));

    /// <summary>A width in kHz with one decimal (more where a channel raster needs it) and grouped thousands, without unit.</summary>
    /// <param name="hertz">In hertz, 0 or more.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Kilohertz(long hertz, Typography typography)
    {
        string text = (hertz / 1000m).ToString(hertz % 100 == 0 ? "0.0" : "0.0##", CultureInfo.InvariantCulture);
        int point = text.IndexOf('.', StringComparison.Ordinal);
        return Grouped(text[..point], typography) + text[point..];
    }

    /// <summary>An offset in kHz with its sign; <c>0</c> stays bare.</summary>
    /// <param name="hertz">In hertz.</param>
    /// <param name="typography">The signs to use.</param>
    public static string OffsetKilohertz(long hertz, Typography typography) => hertz == 0
        ? "0"
        : (hertz > 0 ? "+" : typography.Minus) + (Math.Abs(hertz) / 1000m).ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>A count with grouped thousands.</summary>
    /// <param name="count">0 or more.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Count(long count, Typography typography) => Grouped(count.ToString(CultureInfo.InvariantCulture), typography);

    /// <summary>So many mistakes, in words: <c>one mistake</c>, <c>three mistakes</c>.</summary>
    /// <param name="count">1 or more.</param>
    public static string Mistakes(int count) => count == 1 ? "one mistake" : $"{CountInWords(count)} mistakes";

    /// <summary>A small count in words up to twelve, in digits above.</summary>
    /// <param name="count">0 or more.</param>
    public static string CountInWords(long count) => count is >= 0 and <= 12
        ? Small[count]
        : count.ToString(CultureInfo.InvariantCulture);

    /// <summary>A position in words up to twelfth, in digits above.</summary>
    /// <param name="position">From 1.</param>
    public static string OrdinalInWords(long position) => position is >= 1 and <= 12
        ? Ordinals[position - 1]
        : Ordinal(position);

    /// <summary>A position in digits: <c>3rd</c>.</summary>
    /// <param name="position">From 1.</param>
    public static string Ordinal(long position) => position.ToString(CultureInfo.InvariantCulture) + (position % 100 is >= 11 and <= 13
        ? "th"
        : (position % 10) switch { 1 => "st", 2 => "nd", 3 => "rd", _ => "th" });

    /// <summary>
    /// A fraction of time in per cent, two figures: <c>6 %</c>, <c>0.25 %</c>. What is not always is never called 100 %.
    /// </summary>
    /// <param name="fraction">0 to 1.</param>
    public static string Percent(double fraction) => (fraction * 100) switch
    {
        >= 99.5 and < 100 => "over 99",
        >= 9.5 => (fraction * 100).ToString("0", CultureInfo.InvariantCulture),
        >= 0.95 => (fraction * 100).ToString("0.#", CultureInfo.InvariantCulture),
        > 0 and < 0.01 => "under 0.01",
        _ => (fraction * 100).ToString("0.##", CultureInfo.InvariantCulture),
    } + " %";

    private static readonly string[] Small =
    [
        "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    ];

    private static readonly string[] Ordinals =
        ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"];

    private static string Sign(double rounded, Typography typography, bool plus)
    {
        string digits = Grouped1(Math.Abs(rounded), typography);
        return rounded < 0 ? typography.Minus + digits : (plus ? "+" : "") + digits;
    }

    private static string Grouped1(double magnitude, Typography typography)
    {
        string text = magnitude.ToString("0.0", CultureInfo.InvariantCulture);
        return Grouped(text[..^2], typography) + text[^2..];
    }

    private static string Grouped(string digits, Typography typography)
    {
        if (digits.Length <= 3)
        {
            return digits;
        }

        int first = digits.Length % 3;
        List<string> groups = first == 0 ? [] : [digits[..first]];
        for (int at = first; at < digits.Length; at += 3)
        {
            groups.Add(digits.Substring(at, 3));
        }

        return string.Join(typography.Group, groups);
    }
}
