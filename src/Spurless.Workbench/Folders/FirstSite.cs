using System.Text;
using Spurless.Files.Yaml.Editing;

namespace Spurless.Workbench.Folders;

/// <summary>A transmitter near by, as far as it is known; every text may be blank.</summary>
/// <param name="Name">What one calls it.</param>
/// <param name="Frequency">Its carrier.</param>
/// <param name="Emission">Its emission designator.</param>
/// <param name="Level">Its level at the antenna connector, measured.</param>
/// <param name="Power">Transmitter output, for a prediction where it was not measured.</param>
/// <param name="Antenna">Gain of its antenna.</param>
/// <param name="Distance">How far it is.</param>
public sealed record FirstEmitter(
    string Name, string Frequency, string Emission, string Level, string Power, string Antenna, string Distance)
{
    /// <summary>Whether nothing at all is known.</summary>
    public bool IsBlank => string.IsNullOrWhiteSpace(Name + Frequency + Emission + Level + Power + Antenna + Distance);
}

/// <summary>What a person knows who hears something on his channel: the answers to four questions. Every text may be blank.</summary>
public sealed record FirstSite
{
    /// <summary>A receiver whose sensitivity nobody looked up: a common figure of a narrow FM receiver (common practice).</summary>
    public const string AssumedSensitivity = "0.25 uV pd";

    /// <summary>A receiver whose intercept nobody measured (common practice, the typical guess of the site reader).</summary>
    public const string AssumedIntercept = "-10 dBm";

    /// <summary>A carrier of which nothing more is known: the width of a narrow FM channel (common practice).</summary>
    public const string AssumedBandwidth = "16 kHz";

    /// <summary>Name of the site.</summary>
    public string Site { get; init; } = "";

    /// <summary>The channel's centre.</summary>
    public string Frequency { get; init; } = "";

    /// <summary>The channel's raster.</summary>
    public string Channel { get; init; } = "";

    /// <summary>What it sounds like.</summary>
    public IReadOnlyList<string> Heard { get; init; } = [];

    /// <summary>Gain of the receiver's own antenna.</summary>
    public string Antenna { get; init; } = "";

    /// <summary>The transmitters near by.</summary>
    public IReadOnlyList<FirstEmitter> Emitters { get; init; } = [];

    /// <summary>A circuit or sweep of a filter, by its name in the folder; blank for none.</summary>
    public string Filter { get; init; } = "";

    /// <summary>The site file that holds the answers, with what was assumed in its comments.</summary>
    public string ToText()
    {
        StringBuilder head = new();
        head.Append(
            "# Made from the answers to the first four questions. It is yours: change it here, in a text editor, or on the site page.\n");
        string text = head + """
            spurless: 1
            site: site
            receivers:
              - name: receiver
                frequency: 145 MHz
                channel: 12.5 kHz
                sensitivity: SENSITIVITY       # assumed; the data sheet's figure belongs here
                iip3: INTERCEPT              # assumed, a typical guess; or the data sheet's intermod_rejection
            """.ReplaceLineEndings("\n")
            .Replace("SENSITIVITY", AssumedSensitivity, StringComparison.Ordinal)
            .Replace("INTERCEPT", AssumedIntercept, StringComparison.Ordinal) + "\n";

        void Set(string field, string value) => text = FieldText.TrySet(text, field, value, out string? edited, out _) ? edited : text;
        Set("site", Site);
        if (Heard.Count > 0)
        {
            text = YamlEditor.TryInsertKey(
                text, YamlPath.Root, "heard", YamlValue.List([.. Heard.Select(YamlValue.Of)]), out string? told, out _) ? told : text;
        }

        Set("receivers[0].frequency", Frequency);
        Set("receivers[0].channel", Channel);
        if (!string.IsNullOrWhiteSpace(Antenna))
        {
            Set("receivers[0].antenna.gain", Antenna);
        }

        if (!string.IsNullOrWhiteSpace(Filter))
        {
            Set($"receivers[0].chain[0].{(Filter.EndsWith("p", StringComparison.OrdinalIgnoreCase) ? "two_port" : "circuit")}", Filter);
        }

        int n = 0;
        foreach (FirstEmitter emitter in Emitters.Where(static e => !e.IsBlank))
        {
            string at = FormattableString.Invariant($"emitters[{n++}].");
            bool named = !string.IsNullOrWhiteSpace(emitter.Name);
            Set(at + "name", named ? emitter.Name : FormattableString.Invariant($"transmitter {n}"));
            Set(at + "frequency", emitter.Frequency);
            Set(
                at + (string.IsNullOrWhiteSpace(emitter.Emission) ? "bandwidth" : "emission"),
                string.IsNullOrWhiteSpace(emitter.Emission) ? AssumedBandwidth : emitter.Emission);
            Set(at + "level", emitter.Level);
            Set(at + "power", emitter.Power);
            Set(at + "antenna.gain", emitter.Antenna);
            Set(at + "distance", emitter.Distance);
        }

        return text;
    }

    /// <summary>A file's name for the site: its letters and digits, the rest as hyphens.</summary>
    public string FileName
    {
        get
        {
            string[] words = new string(
                [
                    .. Site.Trim().ToLowerInvariant().Select(static c => char.IsAsciiLetterOrDigit(c) ? c : ' '),
                ]).Split(' ', StringSplitOptions.RemoveEmptyEntries);
            string name = string.Join('-', words);
            return (name.Length == 0 ? "first" : name.Length > 60 ? name[..60] : name) + ".site.yaml";
        }
    }
}
