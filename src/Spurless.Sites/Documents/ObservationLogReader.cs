using System.Globalization;
using Spurless.Files;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Documents;

/// <summary>Reads an observation log (<c>*.log.csv</c>). All that is wrong is reported at once; no input makes it throw.</summary>
public static class ObservationLogReader
{
    private static readonly string[] _withZone = [.. Formats("K")];

    private static readonly string[] _withoutZone = [.. Formats("")];

    /// <summary>Reads a log.</summary>
    /// <param name="bytes">The file's bytes.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="site">The site whose receivers and emitters the columns name; null to accept any name.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The log, or null where there is any error in it.</returns>
    public static ObservationLog? Read(ReadOnlySpan<byte> bytes, string fileName, SiteDocument? site, DiagnosticBag diagnostics)
    {
        DiagnosticBag own = new();
        ObservationLog? log = CsvTable.Read(bytes, fileName, own) is { } table ? Read(table, site, own) : null;
        ArgumentNullException.ThrowIfNull(diagnostics);
        diagnostics.AddRange(own.InOrder());
        return own.HasErrors ? null : log;
    }

    private static ObservationLog Read(CsvTable table, SiteDocument? site, DiagnosticBag diagnostics)
    {
        CheckHead(table, site, diagnostics);
        List<ObservationRow> rows = new(table.Rows.Count);
        bool? zoned = null;
        foreach (CsvRow row in table.Rows)
        {
            CsvCell cell = row.Cells[0];
            bool?[] states = [.. row.Cells.Skip(1).Select(c => State(c, table.File, diagnostics))];
            bool withZone = TryTime(cell.Text, _withZone, out DateTimeOffset time);
            if (!withZone && !TryTime(cell.Text, _withoutZone, out time))
            {
                diagnostics.Error(
                    table.File,
                    cell.Line,
                    cell.Column,
                    cell.Text.Length == 0 ? "the row has no time" : $"'{Quote.Short(cell.Text)}' is not a time",
                    "write it as in 2031-03-04T19:02:00Z");
                continue;
            }

            zoned ??= withZone;
            CheckOrder(cell, table.File, withZone, zoned.Value, rows.Count > 0 && time <= rows[^1].Time, diagnostics);
            rows.Add(new ObservationRow(time, states, row.Line));
        }

        return new ObservationLog(table.File, [.. table.Head.Skip(1).Select(static h => h.Text)], rows);
    }

    private static void CheckHead(CsvTable table, SiteDocument? site, DiagnosticBag diagnostics)
    {
        CsvCell first = table.Head[0];
        if (first.Text != "time")
        {
            diagnostics.Error(
                table.File,
                first.Line,
                first.Column,
                $"the first column is headed '{Quote.Short(first.Text)}'",
                "head it 'time', with moments such as 2031-03-04T19:02:00Z below");
        }

        if (site is not null)
        {
            CheckNames(table, site, diagnostics);
        }
        else if (table.Head.Count < 2)
        {
            diagnostics.Error(
                table.File,
                first.Line,
                first.Column,
                "there is only one column",
                "add a column for each receiver and emitter that was observed");
        }
    }

    // A moment belongs behind the one above it, and times with and without a zone cannot be put in order.
    private static void CheckOrder(CsvCell cell, string file, bool withZone, bool zoned, bool isEarlier, DiagnosticBag diagnostics)
    {
        if (zoned != withZone)
        {
            diagnostics.Error(
                file,
                cell.Line,
                cell.Column,
                withZone ? "this time states its zone, and those above do not" : "this time states no zone, and those above do",
                "write all times alike, best with a Z for UTC");
        }
        else if (isEarlier)
        {
            diagnostics.Error(
                file,
                cell.Line,
                cell.Column,
                $"'{Quote.Short(cell.Text)}' is not later than the row above",
                "put the rows in the order of time, each moment once");
        }
    }

    private static bool? State(CsvCell cell, string file, DiagnosticBag diagnostics)
    {
        if (cell.Text is not ("" or "0" or "1"))
        {
            diagnostics.Error(
                file,
                cell.Line,
                cell.Column,
                $"'{Quote.Short(cell.Text)}' is no observation",
                "write 1 for on (for a receiver: heard), 0 for off, nothing for not observed");
        }

        return cell.Text switch
        {
            "1" => true,
            "0" => false,
            _ => null,
        };
    }

    private static void CheckNames(CsvTable table, SiteDocument site, DiagnosticBag diagnostics)
    {
        HashSet<string> receivers = [.. site.Receivers.Select(static r => r.Name)];
        HashSet<string> emitters = [.. site.Emitters.Select(static e => e.Name)];
        foreach (CsvCell head in table.Head.Skip(1).Where(h => !receivers.Contains(h.Text) && !emitters.Contains(h.Text)))
        {
            string? near = Nearest.Find(
                head.Text, site.Receivers.Select(static r => r.Name).Concat(site.Emitters.Select(static e => e.Name)));
            diagnostics.Error(
                table.File,
                head.Line,
                head.Column,
                $"the site has no receiver or emitter '{Quote.Short(head.Text)}'",
                near is null ? "head the column with a name from the site file" : $"write '{near}'");
        }

        CsvCell first = table.Head[0];
        if (!table.Head.Skip(1).Any(h => receivers.Contains(h.Text)))
        {
            diagnostics.Error(
                table.File,
                first.Line,
                first.Column,
                "no column is headed with the name of a receiver",
                "add one that says when the interference was heard");
        }

        if (!table.Head.Skip(1).Any(h => emitters.Contains(h.Text)))
        {
            diagnostics.Error(
                table.File,
                first.Line,
                first.Column,
                "no column is headed with the name of an emitter",
                "add one for each emitter that was observed");
        }
    }

    private static bool TryTime(string text, string[] formats, out DateTimeOffset time) =>
        DateTimeOffset.TryParseExact(text, formats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out time);

    /// <summary>The calendar forms of ISO 8601 with minutes, seconds or parts of a second; 'T' or a blank between date and time.</summary>
    private static IEnumerable<string> Formats(string zone) =>
        from between in (string[])["'T'", "' '"]
        from seconds in (string[])["", ":ss", ":ss.FFFFFFF"]
        from z in zone.Length == 0 ? (string[])[""] : ["'Z'", "zzz"]
        select $"yyyy-MM-dd{between}HH:mm{seconds}{z}";
}
