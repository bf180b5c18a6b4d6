using System.Globalization;
using Spurless.Radio.Quantities;
using Spurless.Sites.Mixes;

namespace Spurless.CommandLine;

/// <summary>Frequencies with commas between them; bare numbers are in MHz.</summary>
/// <param name="Hertz">In hertz, in the order written.</param>
internal readonly record struct CarrierList(IReadOnlyList<long> Hertz)
{
    /// <summary>
    /// Whether they may be meant as half as many with a decimal comma each: an even count of whole numbers without a unit, as of '160,525'.
    /// </summary>
    public bool MayHaveDecimalCommas { get; private init; }

    /// <summary>Reads the list.</summary>
    public static bool TryParse(string text, out CarrierList value, out string problem)
    {
        value = default;
        problem = "";
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        if (parts.Length > MixQuestion.MostCarriers)
        {
            problem = $"{parts.Length} frequencies are too many; write at most {MixQuestion.MostCarriers}";
            return false;
        }

        List<long> all = [];
        foreach (string part in parts)
        {
            if (part.Length == 0)
            {
                problem = "there is a comma with no frequency beside it; write like 160.525,466.1";
                return false;
            }

            if (!TryParseCarrier(part, out Frequency one, out problem))
            {
                return false;
            }

            all.Add(one.Hertz);
        }

        value = new CarrierList(all)
        {
            MayHaveDecimalCommas = parts.Length % 2 == 0 && parts.All(static p => p.All(char.IsAsciiDigit)),
        };
        return true;
    }

    /// <summary>From here on a bare number is asked about: it is more likely in kHz than a frequency over 20 GHz.</summary>
    private const double LooksLikeKilohertz = 20_000;

    /// <summary>Reads one of them.</summary>
    public static bool TryParseCarrier(string text, out Frequency value, out string problem)
    {
        if (!Frequency.TryParseMegahertz(text, out value, out problem))
        {
            return false;
        }

        string clean = text.Trim();
        if (double.TryParse(clean, NumberStyles.Float, CultureInfo.InvariantCulture, out double bare) && bare >= LooksLikeKilohertz)
        {
            string thousandth = (bare / 1000).ToString("0.######", CultureInfo.InvariantCulture);
            problem = $"'{clean}' would be {thousandth} GHz, as a bare number is in MHz; "
                + $"is it in kHz? write {thousandth} for MHz, or '{clean} MHz' if it is that high";
            return false;
        }

        if (value.Hertz is > 0 and <= MixQuestion.MostHz)
        {
            return true;
        }

        problem = $"'{text.Trim()}' is no carrier; write a frequency above 0 and up to 1 THz, like 145.05";
        return false;
    }
}
