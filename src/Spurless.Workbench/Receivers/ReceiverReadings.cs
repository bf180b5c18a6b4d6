using Spurless.Files.Yaml;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Receivers;

/// <summary>A key that a kind of reading has.</summary>
/// <param name="Key">As the file names it; empty where the kind itself carries the value.</param>
/// <param name="Name">What it is, in words.</param>
/// <param name="Like">What one writes.</param>
public sealed record ReadingKey(string Key, string Name, string Like);

/// <summary>A kind of reading.</summary>
/// <param name="Kind">As the file names it.</param>
/// <param name="Name">What it is, in words.</param>
/// <param name="Keys">What it has.</param>
public sealed record ReadingKind(string Kind, string Name, IReadOnlyList<ReadingKey> Keys);

/// <summary>A key of a reading, as it stands in a file.</summary>
/// <param name="Field">Its place, as findings name it.</param>
/// <param name="Key">The key.</param>
/// <param name="Text">What stands there; empty where it is not written.</param>
public sealed record ReadingField(string Field, ReadingKey Key, string Text);

/// <summary>A reading of a file.</summary>
/// <param name="Item">Its place in the list, as findings name it.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Fields">All keys that its kind has.</param>
public sealed record ListedReading(string Item, ReadingKind Kind, IReadOnlyList<ReadingField> Fields);

/// <summary>The readings of a file of measurements as texts that can be typed.</summary>
public static class ReceiverReadings
{
    private static readonly ReadingKey _error = new("plus_minus", "one sigma", "1 dB");

    /// <summary>The kinds of readings, in the order in which one takes them.</summary>
    public static IReadOnlyList<ReadingKind> Kinds { get; } =
    [
        new("sensitivity", "sensitivity, 12 dB SINAD",
            [new("level", "level", "-120 dBm"), new("noise_figure", "or noise figure", "6 dB"), _error]),
        new("two_tone", "two tones",
        [
            new("order", "order", "3"), new("tones", "tones", "[145.1 MHz, 145.15 MHz]"), new("level", "each tone", "-45 dBm"),
            new("levels", "or apart", "[-44 dBm, -40 dBm]"), new("product", "reads like", "-94 dBm"), _error,
        ]),
        new("response", "response off the channel", [new("at", "at", "102.25 MHz"), new("level", "level", "-41 dBm"), _error]),
        new("blocking", "blocking, 3 dB lost", [new("at", "at", "146.05 MHz"), new("level", "level", "-29 dBm"), _error]),
        new("front_end", "front end, a sweep", [new("", "file", "front-end.s2p")]),
        new("product", "mixture at a site",
        [
            new("site", "site file", "my.site.yaml"), new("receiver", "receiver", "input"), new("terms", "terms", "{ pager: 1, bus: -2 }"),
            new("over_noise", "over noise", "22 dB"), _error,
        ]),
    ];

    /// <summary>The readings of a document, also where their values have errors; none where its form has.</summary>
    /// <param name="text">The document.</param>
    public static IReadOnlyList<ListedReading> Of(string text)
    {
        if (FieldText.Parse(text) is not { } root || FieldText.NodeOf(root, "measured") is not YamlSequence measured)
        {
            return [];
        }

        List<ListedReading> all = [];
        for (int i = 0; i < measured.Items.Count; i++)
        {
            string item = FormattableString.Invariant($"measured[{i}]");
            if (Kinds.FirstOrDefault(k => FieldText.NodeOf(root, $"{item}.{k.Kind}") is not null) is { } kind)
            {
                all.Add(new ListedReading(
                    item, kind,
                    [
                        .. kind.Keys.Select(k => (Key: k, Field: k.Key.Length == 0 ? $"{item}.{kind.Kind}" : $"{item}.{kind.Kind}.{k.Key}"))
                            .Select(f => new ReadingField(f.Field, f.Key, FieldText.ValueOf(root, f.Field) ?? "")),
                    ]));
            }
        }

        return all;
    }
}
