using Spurless.Files.Yaml.Editing;
using Spurless.Sites.Documents;
using Spurless.Sites.Tables;

namespace Spurless.Workbench.Folders;

/// <summary>Puts somebody's table of transmitters to a site: its rows into the site's file, or the table beside it.</summary>
public static class TableIntake
{
    /// <summary>What a table holds for a site, with the columns taken as they were last time.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="site">The site file's name.</param>
    /// <param name="question">The table, and what was chosen so far.</param>
    /// <param name="answer">What it holds; null where it cannot be read as a table.</param>
    /// <returns>Why not; null where it can.</returns>
    public static string? Look(OpenFolder folder, string site, TableQuestion question, out TableAnswer? answer)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(question);
        question = question with { Taken = Taken(folder, site) };
        answer = TableService.Ask(question) is { Answer: { } read } ? read : null;
        if (answer is null)
        {
            return TableService.Ask(question).Problem;
        }

        if (question.Columns is null && answer.HasHead
            && TableMemory.Of(folder, [.. answer.Columns.Select(static c => c.Head)]) is { } known)
        {
            answer = TableService.Ask(
                question with { Columns = known.Columns, DecimalComma = known.DecimalComma, Width = known.Width }).Answer ?? answer;
        }

        return null;
    }

    /// <summary>Writes the rows that can be written as emitters into a site's file, in one step.</summary>
    public static FieldOutcome Write(OpenFolder folder, string site, TableAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(answer);
        FieldOutcome outcome = folder.Edit(site, FormattableString.Invariant($"{answer.Rows.Count} emitters from a table"), text =>
            FieldText.TryAppend(text, "emitters", [.. answer.Rows.Select(EntryOf)], out string? edited, out string? problem)
                ? (edited, null) : (null, problem));
        if (outcome.Ok)
        {
            TableMemory.Keep(folder, answer);
        }

        return outcome;
    }

    /// <summary>
    /// Names a table in a site's file as the one that more emitters come from. A table whose heads are not the program's is written once
    /// more with those, beside it.
    /// </summary>
    /// <param name="folder">The folder.</param>
    /// <param name="site">The site file's name.</param>
    /// <param name="table">The table's name.</param>
    /// <param name="answer">What it holds.</param>
    public static FieldOutcome Attach(OpenFolder folder, string site, string table, TableAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(answer);
        if (answer.Rows.Count == 0)
        {
            return new FieldOutcome(FieldResult.Refused, Problem: $"no row of '{table}' can be taken; say which column is which first");
        }

        if (AttachedTo(folder, site) is { } other)
        {
            return new FieldOutcome(
                FieldResult.Refused, Problem: $"'{site}' takes emitters from '{other}' already; write the rows into the site file instead");
        }

        if (!IsNative(answer))
        {
            string stem = NamesInFolder.Beside(table) + Path.GetFileName(table).Split('.')[0];
            string name = FolderIntake.FreeName(folder, stem, ".emitters.csv");
            if (folder.Session.Save(name, answer.Native, null, $"{name} made of {table}") != SaveOutcome.Saved)
            {
                return new FieldOutcome(FieldResult.Refused, Problem: $"'{name}' cannot be written; see to the permissions of the folder");
            }

            table = name;
        }

        TableMemory.Keep(folder, answer);
        return folder.Set(site, "emitters_from", NamesInFolder.From(site, table), null, $"emitters from {table}");
    }

    /// <summary>The table that a site takes emitters from; null where it takes them from none.</summary>
    public static string? AttachedTo(OpenFolder folder, string site)
    {
        ArgumentNullException.ThrowIfNull(folder);
        return folder.Session.Read(site) is { } file
            && FieldText.ValueOf(file.Text, "emitters_from") is { Length: > 0 } name ? name : null;
    }

    /// <summary>Whether a site file could name the table as it stands.</summary>
    public static bool IsNative(TableAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.HasHead && answer.Skipped.Count == 0 && answer.Cells.Count == 0 && answer.WidthAssumed == 0 && !answer.DecimalComma
            && answer.Columns.All(static c => c.Key == c.Head && c.Origin is UnitOrigin.None or UnitOrigin.Cells);
    }

    /// <summary>
    /// Whether rows can't be put in by their place alone: they have a head in words, or are parted by something else than tabs.
    /// </summary>
    public static bool IsForeign(string text) => TableService.Ask(new TableQuestion { Text = text }).Answer is { } read
        && (read.HasHead || (read.Separator != '\t' && read.Columns.Count > 1));

    private static Dictionary<string, long> Taken(OpenFolder folder, string site)
    {
        Dictionary<string, long> taken = new(StringComparer.Ordinal);
        SiteDocument? document = folder.Site(site)?.Site?.Document;
        foreach (ReceiverEntry receiver in document?.Receivers ?? [])
        {
            taken[receiver.Name] = receiver.Frequency.Hertz;
        }

        foreach (EmitterEntry emitter in document?.Emitters ?? [])
        {
            taken[emitter.Name] = emitter.Frequency.Hertz;
        }

        return taken;
    }

    private static YamlValue EntryOf(TableRow row) => FieldText.ItemOf(row.Values);
}
