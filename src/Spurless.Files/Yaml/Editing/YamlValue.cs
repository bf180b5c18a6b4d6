using System.Globalization;
using System.Text;

namespace Spurless.Files.Yaml.Editing;

/// <summary>Something to be written into a document.</summary>
public abstract record YamlValue
{
    private protected YamlValue()
    {
    }

    /// <summary>A single text.</summary>
    public static YamlValue Of(string text) => new YamlText(text);

    /// <summary>A list.</summary>
    public static YamlValue List(params YamlValue[] items) => new YamlItems(items);

    /// <summary>Keys with values.</summary>
    public static YamlValue Map(params (string Key, YamlValue Value)[] entries) => new YamlKeys(entries);

    /// <summary>The same content as an existing node.</summary>
    public static YamlValue Of(YamlNode node) => node switch
    {
        YamlScalar s => new YamlText(s.Text),
        YamlSequence q => new YamlItems([.. q.Items.Select(Of)]),
        YamlMapping m => new YamlKeys([.. m.Entries.Select(static e => (e.Key.Text, Of(e.Value)))]),
        _ => new YamlText(""),
    };

    /// <summary>The value in one line, as it is written into a document: quoted where it has to be.</summary>
    public string InOneLine() => Flow(inFlow: false);

    /// <summary>Whether both say the same.</summary>
    internal abstract bool Same(YamlValue other);

    /// <summary>In one line, with brackets.</summary>
    internal abstract string Flow(bool inFlow);

    /// <summary>Over several lines, each line after the first indented by <paramref name="indent"/> blanks.</summary>
    internal virtual string Block(int indent, string lineEnd) => Flow(false);

    private protected static string Scalar(string text, bool inFlow) => IsPlain(text, inFlow) ? text : Quoted(text);

    private static bool IsPlain(string text, bool inFlow)
    {
        if (text.Length == 0 || text[0] is ' ' || text[^1] is ' ' or ':' || text is "---" or "..." or "<<" or "=" or "~")
        {
            return false;
        }

        bool startsLikeMarkup =
            text[0] is ',' or '[' or ']' or '{' or '}' or '#' or '&' or '*' or '!' or '|' or '>' or '\'' or '"' or '%' or '@' or '`' or '?'
                or ':';
        bool dash = text[0] == '-' && (text.Length == 1 || !char.IsAsciiLetterOrDigit(text[1]));
        if (startsLikeMarkup || dash || text.Contains(": ", StringComparison.Ordinal) || text.Contains(" #", StringComparison.Ordinal))
        {
            return false;
        }

        return !text.Any(c => char.IsControl(c) || c is '\u2028' or '\u2029' || (inFlow && c is ',' or '[' or ']' or '{' or '}' or ':'));
    }

    private static string Quoted(string text)
    {
        StringBuilder quoted = new("\"");
        foreach (char c in text)
        {
            _ = c switch
            {
                '"' => quoted.Append("\\\""),
                '\\' => quoted.Append(@"\\"),
                '\n' => quoted.Append("\\n"),
                '\r' => quoted.Append("\\r"),
                '\t' => quoted.Append("\\t"),
                _ when char.IsControl(c) || c is '\u2028' or '\u2029' or '\uFEFF' =>
                    quoted.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:X4}"),
                _ => quoted.Append(c),
            };
        }

        return quoted.Append('"').ToString();
    }

    private sealed record YamlText(string Text) : YamlValue
    {
        internal override bool Same(YamlValue other) => other is YamlText t && t.Text == Text;

        internal override string Flow(bool inFlow) => Scalar(Text, inFlow);
    }

    internal sealed record YamlItems(IReadOnlyList<YamlValue> Items) : YamlValue
    {
        internal override bool Same(YamlValue other) =>
            other is YamlItems o && o.Items.Count == Items.Count && Items.Zip(o.Items).All(static p => p.First.Same(p.Second));

        internal override string Flow(bool inFlow) => "[" + string.Join(", ", Items.Select(static i => i.Flow(true))) + "]";

        internal override string Block(int indent, string lineEnd) => Items.Count == 0
            ? "[]"
            : string.Join(lineEnd + new string(' ', indent), Items.Select(i => "- " + i.Block(indent + 2, lineEnd)));
    }

    internal sealed record YamlKeys(IReadOnlyList<(string Key, YamlValue Value)> Entries) : YamlValue
    {
        internal override bool Same(YamlValue other) => other is YamlKeys o && o.Entries.Count == Entries.Count
            && Entries.Zip(o.Entries).All(static p => p.First.Key == p.Second.Key && p.First.Value.Same(p.Second.Value));

        internal override string Flow(bool inFlow) => Entries.Count == 0
            ? "{}"
            : "{ " + string.Join(", ", Entries.Select(static e => Scalar(e.Key, true) + ": " + e.Value.Flow(true))) + " }";

        internal override string Block(int indent, string lineEnd) => Entries.Count == 0
            ? "{}"
            : string.Join(lineEnd + new string(' ', indent), Entries.Select(e => Entry(e.Key, e.Value, indent, lineEnd)));

        /// <summary>A key with its value; a list of mappings goes on lines of its own, everything else in one line.</summary>
        internal static string Entry(string key, YamlValue value, int indent, string lineEnd) =>
            value is YamlItems { Items.Count: > 0 } list && list.Items.Any(static i => i is YamlKeys)
            ? $"{Scalar(key, false)}:{lineEnd}{new string(' ', indent + 2)}{list.Block(indent + 2, lineEnd)}"
            : $"{Scalar(key, false)}: {value.Flow(false)}";
    }

    /// <summary>This value with another put at a path, taken away from it, or inserted; null where the path does not exist.</summary>
    internal YamlValue? Changed(ReadOnlySpan<object> path, Func<YamlValue, YamlValue?> change)
    {
        if (path.IsEmpty)
        {
            return change(this);
        }

        if (path[0] is int index && this is YamlItems list && index >= 0 && index < list.Items.Count)
        {
            return list.Items[index].Changed(path[1..], change) is { } item
                ? new YamlItems([.. list.Items.Take(index), item, .. list.Items.Skip(index + 1)])
                : null;
        }

        if (path[0] is string key && this is YamlKeys keys)
        {
            int at = keys.Entries.ToList().FindIndex(e => e.Key == key);
            return at >= 0 && keys.Entries[at].Value.Changed(path[1..], change) is { } value
                ? new YamlKeys([.. keys.Entries.Take(at), (key, value), .. keys.Entries.Skip(at + 1)])
                : null;
        }

        return null;
    }
}
