using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Locating;

/// <summary>
/// A log that is taken on the spot: a row for each moment, in a file of the day beside the site file. What was not looked at stays empty.
/// </summary>
public static class LiveLog
{
    // So many logs of one day can have been begun with other columns.
    private const int MostOfADay = 50;

    /// <summary>Writes a moment as one step for undo.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="site">The site file's name within the folder; the log stands beside it.</param>
    /// <param name="names">The columns of a log that is begun: the receiver, then the emitters.</param>
    /// <param name="time">The moment; its zone is written too.</param>
    /// <param name="states">Who is on, and whether it is heard, by name; what is not in it was not observed.</param>
    /// <param name="log">The log's name within the folder.</param>
    /// <returns>Why not: 'what; what to do instead'. Null where it was written.</returns>
    public static string? Write(
        OpenFolder folder, string site, IReadOnlyList<string> names, DateTimeOffset time, IReadOnlyDictionary<string, bool> states,
        out string log)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(states);
        string beside = NamesInFolder.Beside(site) + "live-" + time.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        for (int i = 1; ; i++)
        {
            log = beside + (i == 1 ? "" : FormattableString.Invariant($"-{i}")) + ".log.csv";
            FolderText? before = folder.Session.Read(log);
            ObservationLog? there = before is null ? null : Read(before.Text, log);
            if (before is not null && (there is null || states.Keys.Any(n => !there.Names.Contains(n))) && i < MostOfADay)
            {
                continue; // not ours to repair, or without a column for what is to be written
            }

            if (there?.Rows.Count > 0 && time.ToUnixTimeSeconds() <= there.Rows[^1].Time.ToUnixTimeSeconds())
            {
                return "a moment of this second stands there already; wait a second and tap again";
            }

            string text = With(before?.Text, there?.Names ?? names, time, states);
            if (Read(text, log)?.Rows.Count != (there?.Rows.Count ?? 0) + 1)
            {
                return $"'{log}' cannot take the moment; look at it with a text editor, or take it out of the folder";
            }

            return folder.Session.Save(log, text, before?.Version, "moment written") switch
            {
                SaveOutcome.Saved => null,
                SaveOutcome.ChangedMeanwhile => $"'{log}' was changed by another program meanwhile; tap again",
                _ => $"'{log}' cannot be written; see to its permissions",
            };
        }
    }

    private static string With(
        string? text, IReadOnlyList<string> columns, DateTimeOffset time, IReadOnlyDictionary<string, bool> states)
    {
        StringBuilder log = new(text ?? "time," + string.Join(',', columns.Select(Cell)) + "\n");
        if (log[^1] != '\n')
        {
            log.Append('\n');
        }

        log.Append(time.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture));
        foreach (string name in columns)
        {
            log.Append(',').Append(states.TryGetValue(name, out bool on) ? on ? "1" : "0" : "");
        }

        return log.Append('\n').ToString();
    }

    private static ObservationLog? Read(string text, string log) =>
        ObservationLogReader.Read(Encoding.UTF8.GetBytes(text), log, null, new DiagnosticBag());

    private static string Cell(string name) =>
        name.AsSpan().IndexOfAny(",;\t\"#") < 0 ? name : "\"" + name.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
}
