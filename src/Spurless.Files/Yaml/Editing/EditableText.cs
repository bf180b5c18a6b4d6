namespace Spurless.Files.Yaml.Editing;

/// <summary>
/// A document's text with its tree: finds where to cut and what to put there. What it gives is checked by <see cref="YamlEditor"/>.
/// </summary>
internal sealed class EditableText(string text, YamlMapping root)
{
    private readonly string _lineEnd = text.IndexOf('\n', StringComparison.Ordinal) is var at && at > 0 && text[at - 1] == '\r'
        ? "\r\n"
        : "\n";

    public string? Set(YamlPath path, YamlValue value)
    {
        if (path.Find(root) is not { } node)
        {
            return null;
        }

        if (node is YamlScalar { IsMissing: true })
        {
            if (KeyOf(path) is not { } key)
            {
                return null;
            }

            int colon = AfterColon(key);
            return Splice(colon, colon, InFlow(path) ? " " + value.Flow(true) : " " + value.Flow(false));
        }

        bool block = node is YamlScalar ? ((YamlScalar)node).Style == YamlScalarStyle.Block : !IsFlow(node);
        if (block && KeyOf(path) is { } owner)
        {
            return BlockToFlow(owner, node, value);
        }

        return Splice(node.Start.Index, ContentEnd(node), value.Flow(InFlow(path)));
    }

    public string? InsertKey(YamlPath path, string key, YamlValue value)
    {
        if (path.Find(root) is not YamlMapping mapping || mapping.Find(key) is not null)
        {
            return null;
        }

        YamlEntry? last = mapping.Entries.Count > 0 ? mapping.Entries[^1] : null;
        if (mapping.IsFlow || last is null)
        {
            string flow = YamlValue.Map((key, value)).Flow(true);
            string inner = flow[2..^2];
            return last is null
                ? Splice(mapping.Start.Index, mapping.End.Index, flow)
                : Splice(ContentEnd(last), ContentEnd(last), ", " + inner);
        }

        int indent = mapping.Start.Index - LineStart(mapping.Start.Index);
        return InsertLine(LineEndOf(ContentEnd(last)), indent, YamlValue.YamlKeys.Entry(key, value, indent, _lineEnd));
    }

    public string? InsertItems(YamlPath path, int index, IReadOnlyList<YamlValue> values)
    {
        if (path.Find(root) is not YamlSequence list || index < 0 || index > list.Items.Count || values.Count == 0)
        {
            return null;
        }

        if (list.IsFlow || list.Items.Count == 0)
        {
            string items = string.Join(", ", values.Select(static v => v.Flow(true)));
            if (list.Items.Count == 0)
            {
                return Splice(list.Start.Index, list.End.Index, "[" + items + "]");
            }

            return index < list.Items.Count
                ? Splice(list.Items[index].Start.Index, list.Items[index].Start.Index, items + ", ")
                : Splice(ContentEnd(list.Items[^1]), ContentEnd(list.Items[^1]), ", " + items);
        }

        int indent = list.Start.Index - LineStart(list.Start.Index);
        string block = string.Join(
            _lineEnd + new string(' ', indent), values.Select(v => "- " + v.Block(indent + 2, _lineEnd)));
        if (index > 0)
        {
            return InsertLine(LineEndOf(ContentEnd(list.Items[index - 1])), indent, block);
        }

        return Splice(list.Start.Index, list.Start.Index, block + _lineEnd + new string(' ', indent));
    }

    public string? Rename(YamlPath path, string name) =>
        KeyOf(path) is { } key ? Splice(key.Start.Index, key.End.Index, YamlValue.Of(name).Flow(true)) : null;

    public string? Remove(YamlPath path)
    {
        if (path.Steps.IsEmpty || path.Find(root) is not { } node || path.Parent.Find(root) is not { } parent)
        {
            return null;
        }

        if (parent is YamlMapping mapping)
        {
            List<YamlEntry> entries = [.. mapping.Entries];
            int at = entries.FindIndex(e => ReferenceEquals(e.Value, node));
            return RemoveAt(path.Parent, parent, [.. entries.Select(e => (e.Key.Start.Index, ContentEnd(e)))], at);
        }

        YamlSequence list = (YamlSequence)parent;
        List<(int Start, int End)> spans = [.. list.Items.Select(i => (list.IsFlow ? i.Start.Index : Dash(list, i), ContentEnd(i)))];
        return RemoveAt(path.Parent, parent, spans, list.Items.ToList().IndexOf(node));
    }

    private string? RemoveAt(YamlPath path, YamlNode parent, List<(int Start, int End)> spans, int at)
    {
        (int start, int end) = spans[at];
        if (start < 0)
        {
            return null;
        }

        if (spans.Count == 1)
        {
            YamlValue empty = parent is YamlMapping ? YamlValue.Map() : YamlValue.List();
            return !IsFlow(parent) && KeyOf(path) is { } owner
                ? BlockToFlow(owner, parent, empty)
                : Splice(parent.Start.Index, ContentEnd(parent), empty.Flow(false));
        }

        if (IsFlow(parent))
        {
            return at + 1 < spans.Count ? Splice(start, spans[at + 1].Start, "") : Splice(spans[at - 1].End, end, "");
        }

        int line = LineStart(start);
        if (text[line..start].AsSpan().Trim().IsEmpty)
        {
            return Splice(line, LineEndOf(end), "");
        }

        // The first key behind a dash, or the first dash behind another: the next one moves up. Comment lines between them go above the
        // line.
        if (at > 0 || spans[1].Start < 0)
        {
            return null;
        }

        int next = spans[1].Start;
        string between = text[LineEndOf(end)..Math.Max(LineEndOf(end), LineStart(next))];
        return text[..line] + between + text[line..start] + text[next..];
    }

    /// <summary>Puts a one-line value behind a key in place of a block below it. Comments between the two stay.</summary>
    private string BlockToFlow(YamlScalar key, YamlNode node, YamlValue value)
    {
        int colon = AfterColon(key);
        string put = " " + value.Flow(false);
        if (LineStart(node.Start.Index) == LineStart(colon))
        {
            return Splice(node.Start.Index, ContentEnd(node), put.TrimStart());
        }

        return text[..colon] + put + text[colon..LineStart(node.Start.Index)] + text[LineEndOf(ContentEnd(node))..];
    }

    private string InsertLine(int at, int indent, string line)
    {
        bool open = at > 0 && text[at - 1] is not ('\n' or '\r');
        return Splice(at, at, (open ? _lineEnd : "") + new string(' ', indent) + line + (open ? "" : _lineEnd));
    }

    private string Splice(int from, int to, string put) => text[..from] + put + text[to..];

    private static bool IsFlow(YamlNode node) => node is YamlMapping { IsFlow: true } or YamlSequence { IsFlow: true };

    private bool InFlow(YamlPath path)
    {
        for (YamlPath up = path.Parent; ; up = up.Parent)
        {
            if (up.Find(root) is { } node && IsFlow(node))
            {
                return true;
            }

            if (up.Steps.IsEmpty)
            {
                return false;
            }
        }
    }

    private YamlScalar? KeyOf(YamlPath path) =>
        !path.Steps.IsEmpty && path.Steps[^1] is string key && path.Parent.Find(root) is YamlMapping mapping
            ? mapping.Find(key)?.Key
            : null;

    private int AfterColon(YamlScalar key)
    {
        int i = key.End.Index;
        while (i < text.Length && text[i] is ' ' or '\t')
        {
            i++;
        }

        return i < text.Length && text[i] == ':' ? i + 1 : key.End.Index;
    }

    private int ContentEnd(YamlEntry entry) =>
        entry.Value is YamlScalar { IsMissing: true } ? AfterColon(entry.Key) : ContentEnd(entry.Value);

    /// <summary>Where a node's own text ends, without the comments and blank lines that follow a block.</summary>
    private int ContentEnd(YamlNode node)
    {
        int end = node switch
        {
            YamlMapping { IsFlow: false, Entries.Count: > 0 } m => ContentEnd(m.Entries[^1]),
            YamlSequence { IsFlow: false, Items.Count: > 0 } s => ContentEnd(s.Items[^1]),
            _ => node.End.Index,
        };
        if (node is YamlScalar { Style: YamlScalarStyle.Block })
        {
            while (end > node.Start.Index && text[end - 1] is '\n' or '\r' or ' ')
            {
                end--;
            }
        }

        return end;
    }

    /// <summary>
    /// The dash before an item of a block list: in the list's column, in the item's line or above. -1 where there is none.
    /// </summary>
    private int Dash(YamlSequence list, YamlNode item)
    {
        int column = list.Start.Index - LineStart(list.Start.Index);
        for (int line = LineStart(item.Start.Index); line >= LineStart(list.Start.Index); line = LineStart(line - 1))
        {
            if (line + column < text.Length
                && line + column <= item.Start.Index
                && text[line + column] == '-'
                && LineStart(line + column) == line)
            {
                return line + column;
            }

            if (line == 0)
            {
                break;
            }
        }

        return -1;
    }

    private int LineStart(int index)
    {
        while (index > 0 && text[index - 1] is not ('\n' or '\r'))
        {
            index--;
        }

        return index;
    }

    /// <summary>The index behind the end of the line that holds <paramref name="index"/>.</summary>
    private int LineEndOf(int index)
    {
        int end = text.AsSpan(index).IndexOfAny('\n', '\r');
        if (end < 0)
        {
            return text.Length;
        }

        end += index;
        return end + (text[end] == '\r' && end + 1 < text.Length && text[end + 1] == '\n' ? 2 : 1);
    }
}
