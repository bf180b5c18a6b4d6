namespace Spurless.Pages.Site;

/// <summary>A column of a table of receivers or emitters.</summary>
/// <param name="Key">The key it holds, nested ones with a dot.</param>
/// <param name="Head">What stands over it.</param>
public sealed record EntryColumn(string Key, string Head);

/// <summary>A value that was typed.</summary>
/// <param name="Field">The field.</param>
/// <param name="Label">What it is, for messages and undo: 'bus depot, level'.</param>
/// <param name="Value">What was typed.</param>
/// <param name="Seen">What was shown when the typing began.</param>
public sealed record FieldEdit(string Field, string Label, string Value, string Seen);
