using System.Diagnostics.CodeAnalysis;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml.Editing;

/// <summary>
/// Changes one thing in a document by splicing its text, so that comments, order, quoting, line ends and a byte-order mark stay as they
/// are. After each edit the text is read again; unless exactly the asked-for change is found, the edit is refused.
/// </summary>
public static class YamlEditor
{
    /// <summary>Puts another value in place of the one at a path.</summary>
    /// <param name="text">The document.</param>
    /// <param name="path">Where; it must exist.</param>
    /// <param name="value">The new value.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TrySet(
        string text, YamlPath path, YamlValue value, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(value);
        return Edit(text, null, doc => doc.Set(path, value), was => was.Changed(path.Steps.AsSpan(), _ => value), out edited, out problem);
    }

    /// <summary>The same for a document that was read already.</summary>
    /// <param name="text">The document, without a byte-order mark.</param>
    /// <param name="root">Its nodes, read of exactly that text.</param>
    /// <param name="path">Where; it must exist.</param>
    /// <param name="value">The new value.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TrySet(
        string text,
        YamlMapping root,
        YamlPath path,
        YamlValue value,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(value);
        return Edit(text, root, doc => doc.Set(path, value), was => was.Changed(path.Steps.AsSpan(), _ => value), out edited, out problem);
    }

    /// <summary>Puts another text in place of the value at a path.</summary>
    /// <inheritdoc cref="TrySet(string, YamlPath, YamlValue, out string?, out string?)"/>
    public static bool TrySet(
        string text, YamlPath path, string value, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem) =>
        TrySet(text, path, YamlValue.Of(value), out edited, out problem);

    /// <summary>Adds a key at the end of a mapping.</summary>
    /// <param name="text">The document.</param>
    /// <param name="mapping">The mapping's path.</param>
    /// <param name="key">The new key; must not be there yet.</param>
    /// <param name="value">Its value.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryInsertKey(
        string text,
        YamlPath mapping,
        string key,
        YamlValue value,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(mapping);
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(value);
        return Edit(
            text,
            null,
            doc => doc.InsertKey(mapping, key, value),
            was =>
                was.Changed(
                    mapping.Steps.AsSpan(), at => at is YamlValue.YamlKeys k ? new YamlValue.YamlKeys([.. k.Entries, (key, value)]) : null),
            out edited,
            out problem);
    }

    /// <summary>Adds an item to a list.</summary>
    /// <param name="text">The document.</param>
    /// <param name="list">The list's path.</param>
    /// <param name="index">Its place from 0; the list's length appends.</param>
    /// <param name="value">The item.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryInsertItem(
        string text,
        YamlPath list,
        int index,
        YamlValue value,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(value);
        return TryInsertItems(text, list, index, [value], out edited, out problem);
    }

    /// <summary>Adds several items to a list, in their order, in one splice.</summary>
    /// <param name="text">The document.</param>
    /// <param name="list">The list's path.</param>
    /// <param name="index">Place of the first of them from 0; the list's length appends.</param>
    /// <param name="values">The items, one or more.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryInsertItems(
        string text,
        YamlPath list,
        int index,
        IReadOnlyList<YamlValue> values,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(list);
        ArgumentNullException.ThrowIfNull(values);
        return Edit(
            text,
            null,
            doc => doc.InsertItems(list, index, values),
            was =>
                was.Changed(
                    list.Steps.AsSpan(),
                    at =>
                        at is YamlValue.YamlItems l && index >= 0 && index <= l.Items.Count
                            ? new YamlValue.YamlItems([.. l.Items.Take(index), .. values, .. l.Items.Skip(index)])
                            : null),
            out edited,
            out problem);
    }

    /// <summary>Takes a key or a list's item away, with the comment behind it; comments above it stay.</summary>
    /// <param name="text">The document.</param>
    /// <param name="path">The key or item; not the document itself.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryRemove(
        string text, YamlPath path, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(path);
        return Edit(
            text,
            null,
            doc => doc.Remove(path),
            was => path.Steps.IsEmpty
                ? null
                : was.Changed(path.Parent.Steps.AsSpan(), at => (at, path.Steps[^1]) switch
                {
                    (YamlValue.YamlKeys k, string key) => new YamlValue.YamlKeys([.. k.Entries.Where(e => e.Key != key)]),
                    (YamlValue.YamlItems l, int i) => new YamlValue.YamlItems([.. l.Items.Where((_, n) => n != i)]),
                    _ => null,
                }),
            out edited,
            out problem);
    }

    /// <summary>Gives a key another name; its place, its value and the comments about it stay.</summary>
    /// <param name="text">The document.</param>
    /// <param name="path">The key.</param>
    /// <param name="name">Its new name; must not be in use beside it.</param>
    /// <param name="edited">The changed document.</param>
    /// <param name="problem">Why not: 'what; what to do instead'.</param>
    public static bool TryRenameKey(
        string text, YamlPath path, string name, [NotNullWhen(true)] out string? edited, [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentException.ThrowIfNullOrEmpty(name);
        return Edit(
            text,
            null,
            doc => doc.Rename(path, name),
            was => path.Steps.IsEmpty || path.Steps[^1] is not string old
                ? null
                : was.Changed(path.Parent.Steps.AsSpan(), at => at is YamlValue.YamlKeys k && k.Entries.All(e => e.Key != name)
                    ? new YamlValue.YamlKeys([.. k.Entries.Select(e => e.Key == old ? (name, e.Value) : e)])
                    : null),
            out edited,
            out problem);
    }

    private static bool Edit(
        string text,
        YamlMapping? read,
        Func<EditableText, string?> splice,
        Func<YamlValue, YamlValue?> expect,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out string? problem)
    {
        ArgumentNullException.ThrowIfNull(text);
        edited = null;
        string mark = text.StartsWith('\uFEFF') ? "\uFEFF" : "";
        string body = text[mark.Length..];
        if ((mark.Length == 0 ? read : null) is not { } root && (root = Parse(body)) is null)
        {
            problem = "the file has errors of form; correct them in a text editor first";
            return false;
        }

        if (expect(YamlValue.Of(root)) is not { } wanted || splice(new EditableText(body, root)) is not { } result)
        {
            problem = "there is no such place in the file; read the file again";
            return false;
        }

        if (Parse(result) is not { } now || !YamlValue.Of(now).Same(wanted))
        {
            problem = "the change would have touched something else too; make it in a text editor";
            return false;
        }

        edited = mark + result;
        problem = null;
        return true;
    }

    private static YamlMapping? Parse(string text)
    {
        DiagnosticBag bag = new();
        YamlMapping? root = YamlReader.Read(text, "", bag);
        return bag.HasErrors ? null : root;
    }
}
