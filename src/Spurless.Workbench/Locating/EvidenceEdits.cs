using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;
using Spurless.Mixing.Evidence;
using Spurless.Sites.Locating;

namespace Spurless.Workbench.Locating;

/// <summary>A reading as somebody typed it: bare numbers, or with their unit.</summary>
/// <param name="OverNoise">What was read before, over noise, in dB where no unit stands; not used for an offset.</param>
/// <param name="Value">The fall in dB, or the offset in hertz.</param>
/// <param name="PlusMinus">One sigma in the same unit; empty for what is usual.</param>
public sealed record TypedReading(string OverNoise, string Value, string PlusMinus);

/// <summary>
/// Writes observations into a site file's text: what stands there stays, comments too. Whether what was typed makes sense is for the
/// reader of the site file to say, in its own words.
/// </summary>
public static class EvidenceEdits
{
    /// <summary>Adds a reading at the end of <c>evidence</c>.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="located">The receiver that the observation was advised for.</param>
    /// <param name="ask">The observation.</param>
    /// <param name="reading">What was read.</param>
    /// <param name="edited">The changed text.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryAdd(
        string text, LocatedReceiver located, Observation ask, TypedReading reading,
        [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(located);
        ArgumentNullException.ThrowIfNull(reading);
        if (Item(located, ask, reading) is not { } item)
        {
            (edited, problem) = (null, "a moment belongs into a log; mark who is on, then 'Heard now' or 'Not heard now'");
            return false;
        }

        return TryAppend(text, item, out edited, out problem);
    }

    /// <summary>Adds a log at the end of <c>evidence</c>.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="path">The log's path relative to the site file.</param>
    /// <param name="edited">The changed text.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryAddLog(
        string text, string path, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem) =>
        TryAppend(text, YamlValue.Map(("log", YamlValue.Of(path))), out edited, out problem);

    /// <summary>Adds what a recording of a receiver's channel holds at the end of <c>evidence</c>.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="receiver">The receiver's name.</param>
    /// <param name="kinds">The words of the kinds.</param>
    /// <param name="deviationHz">Peak deviation, where it was measured.</param>
    /// <param name="edited">The changed text.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryAddRecording(
        string text, string receiver, IReadOnlyList<string> kinds, double? deviationHz,
        [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        List<(string, YamlValue)> keys =
        [
            ("receiver", YamlValue.Of(receiver)), ("kinds", YamlValue.List([.. kinds.Select(static k => YamlValue.Of(k))])),
        ];
        if (deviationHz is { } hz)
        {
            keys.Add(("deviation", YamlValue.Of((hz / 1_000).ToString("0.0", CultureInfo.InvariantCulture) + " kHz")));
        }

        return TryAppend(text, Entry("recording", [.. keys]), out edited, out problem);
    }

    private static YamlValue? Item(LocatedReceiver located, Observation ask, TypedReading reading)
    {
        (string, YamlValue) receiver = ("receiver", YamlValue.Of(located.Findings.Name));
        (string, YamlValue)[] fall =
        [
            ("over_noise", With(reading.OverNoise, "dB")), ("fall", With(reading.Value, "dB")), .. Doubt(reading, "dB"),
        ];
        return ask switch
        {
            PadInLine pad => Entry(
                "attenuator_test",
                [receiver, ("inserted", Decibels(pad.PadDb)), ("at", YamlValue.Of(pad.FirstStageBehind == 0 ? "antenna" : "receiver")),
                    .. fall]),
            FilterInLine filter => Entry(
                "filter_test", [receiver, ("inserted", YamlValue.Of(located.Filters[filter.Filter])), .. fall]),
            EmitterDown down => Entry(
                "emitter_reduced",
                [receiver, ("emitter", YamlValue.Of(located.Findings.Carriers[down.Emitter].Emitter)),
                    ("by", double.IsPositiveInfinity(down.ByDb) ? YamlValue.Of("off") : Decibels(down.ByDb)), .. fall]),
            OffsetReading => Entry("offset", [receiver, ("measured", With(reading.Value, "Hz")), .. Doubt(reading, "Hz")]),
            _ => null,
        };
    }

    private static YamlValue Entry(string kind, (string, YamlValue)[] keys) => YamlValue.Map((kind, YamlValue.Map(keys)));

    private static (string, YamlValue)[] Doubt(TypedReading reading, string unit) =>
        string.IsNullOrWhiteSpace(reading.PlusMinus) ? [] : [("plus_minus", With(reading.PlusMinus, unit))];

    private static bool TryAppend(
        string text, YamlValue item, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        YamlMapping? root = YamlReader.Read(text, "site", new DiagnosticBag());
        return root?.Entries.FirstOrDefault(static e => e.Key.Text == "evidence")?.Value is YamlSequence { Items.Count: > 0 } list
            ? YamlEditor.TryInsertItem(text, YamlPath.Root.Key("evidence"), list.Items.Count, item, out edited, out problem)
            : YamlEditor.TryInsertKey(text, YamlPath.Root, "evidence", YamlValue.List(item), out edited, out problem);
    }

    // A bare number gets its unit; anything else stays as typed.
    private static YamlValue With(string typed, string unit)
    {
        string text = typed.Trim().Replace('\u2212', '-');
        const NumberStyles Bare = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        return YamlValue.Of(double.TryParse(text, Bare, CultureInfo.InvariantCulture, out _) ? $"{text} {unit}" : text);
    }

    private static YamlValue Decibels(double value) => YamlValue.Of(value.ToString("0.###", CultureInfo.InvariantCulture) + " dB");
}
