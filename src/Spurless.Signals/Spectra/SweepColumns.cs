using Spurless.Files;

namespace Spurless.Signals.Spectra;

/// <summary>Which columns of a table hold frequency and level: <c>frequency=Freq [MHz], level=Ampl [dBm]</c>.</summary>
/// <param name="Frequency">Head of the frequency's column.</param>
/// <param name="Level">Head of the level's column.</param>
public sealed record SweepColumns(string Frequency, string Level)
{
    private static readonly (string Unit, double Hertz)[] Frequencies = [("GHz", 1e9), ("MHz", 1e6), ("kHz", 1e3), ("Hz", 1)];

    /// <summary>Reads the option.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The columns.</param>
    /// <param name="problem">What is wrong; what to write instead.</param>
    public static bool TryParse(string text, out SweepColumns value, out string problem)
    {
        (string? frequency, string? level) = (null, null);
        foreach (string part in (text ?? "").Split(','))
        {
            int at = part.IndexOf('=', StringComparison.Ordinal);
            string key = at < 0 ? "" : part[..at].Trim();
            string head = at < 0 ? "" : part[(at + 1)..].Trim();
            (frequency, level) = key switch
            {
                "frequency" => (head, level),
                "level" => (frequency, head),
                _ => (frequency, level),
            };
        }

        value = new SweepColumns(frequency ?? "", level ?? "");
        problem = value.Frequency.Length > 0 && value.Level.Length > 0
            ? ""
            : $"'{Quote.Short(text ?? "")}' does not name both columns; write \"frequency=Freq [MHz], level=Ampl [dBm]\"";
        return problem.Length == 0;
    }

    /// <summary>Hertz of one of a head's unit; null where it has none.</summary>
    internal static double? HertzOf(string head)
    {
        string unit = UnitOf(head);
        foreach ((string name, double hertz) in Frequencies)
        {
            if (unit == name)
            {
                return hertz;
            }
        }

        return head == "frequency_hz" ? 1 : null;
    }

    /// <summary>What makes dBm of a level in a head's unit: added; null where it has none. dBuV counts in 50 ohm.</summary>
    internal static double? DbmOf(string head) => UnitOf(head) switch
    {
        "dBm" => 0,
        "dBuV" or "dBµV" or "dBμV" => -106.98970004336019,
        _ when IsFieldStrength(head) => -106.98970004336019,
        _ => head == "level_dbm" ? 0 : null,
    };

    /// <summary>Whether a head's unit is one of field strength.</summary>
    internal static bool IsFieldStrength(string head) => UnitOf(head) is "dBuV/m" or "dBµV/m" or "dBμV/m";

    private static string UnitOf(string head)
    {
        int open = head.LastIndexOfAny(['[', '(']);
        int close = head.LastIndexOfAny([']', ')']);
        return open >= 0 && close > open ? head[(open + 1)..close].Trim() : "";
    }
}
