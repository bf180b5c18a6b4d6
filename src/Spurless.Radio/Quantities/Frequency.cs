using System.Globalization;

namespace Spurless.Radio.Quantities;

/// <summary>
/// A frequency or a difference of frequencies in whole hertz, held as a 64-bit integer so that sums and multiples are exact.
/// The smallest unit is 1 Hz; the sign is kept (a shift may be negative); <c>default</c> is 0 Hz.
/// </summary>
public readonly record struct Frequency : IComparable<Frequency>
{
    /// <summary>
    /// The highest frequency that is read, in hertz: the upper end of EHF, 300 GHz (Recommendation ITU-R V.431, table 1). Sums of products
    /// of such carriers stay exact.
    /// </summary>
    public const long GreatestHertz = 300_000_000_000;

    private static readonly UnitTable _units = new("a frequency", "MHz", "145.05 MHz", UnitTable.Prefixed("Hz", 0, 12));

    private Frequency(long hertz) => Hertz = hertz;

    /// <summary>Whole hertz.</summary>
    public long Hertz { get; }

    /// <summary>Megahertz, rounded to the nearest double.</summary>
    public double Megahertz => Hertz / 1e6;

    /// <summary>Makes a frequency from whole hertz.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The least 64-bit integer, whose negative does not exist.</exception>
    public static Frequency FromHertz(long hertz) =>
        hertz == long.MinValue ? throw new ArgumentOutOfRangeException(nameof(hertz)) : new(hertz);

    /// <summary>Reads a frequency such as <c>145.05 MHz</c> (Hz, kHz, MHz, GHz, THz), of either sign, exactly.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The frequency, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Frequency value, out string problem)
    {
        value = default;
        if (!_units.TryMatch(text, out NumberText number, out UnitSymbol unit, out problem))
        {
            return false;
        }

        switch (number.ToWhole(unit.PowerOfTen, out long hertz))
        {
            case WholeNumber.Exact when Math.Abs(hertz) <= GreatestHertz:
                value = new Frequency(hertz);
                return true;
            case WholeNumber.HasFraction:
                problem = $"{UnitTable.Quoted(text)} is finer than 1 Hz; write a whole number of hertz";
                return false;
            default:
                problem = $"{UnitTable.Quoted(text)} is too high for a receiver; write a frequency of at most 300 GHz";
                return false;
        }
    }

    /// <summary>
    /// As <see cref="TryParse"/>, and refuses zero and what is below it: for carriers, channels and bandwidths that must exist.
    /// </summary>
    public static bool TryParsePositive(string text, out Frequency value, out string problem)
    {
        if (!TryParse(text, out value, out problem))
        {
            return false;
        }

        if (value.Hertz > 0)
        {
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is {(value.Hertz == 0 ? "zero" : "negative")}; write a frequency above 0, like 145.05 MHz";
        value = default;
        return false;
    }

    /// <summary>As <see cref="TryParse"/>, and refuses what is below zero: for widths, of which 0 means an unmodulated carrier.</summary>
    public static bool TryParseNotNegative(string text, out Frequency value, out string problem)
    {
        if (!TryParse(text, out value, out problem))
        {
            return false;
        }

        if (value.Hertz >= 0)
        {
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is negative; write a frequency of 0 or more, like 12.5 kHz";
        value = default;
        return false;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not a frequency.</exception>
    public static Frequency Parse(string text) =>
        TryParse(text, out Frequency value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>
    /// As <see cref="TryParse"/>, and takes a bare number as megahertz: only for places that say so, such as the command <c>mix</c>.
    /// </summary>
    public static bool TryParseMegahertz(string text, out Frequency value, out string problem)
    {
        string clean = (text ?? "").Trim();
        bool bare = NumberText.TryRead(clean, out _, out int length) && length == clean.Length;
        return TryParse(bare ? clean + " MHz" : clean, out value, out problem);
    }

    /// <summary>Sum, exact; overflow is an exception.</summary>
    public static Frequency operator +(Frequency a, Frequency b) => FromHertz(checked(a.Hertz + b.Hertz));

    /// <summary>Difference, exact; overflow is an exception.</summary>
    public static Frequency operator -(Frequency a, Frequency b) => FromHertz(checked(a.Hertz - b.Hertz));

    /// <summary>Multiple, exact; overflow is an exception.</summary>
    public static Frequency operator *(long factor, Frequency a) => FromHertz(checked(factor * a.Hertz));

    /// <summary>Order by hertz.</summary>
    public static bool operator <(Frequency a, Frequency b) => a.Hertz < b.Hertz;

    /// <summary>Order by hertz.</summary>
    public static bool operator >(Frequency a, Frequency b) => a.Hertz > b.Hertz;

    /// <summary>Order by hertz.</summary>
    public static bool operator <=(Frequency a, Frequency b) => a.Hertz <= b.Hertz;

    /// <summary>Order by hertz.</summary>
    public static bool operator >=(Frequency a, Frequency b) => a.Hertz >= b.Hertz;

    /// <inheritdoc/>
    public int CompareTo(Frequency other) => Hertz.CompareTo(other.Hertz);

    /// <summary>Engineering notation with all digits (<c>145.05 MHz</c>, <c>12.5 kHz</c>); reads back exactly.</summary>
    public override string ToString()
    {
        (long size, int decimals, string unit) = Math.Abs(Hertz) switch
        {
            >= 1_000_000_000_000 => (1_000_000_000_000L, 12, "THz"),
            >= 1_000_000_000 => (1_000_000_000L, 9, "GHz"),
            >= 1_000_000 => (1_000_000L, 6, "MHz"),
            >= 1_000 => (1_000L, 3, "kHz"),
            _ => (1L, 0, "Hz"),
        };
        (long whole, long rest) = Math.DivRem(Math.Abs(Hertz), size);
        string fraction = rest == 0 ? "" : "." + rest.ToString(CultureInfo.InvariantCulture).PadLeft(decimals, '0').TrimEnd('0');
        return string.Create(CultureInfo.InvariantCulture, $"{(Hertz < 0 ? "-" : "")}{whole}{fraction} {unit}");
    }
}
