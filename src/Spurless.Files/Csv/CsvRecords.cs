using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Csv;

/// <summary>
/// Makes of a table's rows what a list of mappings in a YAML file would have been, so that both are read by the same shapes.
/// </summary>
public static class CsvRecords
{
    /// <summary>The most columns that are read.</summary>
    public const int MaximumColumns = 1000;

    /// <summary>The most keys that one head nests.</summary>
    public const int MaximumSteps = 8;

    /// <summary>
    /// One mapping a row. A dot in a head nests (<c>antenna.gain</c>); an empty cell is a key that is not there; a cell that begins with
    /// <c>[</c> or <c>{</c> is read as YAML. Places are those in the table's file.
    /// </summary>
    public static IReadOnlyList<YamlMapping> Of(CsvTable table, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(diagnostics);
        if (Unusable(table, diagnostics))
        {
            return [];
        }

        List<(string[] Path, CsvCell Head)> columns = [.. table.Head.Select(static h => (h.Text.Split('.'), h))];
        HashSet<string> whole = [.. table.Head.Select(static h => h.Text)];
        foreach ((string[] path, CsvCell head) in columns)
        {
            if (path.Any(static p => p.Length == 0))
            {
                diagnostics.Error(
                    table.File,
                    head.Line,
                    head.Column,
                    $"the head '{Quote.Short(head.Text)}' has a dot without a key beside it",
                    "write nested keys as in 'antenna.gain'");
                return [];
            }

            for (int steps = 1; steps < path.Length; steps++)
            {
                string shorter = string.Join('.', path.AsSpan(0, steps)!);
                if (whole.Contains(shorter))
                {
                    diagnostics.Error(
                        table.File,
                        head.Line,
                        head.Column,
                        $"the heads '{Quote.Short(shorter)}' and '{Quote.Short(head.Text)}' are two ways of saying one thing",
                        "keep one of the two");
                    return [];
                }
            }
        }

        return [.. table.Rows.Select(row => Mapping(table, row, columns, diagnostics))];
    }

    // The work is the number of columns times the steps of a head, and nesting is walked step by step: both have an end.
    private static bool Unusable(CsvTable table, DiagnosticBag diagnostics)
    {
        if (table.Head.Count > MaximumColumns)
        {
            CsvCell first = table.Head[MaximumColumns];
            diagnostics.Error(
                table.File,
                first.Line,
                first.Column,
                FormattableString.Invariant($"the table has {table.Head.Count} columns, and at most {MaximumColumns} are read"),
                "keep the columns that say something of the program's, one thing a column");
            return true;
        }

        foreach (CsvCell head in table.Head)
        {
            if (head.Text.AsSpan().Count('.') >= MaximumSteps)
            {
                diagnostics.Error(
                    table.File,
                    head.Line,
                    head.Column,
                    FormattableString.Invariant($"the head '{Quote.Short(head.Text)}' nests more than {MaximumSteps} keys"),
                    "write nested keys as in 'antenna.gain'");
                return true;
            }
        }

        return false;
    }

    private static YamlMapping Mapping(CsvTable table, CsvRow row, List<(string[] Path, CsvCell Head)> columns, DiagnosticBag diagnostics)
    {
        YamlPosition start = new(row.Line, 1, 0);
        Branch root = new();
        for (int i = 0; i < columns.Count; i++)
        {
            CsvCell cell = row.Cells[i];
            YamlPosition at = new(cell.Line, cell.Column, 0);
            if (cell.Text.Length == 0)
            {
                continue;
            }

            YamlNode? value = cell.Text[0] is '[' or '{'
                ? new YamlTreeBuilder(cell.Text, table.File, diagnostics, at).Build() is { IsComplete: true } flow ? flow : null
                : new YamlScalar(table.File, at, at, cell.Text, YamlScalarStyle.Quoted);
            root.Put(columns[i].Path, columns[i].Head, value);
        }

        return root.ToMapping(table.File, start);
    }

    /// <summary>A mapping in the making.</summary>
    private sealed class Branch
    {
        private readonly List<(string Key, CsvCell Head, Branch? Inner, YamlNode? Value)> _entries = [];
        private bool _whole = true;

        public void Put(ReadOnlySpan<string> path, CsvCell head, YamlNode? value)
        {
            string key = path[0];
            if (path.Length == 1)
            {
                _entries.Add((key, head, null, value));
                _whole &= value is not null;
                return;
            }

            Branch? inner = _entries.Find(e => e.Key == key).Inner;
            if (inner is null)
            {
                inner = new Branch();
                _entries.Add((key, head, inner, null));
            }

            inner.Put(path[1..], head, value);
        }

        public YamlMapping ToMapping(string file, YamlPosition start)
        {
            List<YamlEntry> entries = [];
            foreach ((string key, CsvCell head, Branch? inner, YamlNode? value) in _entries)
            {
                YamlNode? node = inner is null ? value : inner.ToMapping(file, inner.First()?.Start ?? start);
                if (node is not null)
                {
                    YamlPosition at = new(head.Line, head.Column, 0);
                    entries.Add(new YamlEntry(new YamlScalar(file, at, at, key, YamlScalarStyle.Plain), node) { InTable = true });
                }
            }

            return new YamlMapping(file, start, start, _whole, entries, false);
        }

        private YamlNode? First() => _entries.Select(static e => e.Value ?? e.Inner?.First()).FirstOrDefault(static n => n is not null);
    }
}
