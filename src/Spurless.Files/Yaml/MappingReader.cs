using System.Text.Json.Nodes;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>
/// Reads the keys of one mapping. Every key that is asked for is known; <see cref="Finish"/> reports the others. A reader made by
/// <see cref="Describing"/> has nothing to read and only remembers what it is asked for: that gives the JSON Schema.
/// </summary>
public sealed class MappingReader
{
    private readonly YamlMapping? _mapping;
    private readonly DiagnosticBag _diagnostics;
    private readonly List<string> _known = [];
    private readonly JsonObject _properties = [];
    private readonly JsonArray _required = [];
    private readonly JsonArray _rules = [];

    /// <summary>A reader of a mapping.</summary>
    public MappingReader(YamlMapping mapping, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(mapping);
        ArgumentNullException.ThrowIfNull(diagnostics);
        _mapping = mapping;
        _diagnostics = diagnostics;
    }

    private MappingReader() => _diagnostics = new DiagnosticBag();

    /// <summary>The mapping that is read; null while only the keys are asked for.</summary>
    public YamlMapping? Node => _mapping;

    /// <summary>Where findings go.</summary>
    public DiagnosticBag Diagnostics => _diagnostics;

    /// <summary>A reader that only learns which keys there are.</summary>
    public static MappingReader Describing() => new();

    /// <summary>Whether the key stands in the file. Makes no key known.</summary>
    public bool Has(string key) => _mapping?.Find(key) is not null;

    /// <summary>A key that must be there.</summary>
    /// <param name="key">The key.</param>
    /// <param name="shape">What its value looks like.</param>
    /// <param name="about">What it means, for the schema.</param>
    /// <returns>Its value; the type's default where it is missing or wrong, which is reported.</returns>
    public T Required<T>(string key, Shape<T> shape, string about = "")
    {
        ArgumentNullException.ThrowIfNull(shape);
        Learn(key, shape, about);
        if (_mapping is null)
        {
            _required.Add(key);
        }

        if (TryGet(key, shape, out T? value))
        {
            return value!;
        }

        if (_mapping is { IsComplete: true } && !Has(key))
        {
            _mapping.Error(_diagnostics, $"the key '{key}' is missing", $"add '{key}:' with {shape.Wanted}");
        }

        return default!;
    }

    /// <summary>A key that may be there.</summary>
    /// <returns>Its value; null where it is missing or wrong (the latter is reported).</returns>
    public T? Optional<T>(string key, Shape<T> shape, string about = "")
        where T : class
    {
        Learn(key, shape, about);
        return TryGet(key, shape, out T? value) ? value : null;
    }

    /// <summary>A key that may be there, of a value type.</summary>
    /// <returns>Its value; null where it is missing or wrong (the latter is reported).</returns>
    public T? Maybe<T>(string key, Shape<T> shape, string about = "")
        where T : struct
    {
        Learn(key, shape, about);
        return TryGet(key, shape, out T value) ? value : null;
    }

    /// <summary>A key that may be there, its value read by a parser.</summary>
    public T? Maybe<T>(string key, TextParser<T> parser, string wanted, string about = "")
        where T : struct => Maybe(key, Shapes.Value(wanted, parser), about);

    /// <summary>A key that may be there, with a value for when it is not.</summary>
    public T Or<T>(string key, Shape<T> shape, T otherwise, string about = "")
    {
        Learn(key, shape, about);
        return TryGet(key, shape, out T? value) ? value! : otherwise;
    }

    /// <summary>Reports two or more ways of saying one thing.</summary>
    /// <param name="keys">Keys of which at most one may stand.</param>
    public void AtMostOne(params string[] keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        if (_mapping is null)
        {
            for (int i = 0; i < keys.Length; i++)
            {
                for (int j = i + 1; j < keys.Length; j++)
                {
                    _rules.Add((JsonNode)new JsonObject { ["not"] = new JsonObject { ["required"] = new JsonArray(keys[i], keys[j]) } });
                }
            }

            return;
        }

        List<YamlEntry> present =
        [
            .. keys
                .Select(_mapping.Find).OfType<YamlEntry>()
                .OrderBy(static e => e.Place.Start.Line)
                .ThenBy(static e => e.Place.Start.Column),
        ];
        foreach (YamlEntry second in present.Skip(1))
        {
            second.Place.Error(
                _diagnostics, $"'{second.Key.Text}' and '{present[0].Key.Text}' are two ways of saying one thing", "keep one of the two");
        }
    }

    /// <summary>Reports that none of several keys is there.</summary>
    /// <param name="remedy">What to write.</param>
    /// <param name="keys">Keys of which at least one must stand.</param>
    public void AtLeastOne(string remedy, params string[] keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        if (_mapping is null)
        {
            _rules.Add(
                (JsonNode)new JsonObject
                {
                    ["anyOf"] = new JsonArray([.. keys.Select(static k => (JsonNode)new JsonObject { ["required"] = new JsonArray(k) })]),
                });
        }
        else if (_mapping.IsComplete && !keys.Any(Has))
        {
            _mapping.Error(
                _diagnostics,
                keys.Length == 2
                    ? $"there is neither '{keys[0]}' nor '{keys[1]}'"
                    : "there is none of " + string.Join(", ", keys.Select(static k => $"'{k}'")),
                remedy);
        }
    }

    /// <summary>Reports that not exactly one of several keys is there.</summary>
    /// <inheritdoc cref="AtLeastOne"/>
    public void ExactlyOne(string remedy, params string[] keys)
    {
        AtLeastOne(remedy, keys);
        AtMostOne(keys);
    }

    /// <summary>Reports that not exactly one of several keys is there, where each makes the mapping a different kind of thing.</summary>
    /// <inheritdoc cref="AtLeastOne"/>
    public void ExactlyOneKind(string remedy, params string[] keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        if (_mapping is null)
        {
            ExactlyOne(remedy, keys);
            return;
        }

        if (_mapping.IsComplete && _mapping.Entries.Count == 0)
        {
            _mapping.Error(_diagnostics, "nothing stands here", remedy);
        }

        foreach (YamlEntry second in keys.Select(_mapping.Find).OfType<YamlEntry>().OrderBy(static e => e.Key.Start.Index).Skip(1))
        {
            second.Place.Error(
                _diagnostics, $"'{second.Key.Text}' is a thing of its own", "give it an item of its own, with '- ' before it");
        }
    }

    /// <summary>Reports that a key stands without another it needs.</summary>
    /// <param name="key">The key.</param>
    /// <param name="needed">The key it needs.</param>
    /// <param name="remedy">What to write.</param>
    public void Needs(string key, string needed, string remedy)
    {
        if (_mapping is null)
        {
            _rules.Add(
                (JsonNode)new JsonObject
                {
                    ["if"] = new JsonObject { ["required"] = new JsonArray(key) },
                    ["then"] = new JsonObject { ["required"] = new JsonArray(needed) },
                });
        }
        else if (_mapping.IsComplete && _mapping.Find(key) is { } entry && !Has(needed))
        {
            entry.Place.Error(_diagnostics, $"'{key}' stands without '{needed}'", remedy);
        }
    }

    /// <summary>Reports the keys that nobody asked for, with the nearest that would be right.</summary>
    public void Finish()
    {
        YamlEntry? before = null;
        foreach (YamlEntry entry in _mapping?.Entries ?? [])
        {
            string key = entry.Key.Text;
            YamlEntry? last = before;
            before = entry;
            if (_known.Contains(key))
            {
                continue;
            }

            if (last is { Value: YamlScalar number } && IsDecimalComma(number, entry))
            {
                number.Error(
                    _diagnostics, $"'{Quote.Short($"{number.Text},{key}")}' has a comma in the number", $"write {number.Text}.{key}");
                continue;
            }

            string? near = Nearest.Find(key, _known.Where(k => !Has(k))) ?? Nearest.Find(key, _known);
            string remedy = near is null ? "the keys here are " + string.Join(", ", _known) : $"write '{near}'";
            entry.Key.Error(_diagnostics, $"unknown key '{Quote.Short(key)}'", remedy);
        }
    }

    // '{ latitude: 40,5 }': within braces the comma ends 40, and 5 reads as a key without a value.
    private bool IsDecimalComma(YamlScalar number, YamlEntry next) => _mapping!.IsFlow && next.Value is YamlScalar { IsMissing: true }
        && number is { Style: YamlScalarStyle.Plain, Text: [.., >= '0' and <= '9'] } && next.Key.Text is [>= '0' and <= '9', ..];

    /// <summary>The JSON Schema of the keys asked for.</summary>
    public JsonObject Describe()
    {
        JsonObject schema = new() { ["type"] = "object", ["properties"] = _properties.DeepClone(), ["additionalProperties"] = false };
        if (_required.Count > 0)
        {
            schema["required"] = _required.DeepClone();
        }

        if (_rules.Count > 0)
        {
            schema["allOf"] = _rules.DeepClone();
        }

        return schema;
    }

    private void Learn<T>(string key, Shape<T> shape, string about)
    {
        ArgumentNullException.ThrowIfNull(shape);
        _known.Add(key);
        if (_mapping is not null)
        {
            return;
        }

        JsonObject schema = shape.Describe();
        if (about.Length > 0)
        {
            schema["description"] = schema["description"] is { } wanted ? $"{about}: {wanted.GetValue<string>()}" : about;
        }

        _properties[key] = schema;
    }

    private bool TryGet<T>(string key, Shape<T> shape, out T? value)
    {
        value = default;
        return _mapping?.Find(key) is { } entry && shape.TryRead(entry.Value, _diagnostics, out value);
    }
}
