using System.Collections.Immutable;
using System.Globalization;
using Spurless.Files;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;

namespace Spurless.Fit;

/// <summary>Reads a sweep of magnitudes: a table with the head <c>frequency_hz,s21_db[,s11_db]</c>.</summary>
public static class MagnitudeSweepReader
{
    private const double LeastDb = -250;
    private const double MostDb = 120;

    /// <summary>Whether a table begins as a sweep does: with the head <c>frequency_hz</c>.</summary>
    /// <param name="bytes">The file, or its beginning.</param>
    public static bool IsSweep(ReadOnlySpan<byte> bytes)
    {
        ReadOnlySpan<byte> text = bytes.StartsWith("\uFEFF"u8) ? bytes[3..] : bytes;
        return text.StartsWith("frequency_hz"u8) || text.StartsWith("\"frequency_hz\""u8);
    }

    /// <summary>Reads the bytes of a table.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="file">Its name for messages.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The sweep; null where there is an error.</returns>
    public static FitSweep? Read(ReadOnlySpan<byte> bytes, string file, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        FitSweep? sweep = CsvTable.Read(bytes, file, own) is { } table ? Read(table, own) : null;
        diagnostics.AddRange(own.InOrder());
        return own.HasErrors ? null : sweep;
    }

    private static FitSweep? Read(CsvTable table, DiagnosticBag diagnostics)
    {
        int Column(string head) => table.Head.ToList().FindIndex(h => h.Text == head);
        (int at, int s21, int s11) = (Column("frequency_hz"), Column("s21_db"), Column("s11_db"));
        if (!CheckHead(table, at, s21, diagnostics))
        {
            return null;
        }

        ImmutableArray<double>.Builder frequencies = ImmutableArray.CreateBuilder<double>(),
        forward = ImmutableArray.CreateBuilder<double>(),
        returned = ImmutableArray.CreateBuilder<double>();
        foreach (CsvRow row in table.Rows)
        {
            CsvCell cell = row.Cells[at];
            double? frequency = Number(table, cell, diagnostics, 1e-3, 1e13, "a frequency in hertz above 0, such as 145050000");
            double? s21Db = Number(table, row.Cells[s21], diagnostics, LeastDb, MostDb, "a magnitude in dB, such as -3.2");
            double? s11Db = s11 < 0 ? 0 : Number(table, row.Cells[s11], diagnostics, LeastDb, MostDb, "a magnitude in dB, such as -20.5");
            if (frequency is not { } f || s21Db is not { } a || s11Db is not { } b)
            {
                continue;
            }

            if (frequencies.Count > 0 && f <= frequencies[^1])
            {
                diagnostics.Error(
                    table.File,
                    cell.Line,
                    cell.Column,
                    "the frequency is not above the one before",
                    "sort the rows by frequency, each once");
                continue;
            }

            frequencies.Add(f);
            forward.Add(a);
            returned.Add(b);
        }

        if (frequencies.Count == 0 && !diagnostics.HasErrors)
        {
            diagnostics.Error(table.File, 0, 0, "the sweep has no points", "write a row a frequency");
        }

        return diagnostics.HasErrors
            ? null
            : FitSweep.OfMagnitudes(table.File, frequencies.ToImmutable(), forward.ToImmutable(), s11 < 0 ? [] : returned.ToImmutable());
    }

    // Says what stands in the head and does not belong there; false where the columns that a sweep needs are missing.
    private static bool CheckHead(CsvTable table, int at, int s21, DiagnosticBag diagnostics)
    {
        foreach (CsvCell unknown in table.Head.Where(static h => h.Text is not ("frequency_hz" or "s21_db" or "s11_db")))
        {
            diagnostics.Error(
                table.File,
                unknown.Line,
                unknown.Column,
                $"the column '{Quote.Short(unknown.Text)}' is none of a sweep's",
                "write the head frequency_hz,s21_db or frequency_hz,s21_db,s11_db");
        }

        if (at < 0 || s21 < 0)
        {
            CsvCell first = table.Head[0];
            diagnostics.Error(
                table.File,
                first.Line,
                first.Column,
                $"there is no column '{(at < 0 ? "frequency_hz" : "s21_db")}'",
                "write the head frequency_hz,s21_db or frequency_hz,s21_db,s11_db");
            return false;
        }

        return true;
    }

    private static double? Number(CsvTable table, CsvCell cell, DiagnosticBag diagnostics, double least, double most, string wanted)
    {
        if (double.TryParse(cell.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            && value >= least
            && value <= most)
        {
            return value;
        }

        diagnostics.Error(
            table.File, cell.Line, cell.Column, cell.Text.Length == 0 ? "an empty cell" : $"'{Quote.Short(cell.Text)}'", $"write {wanted}");
        return null;
    }
}
