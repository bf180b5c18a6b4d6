using System.Globalization;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Emissions;

/// <summary>
/// An emission designator: necessary bandwidth (three digits and a letter in the place of the decimal point) and class of emission
/// (three symbols, with an optional fourth and fifth), as in <c>11K2F3E</c> or <c>11K0G3EJN</c>. An unmodulated carrier may stand alone
/// as <c>N0N</c>, with bandwidth 0.
/// </summary>
/// <remarks>
/// Source: ITU Radio Regulations, Appendix 1; the bandwidth rules as in 47 CFR 2.202 (b) (seen). The lists of symbols are from memory
/// (47 CFR 2.201 lists the first three alike).
/// </remarks>
public readonly record struct Emission
{
    private const string FirstSymbols = "NAHRBCJFGDPKLMQVWX";
    private const string SecondSymbols = "0123789X";
    private const string ThirdSymbols = "NABCDEFWX";
    private const string FourthSymbols = "ABCDEFGHJKLMNWX";
    private const string FifthSymbols = "NCFTWX";
    private const string Example = "11K2F3E";

    private readonly string? _text;

    private Emission(string text, long millihertz, int classFrom)
    {
        _text = text;
        BandwidthMillihertz = millihertz;
        Modulation = text[classFrom];
        SignalNature = text[classFrom + 1];
        Information = text[classFrom + 2];
        Detail = text.Length > classFrom + 3 ? text[classFrom + 3] : null;
        Multiplexing = text.Length > classFrom + 4 ? text[classFrom + 4] : null;
    }

    /// <summary>The necessary bandwidth in thousandths of a hertz; 0 for a bare N0N.</summary>
    public long BandwidthMillihertz { get; }

    /// <summary>The necessary bandwidth in hertz, rounded up to a whole one; 0 for a bare N0N.</summary>
    public long BandwidthHz => (BandwidthMillihertz + 999) / 1000;

    /// <summary>First symbol: the modulation of the main carrier (F frequency, G phase, A amplitude with both sidebands ...).</summary>
    public char Modulation { get; }

    /// <summary>
    /// Second symbol: the nature of the modulating signals (3 one analogue channel, 1 one digital channel without subcarrier ...).
    /// </summary>
    public char SignalNature { get; }

    /// <summary>Third symbol: the information sent (E speech, D data, N none ...).</summary>
    public char Information { get; }

    /// <summary>Fourth symbol, details of the signal, where it is given.</summary>
    public char? Detail { get; }

    /// <summary>Fifth symbol, nature of multiplexing, where it is given.</summary>
    public char? Multiplexing { get; }

    /// <summary>The class of emission, its first three symbols: <c>F3E</c>.</summary>
    public string Class => _text is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{Modulation}{SignalNature}{Information}");

    /// <summary>Whether it is a carrier without modulation (N0N).</summary>
    public bool IsUnmodulated => Class == "N0N";

    /// <summary>Reads a designator such as <c>16K0F3E</c>, <c>11K0G3EJN</c> or <c>N0N</c>.</summary>
    /// <param name="text">The text as written, in capitals.</param>
    /// <param name="value">The designator, where the text is right.</param>
    /// <param name="problem">Where it is not: which character is bad; what to write instead.</param>
    public static bool TryParse(string text, out Emission value, out string problem)
    {
        value = default;
        string clean = (text ?? "").Trim();
        if (clean.Length == 0)
        {
            problem = $"nothing stands here; write an emission designator like {Example}";
            return false;
        }

        if (clean == "N0N")
        {
            value = new Emission(clean, 0, 0);
            problem = "";
            return true;
        }

        if (clean.Length >= 3 && !char.IsAsciiDigit(clean[0]) && clean[0] != 'H')
        {
            problem = FirstSymbols.Contains(clean[0], StringComparison.Ordinal) && clean[0] is not ('K' or 'M') && clean.Length <= 5
                ? $"{UnitTable.Quoted(text)} has no necessary bandwidth; write it in front, like {Example}"
                    + (clean == "NON" ? " (an unmodulated carrier is N0N, with the digit 0)" : "")
                : Bad(text, clean, 0, "a bandwidth begins with a digit from 1 to 9 or with H");
            return false;
        }

        if (!TryBandwidth(text, clean, out long millihertz, out problem) || !TryClass(text, clean, out problem))
        {
            return false;
        }

        value = new Emission(clean, millihertz, 4);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not an emission designator.</exception>
    public static Emission Parse(string text) =>
        TryParse(text, out Emission value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>Writes a bandwidth as the first four characters of a designator.</summary>
    /// <param name="bandwidthHz">The necessary bandwidth in hertz, 0.001 to 999 x 10^9 after rounding.</param>
    /// <returns>Three digits, rounded half up, and H, K, M or G in the place of the decimal point.</returns>
    /// <remarks>47 CFR 2.202 (b). 12,500 Hz is 12K5, 180.5 kHz is 181K, 999.6 Hz is 1K00.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The bandwidth cannot be written so.</exception>
    public static string FormatBandwidth(double bandwidthHz)
    {
        if (!double.IsFinite(bandwidthHz) || bandwidthHz < 0.0005 || bandwidthHz >= 999.5e9)
        {
            throw new ArgumentOutOfRangeException(nameof(bandwidthHz), bandwidthHz, "must be 0.001 Hz to 999 GHz");
        }

        decimal exact = (decimal)bandwidthHz;
        string letters = "HKMG";
        for (int i = 0; i < letters.Length; i++, exact /= 1000)
        {
            // Below 1 Hz three decimals; else as many as make three digits.
            int decimals = exact < 1 ? 3 : exact < 10 ? 2 : exact < 100 ? 1 : 0;
            decimal rounded = decimal.Round(exact, decimals, MidpointRounding.AwayFromZero);
            if (rounded >= 1000)
            {
                continue;
            }

            // 9.996 has become 10.00: one decimal less.
            decimals = rounded < 1 ? 3 : rounded < 10 ? 2 : rounded < 100 ? 1 : 0;
            string digits = rounded.ToString(decimals == 0 ? "0" : "0." + new string('0', decimals), CultureInfo.InvariantCulture);
            return rounded < 1
                ? "H" + digits[2..]
                : decimals == 0 ? digits + letters[i] : digits.Replace('.', letters[i]);
        }

        throw new ArgumentOutOfRangeException(nameof(bandwidthHz), bandwidthHz, "must be 0.001 Hz to 999 GHz");
    }

    /// <summary>The designator as it was written.</summary>
    public override string ToString() => _text ?? "";

    private static bool TryBandwidth(string? text, string clean, out long millihertz, out string problem)
    {
        millihertz = 0;
        problem = "";
        int letterAt = -1;
        for (int i = 0; i < 4; i++)
        {
            if (i >= clean.Length)
            {
                problem =
                    $"{UnitTable.Quoted(text)} ends within the bandwidth; "
                        + $"write three digits and one of H, K, M, G, then the class, like {Example}";
                return false;
            }

            if (char.IsAsciiDigit(clean[i]))
            {
                continue;
            }

            if (letterAt >= 0 || !"HKMG".Contains(clean[i], StringComparison.Ordinal))
            {
                problem = Bad(text, clean, i, "a bandwidth is three digits and one of H, K, M, G in the place of the decimal point");
                return false;
            }

            letterAt = i;
        }

        if (letterAt < 0)
        {
            problem = Bad(
                text, clean, 3, "within its first four characters a bandwidth has one of H, K, M, G in the place of the decimal point");
            return false;
        }

        if (clean[0] is '0' or 'K' or 'M' or 'G')
        {
            problem = Bad(text, clean, 0, "a bandwidth begins with a digit from 1 to 9 or with H");
            return false;
        }

        long digits = long.Parse(clean[..4].Remove(letterAt, 1), CultureInfo.InvariantCulture);
        if (digits == 0)
        {
            problem = $"{UnitTable.Quoted(text)} has the bandwidth 0; write a bandwidth above 0, or N0N for an unmodulated carrier";
            return false;
        }

        // The value is digits x 10^-(digits behind the letter) x unit, here in millihertz.
        long unit = clean[letterAt] switch { 'H' => 1_000L, 'K' => 1_000_000L, 'M' => 1_000_000_000L, _ => 1_000_000_000_000L };
        for (int behind = 3 - letterAt; behind > 0; behind--)
        {
            unit /= 10;
        }

        millihertz = digits * unit;
        return true;
    }

    private static bool TryClass(string? text, string clean, out string problem)
    {
        (string Symbols, string Name)[] places =
        [
            (FirstSymbols, "the first symbol, the modulation,"),
            (SecondSymbols, "the second symbol, the nature of the signal,"),
            (ThirdSymbols, "the third symbol, the information,"),
            (FourthSymbols, "the optional fourth symbol, the details of the signal,"),
            (FifthSymbols, "the optional fifth symbol, the multiplexing,"),
        ];
        for (int i = 4; i < clean.Length; i++)
        {
            if (i - 4 >= places.Length)
            {
                problem = Bad(text, clean, i, "a designator ends with its fifth symbol after the bandwidth");
                return false;
            }

            (string symbols, string name) = places[i - 4];
            if (!symbols.Contains(clean[i], StringComparison.Ordinal))
            {
                problem = Bad(text, clean, i, $"{name} is one of {symbols}");
                return false;
            }
        }

        if (clean.Length < 7)
        {
            problem =
                $"{UnitTable.Quoted(text)} ends within the class of emission; write three symbols after the bandwidth, like {Example}";
            return false;
        }

        problem = "";
        return true;
    }

    private static string Bad(string? text, string clean, int index, string rule)
    {
        bool capitals = char.IsAsciiLetterLower(clean[index]);
        string remedy = capitals ? "write it in capitals, like " + Example : "write it like " + Example;
        string shown = char.IsControl(clean[index]) || char.IsSurrogate(clean[index]) ? "?" : clean[index].ToString();
        return string.Create(
            CultureInfo.InvariantCulture, $"{UnitTable.Quoted(text)} has '{shown}' as character {index + 1}: {rule}; {remedy}");
    }
}
