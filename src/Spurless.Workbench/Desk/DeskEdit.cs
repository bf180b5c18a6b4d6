using Spurless.Files.Yaml.Editing;

namespace Spurless.Workbench.Desk;

/// <summary>One splice of a file's text.</summary>
internal sealed class DeskEdit
{
    private delegate bool Splice(string text, out string? edited, out string? problem);

    private readonly Splice _splice;

    private DeskEdit(Splice splice) => _splice = splice;

    public static DeskEdit Set(YamlPath path, YamlValue value) =>
        new((string text, out string? edited, out string? problem) => YamlEditor.TrySet(text, path, value, out edited, out problem));

    public static DeskEdit InsertKey(YamlPath mapping, string key, YamlValue value) =>
        new(
            (string text, out string? edited, out string? problem) =>
                YamlEditor.TryInsertKey(text, mapping, key, value, out edited, out problem));

    public static DeskEdit InsertItem(YamlPath list, int index, YamlValue value) =>
        new(
            (string text, out string? edited, out string? problem) =>
                YamlEditor.TryInsertItem(text, list, index, value, out edited, out problem));

    public static DeskEdit Remove(YamlPath path) =>
        new((string text, out string? edited, out string? problem) => YamlEditor.TryRemove(text, path, out edited, out problem));

    /// <summary>Does it.</summary>
    /// <param name="text">The file's text.</param>
    /// <param name="problem">Why not.</param>
    /// <returns>The changed text; null where it cannot be done.</returns>
    public string? Apply(string text, out string? problem) => _splice(text, out string? edited, out problem) ? edited : null;
}
