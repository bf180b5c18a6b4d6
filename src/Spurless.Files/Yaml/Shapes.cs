using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json.Nodes;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>
/// Makes <see cref="Shape{T}"/>s: the words in which a file format is described, once for reading and for its JSON Schema.
/// </summary>
[SuppressMessage("Naming", "CA1720", Justification = "Integer is the user's word for it.")]
public static class Shapes
{
    /// <summary>A text that is not empty, such as a name.</summary>
    public static Shape<string> Text { get; } = TextOf("a text");

    /// <summary>Yes or no.</summary>
    public static Shape<bool> Bool { get; } = new ScalarShape<bool>(
        "true or false",
        static (string text, out bool value, out string problem) =>
        {
            value = text == "true";
            problem = $"'{Quote.Short(text)}' is neither true nor false; write true or false";
            return text is "true" or "false";
        },
        static () => new JsonObject { ["type"] = "boolean" });

    /// <summary>A text that is not empty.</summary>
    /// <param name="wanted">What to write, for messages: 'the name of an emitter'.</param>
    public static Shape<string> TextOf(string wanted) => new ScalarShape<string>(
        wanted,
        (string text, out string value, out string problem) =>
        {
            value = text.Trim();
            problem = $"an empty text; write {wanted}";
            return value.Length > 0;
        },
        static () => new JsonObject { ["type"] = new JsonArray("string", "number"), ["minLength"] = 1 });

    /// <summary>A value with a unit, or any other text that a parser reads.</summary>
    /// <param name="wanted">What to write, for messages: 'a frequency such as 145.05 MHz'.</param>
    /// <param name="parser">Reads it.</param>
    public static Shape<T> Value<T>(string wanted, TextParser<T> parser) => new ScalarShape<T>(
        wanted, parser, () => new JsonObject { ["type"] = "string", ["description"] = wanted });

    /// <summary>Any text that a parser reads, also one that other readers of YAML take for a whole number.</summary>
    /// <inheritdoc cref="Value"/>
    public static Shape<T> ValueOrInteger<T>(string wanted, TextParser<T> parser) => new ScalarShape<T>(
        wanted, parser, () => new JsonObject { ["type"] = new JsonArray("string", "integer"), ["description"] = wanted });

    /// <summary>A plain number.</summary>
    /// <param name="wanted">What to write, for messages: 'degrees from -90 to 90'.</param>
    /// <param name="least">The least value allowed.</param>
    /// <param name="most">The greatest value allowed.</param>
    /// <param name="leastAllowed">False where <paramref name="least"/> itself is not allowed.</param>
    public static Shape<double> Number(
        string wanted, double least = double.MinValue, double most = double.MaxValue, bool leastAllowed = true) => new ScalarShape<double>(
        wanted,
        (string text, out double value, out string problem) =>
        {
            problem = "";
            const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
            if (!double.TryParse(text, Plain, CultureInfo.InvariantCulture, out value))
            {
                problem = $"'{Quote.Short(text)}' is not a plain number; write {wanted}";
            }
            else if (!double.IsFinite(value))
            {
                problem = $"'{Quote.Short(text)}' is not a finite number; write {wanted}";
            }
            else if (value < least || value > most || (value == least && !leastAllowed))
            {
                problem = $"'{Quote.Short(text)}' is out of range; write {wanted}";
            }

            return problem.Length == 0;
        },
        () =>
        {
            JsonObject schema = new() { ["type"] = "number", ["description"] = wanted };
            if (least > double.MinValue)
            {
                schema[leastAllowed ? "minimum" : "exclusiveMinimum"] = least;
            }

            if (most < double.MaxValue)
            {
                schema["maximum"] = most;
            }

            return schema;
        });

    /// <summary>A whole number.</summary>
    /// <inheritdoc cref="Number"/>
    public static Shape<int> Integer(string wanted, int least = int.MinValue, int most = int.MaxValue) => new ScalarShape<int>(
        wanted,
        (string text, out int value, out string problem) =>
        {
            bool whole = int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out value);
            problem = whole
                ? $"'{Quote.Short(text)}' is out of range; write {wanted}"
                : $"'{Quote.Short(text)}' is not a whole number; write {wanted}";
            return whole && value >= least && value <= most;
        },
        () =>
        {
            JsonObject schema = new() { ["type"] = "integer", ["description"] = wanted };
            if (least > int.MinValue)
            {
                schema["minimum"] = least;
            }

            if (most < int.MaxValue)
            {
                schema["maximum"] = most;
            }

            return schema;
        });

    /// <summary>One of a few words.</summary>
    public static Shape<T> Words<T>(params (string Word, T Value)[] words)
    {
        string list = string.Join(", ", words.Select(static w => w.Word));
        return new ScalarShape<T>(
            "one of " + list,
            (string text, out T value, out string problem) =>
            {
                problem = "";
                foreach ((string word, T meant) in words)
                {
                    if (string.Equals(word, text, StringComparison.Ordinal))
                    {
                        value = meant;
                        return true;
                    }
                }

                value = default!;
                string? near = Nearest.Find(text, words.Select(static w => w.Word));
                problem = $"the word '{Quote.Short(text)}' is not known here; write " + (near is null ? "one of " + list : $"'{near}'");
                return false;
            },
            () => new JsonObject { ["enum"] = new JsonArray([.. words.Select(static w => (JsonNode)w.Word)]) });
    }

    /// <summary>A list, each item of one shape.</summary>
    public static Shape<IReadOnlyList<T>> ListOf<T>(Shape<T> item, int least = 0, int most = int.MaxValue) =>
        new ListShape<T>(item, least, most);

    /// <summary>One item, or a list of them.</summary>
    public static Shape<IReadOnlyList<T>> OneOrMany<T>(Shape<T> item) =>
        ByKind(scalar: item.Select(static one => (IReadOnlyList<T>)[one]), sequence: ListOf(item, 1));

    /// <summary>Keys that the user names, each with a value of one shape.</summary>
    /// <param name="keyWanted">What the keys are, for messages: 'an emitter's name'.</param>
    /// <param name="item">The values' shape.</param>
    public static Shape<IReadOnlyList<Named<T>>> MapOf<T>(string keyWanted, Shape<T> item) => new MapShape<T>(item, keyWanted);

    /// <summary>A mapping with fixed keys.</summary>
    /// <param name="wanted">What to write, for messages: '{ latitude: 40.5, longitude: -35.2 }'.</param>
    /// <param name="read">
    /// Asks the reader for every key, always all of them and in the order of the documentation, and makes the value of them. It is also
    /// called with a reader that has nothing, to learn the keys; and after an error a required value is the type's default: it must not
    /// throw then.
    /// </param>
    public static Shape<T> Mapping<T>(string wanted, Func<MappingReader, T> read) => new MappingShape<T>(wanted, read);

    /// <summary>Something that may be written in several ways; null where that way is not allowed.</summary>
    public static Shape<T> ByKind<T>(Shape<T>? scalar = null, Shape<T>? sequence = null, Shape<T>? mapping = null) =>
        new ByKindShape<T>(scalar, sequence, mapping);

    /// <summary>The same place with its value turned into something else.</summary>
    public static Shape<TOut> Select<TIn, TOut>(this Shape<TIn> shape, Func<TIn, TOut> convert) =>
        new ConvertedShape<TIn, TOut>(shape, (value, _) => convert(value), null);

    /// <summary>The same place with a further check.</summary>
    /// <param name="shape">The place.</param>
    /// <param name="refuses">Gives null for a good value.</param>
    public static Shape<T> Check<T>(this Shape<T> shape, Func<T, Refusal?> refuses) =>
        new ConvertedShape<T, T>(shape, static (value, _) => value, refuses);

    /// <summary>The same place, remembering where the value stood.</summary>
    public static Shape<Located<T>> WithPlace<T>(this Shape<T> shape) =>
        new ConvertedShape<T, Located<T>>(shape, static (value, node) => new Located<T>(value, node.File, node.Start), null);
}
