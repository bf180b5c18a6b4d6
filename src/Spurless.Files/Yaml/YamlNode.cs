using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>A piece of a document as written: a scalar, a list or a mapping, with its place in the file.</summary>
public abstract class YamlNode
{
    private protected YamlNode(string file, YamlPosition start, YamlPosition end, bool isComplete)
    {
        File = file;
        Start = start;
        End = end;
        IsComplete = isComplete;
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string File { get; }

    /// <summary>Where it begins.</summary>
    public YamlPosition Start { get; }

    /// <summary>
    /// Where it ends, exclusive. A block list or mapping ends where the next thing begins, comments and blank lines between included.
    /// </summary>
    public YamlPosition End { get; }

    /// <summary>
    /// False where a syntax error cut the reading short within this node: what is missing then is not the user's omission.
    /// </summary>
    public bool IsComplete { get; }

    /// <summary>What the node is, in the user's words.</summary>
    public abstract string Kind { get; }

    /// <summary>Reports an error at the beginning of this node.</summary>
    public void Error(DiagnosticBag diagnostics, string what, string remedy)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        diagnostics.Error(File, Start.Line, Start.Column, what, remedy);
    }
}

/// <summary>How a scalar is written.</summary>
public enum YamlScalarStyle
{
    /// <summary>Without quotes.</summary>
    Plain,

    /// <summary>In single or double quotes.</summary>
    Quoted,

    /// <summary>As a block after <c>|</c> or <c>&gt;</c>.</summary>
    Block,
}

/// <summary>A text. Numbers, units and words are all text here; what they mean is decided by whoever reads them.</summary>
public sealed class YamlScalar : YamlNode
{
    internal YamlScalar(string file, YamlPosition start, YamlPosition end, string text, YamlScalarStyle style)
        : base(file, start, end, true)
    {
        Text = text;
        Style = style;
    }

    /// <summary>The text without quotes and escapes.</summary>
    public string Text { get; }

    /// <summary>How it is written.</summary>
    public YamlScalarStyle Style { get; }

    /// <summary>Whether nothing at all stands there.</summary>
    public bool IsMissing => Style == YamlScalarStyle.Plain && Text.Length == 0;

    /// <inheritdoc/>
    public override string Kind => IsMissing ? "nothing" : "a single value";
}

/// <summary>A list.</summary>
public sealed class YamlSequence : YamlNode
{
    internal YamlSequence(string file, YamlPosition start, YamlPosition end, bool isComplete, IReadOnlyList<YamlNode> items, bool isFlow)
        : base(file, start, end, isComplete)
    {
        Items = items;
        IsFlow = isFlow;
    }

    /// <summary>The items in the file's order.</summary>
    public IReadOnlyList<YamlNode> Items { get; }

    /// <summary>Whether it is written in square brackets.</summary>
    public bool IsFlow { get; }

    /// <inheritdoc/>
    public override string Kind => "a list";
}

/// <summary>A key with its value.</summary>
/// <param name="Key">The key as written.</param>
/// <param name="Value">Its value.</param>
public sealed record YamlEntry(YamlScalar Key, YamlNode Value)
{
    /// <summary>Whether the key is the head of a table's column: then it stands once for all rows.</summary>
    internal bool InTable { get; init; }

    /// <summary>Where to report what is wrong with the entry as a whole.</summary>
    public YamlNode Place => InTable ? Value : Key;
}

/// <summary>Keys with values.</summary>
public sealed class YamlMapping : YamlNode
{
    private readonly Dictionary<string, YamlEntry> _byKey = new(StringComparer.Ordinal);

    internal YamlMapping(string file, YamlPosition start, YamlPosition end, bool isComplete, IReadOnlyList<YamlEntry> entries, bool isFlow)
        : base(file, start, end, isComplete)
    {
        Entries = entries;
        IsFlow = isFlow;
        foreach (YamlEntry entry in entries)
        {
            _byKey.TryAdd(entry.Key.Text, entry);
        }
    }

    /// <summary>The keys with their values in the file's order; of a key that stands twice only the first.</summary>
    public IReadOnlyList<YamlEntry> Entries { get; }

    /// <summary>Whether it is written in curly brackets.</summary>
    public bool IsFlow { get; }

    /// <inheritdoc/>
    public override string Kind => "keys with values";

    /// <summary>The entry of a key, or null.</summary>
    public YamlEntry? Find(string key) => _byKey.GetValueOrDefault(key);

    /// <summary>The value of a key, or null.</summary>
    public YamlNode? Value(string key) => Find(key)?.Value;
}
