using System.Diagnostics.CodeAnalysis;
using System.Text.Json.Nodes;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>A list of things of one shape.</summary>
internal sealed class ListShape<T>(Shape<T> item, int least, int most) : Shape<IReadOnlyList<T>>
{
    public override string Wanted => $"a list, each item {item.Wanted}";

    public override JsonObject Describe()
    {
        JsonObject schema = new() { ["type"] = "array", ["items"] = item.Describe() };
        if (least > 0)
        {
            schema["minItems"] = least;
        }

        if (most < int.MaxValue)
        {
            schema["maxItems"] = most;
        }

        return schema;
    }

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out IReadOnlyList<T> value)
    {
        value = null;
        if (node is not YamlSequence sequence)
        {
            Mismatch(node, diagnostics);
            return false;
        }

        if (sequence.IsComplete && sequence.Items.Count < least)
        {
            node.Error(diagnostics, $"the list has {Count(sequence.Items.Count)}", $"write at least {least}");
        }
        else if (sequence.Items.Count > most)
        {
            node.Error(diagnostics, $"the list has {Count(sequence.Items.Count)}", $"write at most {most}");
        }

        List<T> items = new(sequence.Items.Count);
        foreach (YamlNode child in sequence.Items)
        {
            if (item.TryRead(child, diagnostics, out T? read))
            {
                items.Add(read);
            }
        }

        value = items;
        return true;
    }

    private static string Count(int n) => n == 1 ? "1 item" : FormattableString.Invariant($"{n} items");
}

/// <summary>Keys that the user names freely, with values of one shape.</summary>
internal sealed class MapShape<T>(Shape<T> item, string keyWanted) : Shape<IReadOnlyList<Named<T>>>
{
    public override string Wanted => $"{{ {keyWanted}: {item.Wanted} }}";

    public override JsonObject Describe() => new() { ["type"] = "object", ["additionalProperties"] = item.Describe() };

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out IReadOnlyList<Named<T>> value)
    {
        value = null;
        if (node is not YamlMapping mapping)
        {
            Mismatch(node, diagnostics);
            return false;
        }

        List<Named<T>> items = new(mapping.Entries.Count);
        foreach (YamlEntry entry in mapping.Entries)
        {
            if (entry.Key.Text.Length == 0)
            {
                entry.Key.Error(diagnostics, "a key without a name", $"write {keyWanted} before the colon");
            }
            else if (item.TryRead(entry.Value, diagnostics, out T? read))
            {
                items.Add(new Named<T>(entry.Key.Text, read, entry.Key));
            }
        }

        value = items;
        return true;
    }
}

/// <summary>Something that may be written as a single value, a list or a mapping.</summary>
internal sealed class ByKindShape<T>(Shape<T>? scalar, Shape<T>? sequence, Shape<T>? mapping) : Shape<T>
{
    private readonly Shape<T>[] _all = [.. new[] { scalar, sequence, mapping }.OfType<Shape<T>>()];

    public override string Wanted => string.Join(", or ", _all.Select(static s => s.Wanted));

    public override JsonObject Describe()
    {
        JsonArray any = [];
        foreach (Shape<T> shape in _all)
        {
            any.Add((JsonNode)shape.Describe());
        }

        return new JsonObject { ["anyOf"] = any };
    }

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out T value)
    {
        Shape<T>? fitting = node switch
        {
            YamlScalar { IsMissing: true } => null,
            YamlScalar => scalar,
            YamlSequence => sequence,
            _ => mapping,
        };
        if (fitting is not null)
        {
            return fitting.TryRead(node, diagnostics, out value);
        }

        Mismatch(node, diagnostics);
        value = default;
        return false;
    }
}

/// <summary>A mapping whose keys are fixed. The same function reads it and, with a describing reader, tells its keys.</summary>
internal sealed class MappingShape<T>(string wanted, Func<MappingReader, T> read) : Shape<T>
{
    public override string Wanted => wanted;

    public override JsonObject Describe()
    {
        MappingReader reader = MappingReader.Describing();
        _ = read(reader);
        return reader.Describe();
    }

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out T value)
    {
        if (node is not YamlMapping mapping)
        {
            Mismatch(node, diagnostics);
            value = default;
            return false;
        }

        MappingReader reader = new(mapping, diagnostics);
        value = read(reader);
        reader.Finish();
        return true;
    }
}
