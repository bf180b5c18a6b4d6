using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;

namespace Spurless.Workbench.Folders;

/// <summary>
/// The fields of a document as texts that can be typed: read one, write one, take one away. Each is named as in findings,
/// <c>receivers[0].chain[1].attenuator</c>. Writing is a splice: everything else in the file stays as it is, comments included.
/// </summary>
public static class FieldText
{
    /// <summary>The way to a field.</summary>
    /// <param name="field">Its name: keys joined by dots, positions in lists from 0 in brackets.</param>
    /// <exception cref="FormatException">It is not written so.</exception>
    public static YamlPath PathOf(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        ImmutableArray<object>.Builder steps = ImmutableArray.CreateBuilder<object>();
        foreach (string part in field.Split('.'))
        {
            int bracket = part.IndexOf('[', StringComparison.Ordinal);
            string key = bracket < 0 ? part : part[..bracket];
            if (key.Length > 0)
            {
                steps.Add(key);
            }

            foreach (string index in bracket < 0 ? [] : part[(bracket + 1)..].TrimEnd(']').Split("]["))
            {
                steps.Add(
                    int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out int i)
                        ? i
                        : throw new FormatException($"'{field}' names no field."));
            }
        }

        return new YamlPath(steps.ToImmutable());
    }

    /// <summary>The document's nodes, also where its content has errors; null where its form has.</summary>
    /// <param name="text">The document.</param>
    public static YamlMapping? Parse(string text)
    {
        DiagnosticBag bag = new();
        YamlMapping? root = YamlReader.Read(text, "", bag);
        return bag.HasErrors ? null : root;
    }

    /// <summary>A field's value as one would type it: a single value without quotes, a list or keys in brackets.</summary>
    /// <param name="root">The document.</param>
    /// <param name="field">The field.</param>
    /// <returns>The value; null where the field is not written.</returns>
    public static string? ValueOf(YamlMapping root, string field) => Find(root, PathOf(field)) is { } node ? TextOf(node) : null;

    /// <summary>The same of a document's text.</summary>
    /// <inheritdoc cref="ValueOf(YamlMapping, string)"/>
    public static string? ValueOf(string text, string field) => Parse(text) is { } root ? ValueOf(root, field) : null;

    /// <summary>The node of a field; null where it is not written.</summary>
    public static YamlNode? NodeOf(YamlMapping root, string field) => Find(root, PathOf(field));

    /// <summary>Writes a field, or takes it away.</summary>
    /// <param name="text">The document.</param>
    /// <param name="field">The field; the mappings round it are made where they are missing, items of lists must be there.</param>
    /// <param name="value">The value as typed; what begins with a bracket is a list or keys. Null or blank takes the field away.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TrySet(
        string text, string field, string? value, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        return TrySet(text, Parse(text), field, value, out edited, out problem);
    }

    /// <summary>The same for a document that was read already: it is not read once more.</summary>
    /// <param name="text">The document.</param>
    /// <param name="read">Its nodes, read of exactly that text; null where its form has errors.</param>
    /// <param name="field">The field.</param>
    /// <param name="value">The value as typed.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TrySet(
        string text,
        YamlMapping? read,
        string field,
        string? value,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        edited = null;
        if (read is not { } root)
        {
            problem = "the file has errors of form; correct them in its text first";
            return false;
        }

        YamlPath path = PathOf(field);
        if (string.IsNullOrWhiteSpace(value))
        {
            return TryRemove(text, root, path, out edited, out problem);
        }

        YamlValue wanted = ValueFrom(value.Trim());
        if (Find(root, path) is not null)
        {
            return YamlEditor.TrySet(text, root, path, wanted, out edited, out problem);
        }

        // The deepest thing that is there takes the rest of the way as new keys, or as one more item of a list.
        YamlPath at = path;
        while (!at.Steps.IsEmpty)
        {
            YamlNode? parent = Find(root, at.Parent);
            switch (at.Steps[^1])
            {
                case string key when parent is YamlMapping:
                    return Find(root, at) switch
                    {
                        null => YamlEditor.TryInsertKey(text, at.Parent, key, wanted, out edited, out problem),
                        // 'antenna:' with nothing behind it
                        YamlScalar { IsMissing: true } => YamlEditor.TrySet(text, at, wanted, out edited, out problem),
                        _ => Refuse($"'{at}' holds something else; change it in the file's text", out problem),
                    };
                case int index when parent is YamlSequence { Items.Count: > 0 } list:
                    return index == list.Items.Count
                        ? YamlEditor.TryInsertItem(text, at.Parent, index, wanted, out edited, out problem)
                        : Refuse($"there is no '{field}' in the file; read the file again", out problem);
                case int index when index == 0 && parent is YamlSequence:
                    // '[]' would hold its items in one line: the list is written anew.
                    return YamlEditor.TryRemove(text, at.Parent, out string? without, out problem)
                        && TrySetValue(without, at.Parent, YamlValue.List(wanted), out edited, out problem);
                case int index when index == 0:
                    wanted = YamlValue.List(wanted);
                    break;
                case string key when parent is null or YamlScalar { IsMissing: true }:
                    wanted = YamlValue.Map((key, wanted));
                    break;
                default:
                    return Refuse(
                        parent is null
                            ? $"there is no '{field}' in the file; read the file again"
                            : $"'{at.Parent}' holds something else; change it in the file's text",
                        out problem);
            }

            if (parent is YamlScalar)
            {
                return YamlEditor.TrySet(text, at.Parent, wanted, out edited, out problem);
            }

            at = at.Parent;
        }

        return Refuse($"there is no '{field}' in the file; read the file again", out problem);
    }

    /// <summary>Takes an item of a list away; with the last one the list goes too.</summary>
    /// <param name="text">The document.</param>
    /// <param name="item">The item, such as <c>emitters[2]</c>.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryRemoveItem(
        string text, string item, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        YamlPath path = PathOf(item);
        bool last = Parse(text) is { } root && Find(root, path.Parent) is YamlSequence { Items.Count: 1 };
        return YamlEditor.TryRemove(text, last ? path.Parent : path, out edited, out problem);
    }

    /// <summary>Puts an item of a list at another place. A comment behind it goes with the place, not with the item.</summary>
    /// <param name="text">The document.</param>
    /// <param name="list">The list.</param>
    /// <param name="from">Where the item stands, from 0.</param>
    /// <param name="to">Where it is to stand.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryMoveItem(
        string text, string list, int from, int to, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        edited = null;
        YamlPath path = PathOf(list);
        if (Parse(text) is not { } root
            || Find(root, path) is not YamlSequence items
            || from < 0
            || to < 0
            || from >= items.Items.Count
            || to >= items.Items.Count)
        {
            return Refuse($"there is no such place in '{list}'; read the file again", out problem);
        }

        YamlValue item = YamlValue.Of(items.Items[from]);
        return YamlEditor.TryRemove(text, path.Item(from), out string? without, out problem)
            && YamlEditor.TryInsertItem(without, path, to, item, out edited, out problem);
    }

    /// <summary>Writes several fields; blank values are left as they are. All or none.</summary>
    /// <param name="text">The document.</param>
    /// <param name="values">Fields and values; those of an item behind the last one of its list make a new item.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TrySetAll(
        string text,
        IReadOnlyList<(string Field, string Value)> values,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(values);
        (edited, problem) = (text, null);
        YamlMapping? root = Parse(text);
        Dictionary<(string List, int Index), List<(YamlPath Within, string Value)>> added = [];
        List<(string Field, string Value)> there = [];
        foreach ((string field, string value) in values.Where(static v => !string.IsNullOrWhiteSpace(v.Value)))
        {
            // Items behind the last one are made whole and put in together: hundreds of rows are one change, not thousands.
            YamlPath path = PathOf(field);
            if (root is not null && path.Steps is [string list, int index, string, ..]
                && path.Steps.Skip(2).All(static step => step is string)
                && (Find(root, YamlPath.Root.Key(list)) is YamlSequence s ? s.Items.Count : 0) <= index)
            {
                if (!added.TryGetValue((list, index), out List<(YamlPath Within, string Value)>? fields))
                {
                    added[(list, index)] = fields = [];
                }

                fields.Add((new YamlPath(path.Steps[2..]), value.Trim()));
            }
            else
            {
                there.Add((field, value));
            }
        }

        foreach ((string field, string value) in there)
        {
            if (!TrySet(edited, field, value, out edited, out problem))
            {
                return false;
            }
        }

        foreach (var list in added.OrderBy(static i => i.Key.Index).GroupBy(static i => i.Key.List))
        {
            if (!TryAppend(edited, list.Key, [.. list.Select(static i => ItemOf(i.Value))], out edited, out problem))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Adds items behind the last one of a list of the document; a list that is not there is made.</summary>
    /// <param name="text">The document.</param>
    /// <param name="list">The list's key.</param>
    /// <param name="items">The items.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryAppend(
        string text,
        string list,
        IReadOnlyList<YamlValue> items,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(items);
        if (items.Count == 0)
        {
            (edited, problem) = (text, null);
            return true;
        }

        YamlPath path = YamlPath.Root.Key(list);
        switch (Parse(text) is { } root ? Find(root, path) : null)
        {
            case YamlSequence { Items.Count: > 0 } there:
                return YamlEditor.TryInsertItems(text, path, there.Items.Count, items, out edited, out problem);
            case YamlSequence or YamlScalar { IsMissing: true }:
                // '[]' or nothing would hold its items in one line: the list is written anew.
                if (!YamlEditor.TryRemove(text, path, out string? without, out problem))
                {
                    edited = null;
                    return false;
                }

                text = without;
                break;
        }

        return YamlEditor.TryInsertKey(text, YamlPath.Root, list, YamlValue.List([.. items]), out edited, out problem);
    }

    /// <summary>An item of keys with values as typed, nested keys with a dot: what it is in a document.</summary>
    /// <param name="fields">Keys and values.</param>
    public static YamlValue ItemOf(IReadOnlyList<(string Key, string Value)> fields) =>
        ItemOf([.. fields.Select(static f => (PathOf(f.Key), f.Value))]);

    // Nested keys stand where the first of them came.
    private static YamlValue ItemOf(List<(YamlPath Within, string Value)> fields) => YamlValue.Map(
    [
        .. fields.GroupBy(static f => (string)f.Within.Steps[0]).Select(static g => (g.Key,
            g.First().Within.Steps.Length == 1
                ? ValueFrom(g.Last().Value)
                : ItemOf([.. g.Select(static f => (new YamlPath(f.Within.Steps[1..]), f.Value))]))),
    ]);

    private static bool TrySetValue(
        string text, YamlPath path, YamlValue value, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem) =>
        YamlEditor.TryInsertKey(text, path.Parent, (string)path.Steps[^1], value, out edited, out problem);

    private static bool Refuse(string why, out string problem)
    {
        problem = why;
        return false;
    }

    /// <summary>A typed text as a value: brackets make a list or keys, everything else is one text.</summary>
    public static YamlValue ValueFrom(string value)
    {
        ArgumentNullException.ThrowIfNull(value);
        if (value is ['[', ..] or ['{', ..])
        {
            DiagnosticBag bag = new();
            YamlNode? node = YamlReader.ReadNode(value, "", bag);
            if (!bag.HasErrors && node is YamlSequence or YamlMapping)
            {
                return YamlValue.Of(node);
            }
        }

        return YamlValue.Of(value);
    }

    private static bool TryRemove(
        string text, YamlMapping root, YamlPath path, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        if (Find(root, path) is null)
        {
            (edited, problem) = (text, null);
            return true;
        }

        // Keys that would stay behind with nothing in them go too, but never an item of a list.
        while (path.Steps.Length > 1 && path.Steps[^2] is string && Find(root, path.Parent) is YamlMapping { Entries.Count: 1 })
        {
            path = path.Parent;
        }

        return YamlEditor.TryRemove(text, path, out edited, out problem);
    }

    /// <summary>A node's value as one would type it.</summary>
    internal static string TextOf(YamlNode node) => node switch
    {
        YamlScalar scalar => scalar.Text,
        // An item with a comma of its own keeps its quotes: typed back as it is shown, it is that item again.
        _ => YamlValue.Of(node).InOneLine(),
    };

    /// <summary>The node at a path; null where it is not written.</summary>
    internal static YamlNode? Find(YamlNode root, YamlPath path)
    {
        YamlNode? at = root;
        foreach (object step in path.Steps)
        {
            at = (at, step) switch
            {
                (YamlMapping m, string key) => m.Value(key),
                (YamlSequence s, int i) when i < s.Items.Count => s.Items[i],
                _ => null,
            };
        }

        return at;
    }
}
