using System.Text.Json.Nodes;
using Spurless.Circuits.Parts;
using Spurless.Circuits.TwoPorts;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>A part of a circuit file: the key that says what it is decides which others it may have.</summary>
/// <param name="two">Reads the file of a two-port block; null while only the keys are asked for.</param>
internal sealed class PartShape(Func<Located<string>, ITwoPort?>? two) : Shape<PartDraft>
{
    private static readonly (string Key, Func<MappingReader, PartShape, PartDraft> Read)[] _kinds =
    [
        ("inductor", static (r, _) => PartKinds.Inductor(r)),
        ("capacitor", static (r, _) => PartKinds.Capacitor(r)),
        ("resistor", static (r, _) => PartKinds.Resistor(r)),
        ("coil", static (r, _) => PartKinds.Coil(r)),
        ("coupling", static (r, _) => PartKinds.Coupling(r)),
        ("line", static (r, _) => PartKinds.Line(r)),
        ("transformer", static (r, _) => PartKinds.Transformer(r)),
        ("two_port", static (r, me) => PartKinds.TwoPort(r, me.Open)),
    ];

    private static readonly string _list = string.Join(", ", _kinds.Select(static k => k.Key));

    public override string Wanted => "a part such as { inductor: 24 nH, between: [a, gnd] }";

    public override JsonObject Describe()
    {
        JsonArray any = [];
        foreach ((string key, Func<MappingReader, PartShape, PartDraft> read) in _kinds)
        {
            MappingReader reader = MappingReader.Describing();
            read(reader, this);
            JsonObject schema = reader.Describe();
            schema["title"] = key;
            any.Add((JsonNode)schema);
        }

        return new JsonObject { ["oneOf"] = any };
    }

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, out PartDraft value)
    {
        value = PartDraft.None;
        if (node is not YamlMapping mapping)
        {
            node.Error(
                diagnostics,
                node is YamlScalar { IsMissing: true } ? "there is no part" : $"{node.Kind} where a part should stand",
                $"write {Wanted}");
            return false;
        }

        List<(YamlEntry Entry, Func<MappingReader, PartShape, PartDraft> Read)> found =
        [
            .. _kinds
                .Select(k => (Entry: mapping.Find(k.Key), k.Read))
                .Where(static k => k.Entry is not null)
                .Select(static k => (k.Entry!, k.Read)),
        ];
        if (found.Count == 0)
        {
            foreach (YamlEntry entry in mapping.Entries)
            {
                if (Nearest.Find(entry.Key.Text, _kinds.Select(static k => k.Key)) is { } near)
                {
                    entry.Key.Error(diagnostics, $"unknown key '{Quote.Short(entry.Key.Text)}'", $"write '{near}'");
                    return false;
                }
            }

            if (mapping.IsComplete)
            {
                mapping.Error(diagnostics, "nothing says what kind of part this is", $"write one of {_list}");
            }

            return false;
        }

        if (found.Count > 1)
        {
            YamlEntry second = found.Select(static f => f.Entry).OrderBy(static e => e.Key.Start.Index).ElementAt(1);
            second.Key.Error(diagnostics, $"'{second.Key.Text}' makes a second kind of part of this one", "write two parts");
            return false;
        }

        MappingReader reader = new(mapping, diagnostics);
        value = found[0].Read(reader, this);
        reader.Finish();
        return true;
    }

    private ITwoPort? Open(Located<string> path) => two?.Invoke(path);
}

/// <summary>A part as read, still without its name; no part where an error stood in the way.</summary>
internal sealed record PartDraft(Part? Part)
{
    public static PartDraft None { get; } = new((Part?)null);
}
