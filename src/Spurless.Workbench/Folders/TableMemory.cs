using Spurless.Sites.Tables;

namespace Spurless.Workbench.Folders;

/// <summary>How the columns of a table were taken, and the head by which such a table is known again.</summary>
/// <param name="Head">The heads of its columns.</param>
/// <param name="Columns">What each was taken for.</param>
/// <param name="DecimalComma">Whether a comma was the decimal sign.</param>
/// <param name="Width">Width of rows that stated none.</param>
public sealed record RememberedTable(
    IReadOnlyList<string> Head, IReadOnlyList<ColumnChoice> Columns, bool DecimalComma, string Width);

/// <summary>
/// How tables were taken, kept in the hidden state of the folder, so that the next one with the same head needs no telling. A table without
/// a head is none that could be known again.
/// </summary>
public static class TableMemory
{
    private const string Name = "table-columns";
    private const int Most = 20; // the latest are kept

    /// <summary>How a table with these heads was taken last; null where none was.</summary>
    public static RememberedTable? Of(OpenFolder folder, IReadOnlyList<string> head)
    {
        ArgumentNullException.ThrowIfNull(folder);
        return head.Count == 0 ? null : All(folder).FirstOrDefault(t => t.Head.SequenceEqual(head, StringComparer.OrdinalIgnoreCase));
    }

    /// <summary>Remembers how a table was taken, in place of how one with the same head was before.</summary>
    public static void Keep(OpenFolder folder, TableAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(answer);
        if (!answer.HasHead)
        {
            return;
        }

        RememberedTable now = new(
            [.. answer.Columns.Select(static c => c.Head)],
            [.. answer.Columns.Select(static c => new ColumnChoice(c.Key, c.Origin is UnitOrigin.Cells ? null : c.Unit))],
            answer.DecimalComma,
            answer.Question.Width);
        folder.Drafts.Keep(
            Name, (RememberedTable[])
            [
                now, .. All(folder).Where(t => !t.Head.SequenceEqual(now.Head, StringComparer.OrdinalIgnoreCase)).Take(Most - 1),
            ]);
    }

    private static RememberedTable[] All(OpenFolder folder) => folder.Drafts.Read<RememberedTable[]>(Name) ?? [];
}
