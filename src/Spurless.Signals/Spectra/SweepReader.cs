using System.Globalization;
using Spurless.Files;
using Spurless.Files.Diagnostics;

namespace Spurless.Signals.Spectra;

/// <summary>
/// Reads sweeps of a spectrum: a table with the heads <c>frequency_hz,level_dbm</c>, one with <c>time</c> and then a column a frequency,
/// or any other whose columns are
/// named. Commas, semicolons or tabs; lines that begin with <c>#</c> are comments.
/// </summary>
public static class SweepReader
{
    /// <summary>Most readings in one sweep.</summary>
    public const long MostReadings = 50_000_000;

    /// <summary>Reads one.</summary>
    /// <param name="text">The file's text.</param>
    /// <param name="file">Its name as the user gave it.</param>
    /// <param name="columns">The columns, or null for the usual heads.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The sweep; null where it has errors.</returns>
    public static Sweep? Read(TextReader text, string file, SweepColumns? columns, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        Lines lines = new(text);
        if (lines.Next() is not { } head)
        {
            diagnostics.Error(file, 0, 0, "the sweep is empty", "give a table with the heads frequency_hz,level_dbm");
            return null;
        }

        char separator = Separator(head);
        string[] heads = [.. Split(head, separator).Select(static h => h.Trim().Trim('"'))];
        Sweep? sweep = columns is null && heads.Length > 2 && heads[0] == "time"
            ? ReadRows(lines, separator, heads, file, own)
            : ReadTrace(lines, separator, heads, file, columns, own);
        diagnostics.AddRange(own.InOrder());
        return own.HasErrors ? null : sweep;
    }

    private static Sweep? ReadTrace(Lines lines, char separator, string[] heads, string file, SweepColumns? columns,
        DiagnosticBag diagnostics)
    {
        (string frequencyHead, string levelHead) = columns is null ? ("frequency_hz", "level_dbm") : (columns.Frequency, columns.Level);
        int frequency = Array.IndexOf(heads, frequencyHead);
        int level = Array.IndexOf(heads, levelHead);
        foreach ((int at, string name) in new[] { (frequency, frequencyHead), (level, levelHead) })
        {
            if (at < 0)
            {
                diagnostics.Error(
                    file, lines.Line, 1, $"the table has no column '{Quote.Short(name)}'",
                    "its columns are " + Quote.Heads(heads) + "; name two of them with --columns");
            }
        }

        double? hertz = frequency < 0 ? null : SweepColumns.HertzOf(frequencyHead);
        double? dbm = level < 0 ? null : SweepColumns.DbmOf(levelHead);
        if (frequency >= 0 && hertz is null)
        {
            diagnostics.Error(file, lines.Line, 1, $"the head '{Quote.Short(frequencyHead)}' has no unit",
                "write one in brackets: [Hz], [kHz], [MHz] or [GHz]");
        }

        if (level >= 0 && dbm is null)
        {
            diagnostics.Error(file, lines.Line, 1, $"the head '{Quote.Short(levelHead)}' has no unit",
                "write one in brackets: [dBm], [dBuV] or [dBuV/m]");
        }

        if (diagnostics.HasErrors)
        {
            return null;
        }

        List<(double Hertz, double Dbm)> points = [];
        while (lines.Next() is { } line)
        {
            string[] cells = Split(line, separator);
            if (TryCell(cells, frequency, "a frequency", file, lines.Line, diagnostics, out double f) & TryCell(cells, level, "a level",
                file, lines.Line, diagnostics, out double l))
            {
                points.Add((f * hertz!.Value, l + dbm!.Value));
            }
        }

        points.Sort(static (a, b) => a.Hertz.CompareTo(b.Hertz));
        return Checked(
            new Sweep(file, [.. points.Select(static p => p.Hertz)], [[.. points.Select(static p => p.Dbm)]])
            {
                IsFieldStrength = SweepColumns.IsFieldStrength(levelHead),
            },
            diagnostics);
    }

    private static Sweep? ReadRows(Lines lines, char separator, string[] heads, string file, DiagnosticBag diagnostics)
    {
        double[] frequencies = new double[heads.Length - 1];
        for (int i = 1; i < heads.Length; i++)
        {
            if (!double.TryParse(heads[i], NumberStyles.Float, CultureInfo.InvariantCulture, out frequencies[i - 1]))
            {
                diagnostics.Error(file, lines.Line, 1, $"the head '{Quote.Short(heads[i])}' is no frequency",
                    "write the frequency in hertz over each column");
            }
        }

        List<double[]> rows = [];
        while (!diagnostics.HasErrors && lines.Next() is { } line)
        {
            string[] cells = Split(line, separator);
            if (cells.Length != heads.Length)
            {
                diagnostics.Error(file, lines.Line, 1,
                    FormattableString.Invariant($"the row has {cells.Length} cells and the head has {heads.Length}"),
                    "write one level for each frequency");
                break;
            }

            double[] row = new double[frequencies.Length];
            for (int i = 0; i < row.Length; i++)
            {
                TryCell(cells, i + 1, "a level", file, lines.Line, diagnostics, out row[i]);
            }

            rows.Add(row);
            if ((long)rows.Count * row.Length > MostReadings)
            {
                diagnostics.Error(file, lines.Line, 1,
                    FormattableString.Invariant($"the sweep has more than {MostReadings:N0} readings"), "give a shorter piece of it");
            }
        }

        if (rows.Count == 0 && !diagnostics.HasErrors)
        {
            diagnostics.Error(file, 0, 0, "the sweep has no rows", "write one row a sweep behind the head");
        }

        return diagnostics.HasErrors ? null : Checked(new Sweep(file, frequencies, rows), diagnostics);
    }

    private static Sweep? Checked(Sweep sweep, DiagnosticBag diagnostics)
    {
        if (sweep.FrequenciesHz.Count < 16)
        {
            diagnostics.Error(sweep.File, 0, 0, FormattableString.Invariant($"the sweep has {sweep.FrequenciesHz.Count} frequencies"),
                "give at least 16: the noise between the lines has to be seen");
            return null;
        }

        double spacing = sweep.SpacingHz;
        for (int i = 1; i < sweep.FrequenciesHz.Count; i++)
        {
            double step = sweep.FrequenciesHz[i] - sweep.FrequenciesHz[i - 1];
            if (!(Math.Abs(step - spacing) <= (0.02 * spacing) + 1))
            {
                diagnostics.Error(
                    sweep.File, 0, 0,
                    string.Create(CultureInfo.InvariantCulture, $"the frequencies are not evenly spaced: {step:0.#} Hz at " +
                        $"{sweep.FrequenciesHz[i]:0} Hz, {spacing:0.#} Hz elsewhere"),
                    "give each band in a file of its own");
                return null;
            }
        }

        return sweep;
    }

    private static bool TryCell(string[] cells, int at, string what, string file, int line, DiagnosticBag diagnostics, out double value)
    {
        string cell = at < cells.Length ? cells[at].Trim().Trim('"') : "";
        if (double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value))
        {
            return true;
        }

        if (diagnostics.InOrder().Count < 50)
        {
            diagnostics.Error(file, line, 1 + cells.Take(at).Sum(static c => c.Length + 1), $"'{Quote.Short(cell)}' is not {what}",
                "write a plain number");
        }

        return false;
    }

    private static string[] Split(string line, char separator) => line.Split(separator);

    private static char Separator(string head)
    {
        (int commas, int semicolons, int tabs) =
            (head.Count(static c => c == ','), head.Count(static c => c == ';'), head.Count(static c => c == '\t'));
        return semicolons > commas && semicolons >= tabs ? ';' : tabs > commas ? '\t' : ',';
    }

    private sealed class Lines(TextReader text)
    {
        public int Line { get; private set; }

        public string? Next()
        {
            while (text.ReadLine() is { } line)
            {
                Line++;
                line = Line == 1 ? line.TrimStart('\uFEFF') : line;
                if (line.Length > 0 && line[0] != '#' && line.AsSpan().Trim().Length > 0)
                {
                    return line;
                }
            }

            return null;
        }
    }
}
