using System.Globalization;
using Spurless.Files;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Terrain;

namespace Spurless.Sites.Terrain;

/// <summary>
/// Reads the profile of a path: a table with the heads <c>distance_km</c>, <c>height_m</c> and, where they are known, <c>clutter_m</c> and
/// <c>zone</c>. All that is wrong is reported at once; no input makes it throw.
/// </summary>
public static class ProfileReader
{
    private const string Distance = "distance_km";
    private const string Height = "height_m";
    private const string Clutter = "clutter_m";
    private const string Zone = "zone";
    private static readonly string[] _heads = [Distance, Height, Clutter, Zone];

    /// <summary>Whether a table is a profile, by its first head.</summary>
    /// <param name="bytes">How the file begins.</param>
    public static bool IsProfile(ReadOnlySpan<byte> bytes)
    {
        string text = System.Text.Encoding.UTF8.GetString(bytes[..Math.Min(bytes.Length, 4096)]).TrimStart('\ufeff');
        string? head = text.Split('\n').Select(static l => l.Trim()).FirstOrDefault(static l => l.Length > 0 && l[0] != '#');
        return head?.StartsWith(Distance, StringComparison.Ordinal) == true;
    }

    /// <summary>Reads a profile.</summary>
    /// <param name="bytes">The file's bytes.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The profile, or null where there is any error in it.</returns>
    public static TerrainProfile? Read(ReadOnlySpan<byte> bytes, string fileName, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        DiagnosticBag own = new();
        TerrainProfile? profile = CsvTable.Read(bytes, fileName, own) is { } table ? Read(table, own) : null;
        diagnostics.AddRange(own.InOrder());
        return own.HasErrors ? null : profile;
    }

    private static TerrainProfile? Read(CsvTable table, DiagnosticBag diagnostics)
    {
        foreach (CsvCell head in table.Head.Where(static h => !_heads.Contains(h.Text)))
        {
            string remedy = Nearest.Find(head.Text, _heads) is { } near ? $"write '{near}'" : $"use only {string.Join(", ", _heads)}";
            diagnostics.Error(table.File, head.Line, head.Column, $"'{Quote.Short(head.Text)}' is no column of a profile", remedy);
        }

        int at = Column(table, Distance);
        int high = Column(table, Height);
        if (at < 0 || high < 0)
        {
            CsvCell first = table.Head[0];
            diagnostics.Error(
                table.File, first.Line, first.Column, $"there is no column '{(at < 0 ? Distance : Height)}'",
                    $"head the table {string.Join(',', _heads)}");
            return null;
        }

        int clutter = Column(table, Clutter);
        int zone = Column(table, Zone);
        double[] d = Numbers(table, at, "a distance in km, such as 12.5", diagnostics);
        double[] h = Numbers(table, high, "a height in metres over sea level, such as 245", diagnostics);
        double[] c = clutter < 0 ? [] : Numbers(table, clutter, "a height in metres over the ground, such as 10, or 0", diagnostics);
        RadioZone[] z = zone < 0 ? [] : [.. table.Rows.Select(r => ZoneOf(table, r.Cells[zone], diagnostics))];
        if (diagnostics.HasErrors)
        {
            return null;
        }

        // Thousandths of a metre: a distance that was written with few digits stays as it was written.
        double[] metres = [.. d.Select(static km => Math.Round(km * 1000, 6))];
        if (TerrainProfile.TryCreate(metres, h, c, z, out TerrainProfile profile, out ProfileProblem problem))
        {
            return profile;
        }

        string[] parts = problem.Text!.Split("; ", 2);
        CsvRow? row = problem.Point is { } point ? table.Rows[point - 1] : null;
        diagnostics.Error(table.File, row?.Line ?? table.Head[0].Line, row is null ? 1 : row.Cells[at].Column, parts[0], parts[1]);
        return null;
    }

    private static int Column(CsvTable table, string name)
    {
        for (int i = 0; i < table.Head.Count; i++)
        {
            if (table.Head[i].Text == name)
            {
                return i;
            }
        }

        return -1;
    }

    private static double[] Numbers(CsvTable table, int column, string wanted, DiagnosticBag diagnostics)
    {
        double[] values = new double[table.Rows.Count];
        for (int i = 0; i < values.Length; i++)
        {
            CsvCell cell = table.Rows[i].Cells[column];
            string text = cell.Text.Replace('\u2212', '-');
            if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out values[i]) || !double.IsFinite(values[i]))
            {
                string what = cell.Text.Length == 0 ? "the cell is empty" : $"'{Quote.Short(cell.Text)}' is no number";
                diagnostics.Error(table.File, cell.Line, cell.Column, what, $"write {wanted}");
            }
        }

        return values;
    }

    private static RadioZone ZoneOf(CsvTable table, CsvCell cell, DiagnosticBag diagnostics)
    {
        switch (cell.Text)
        {
            case "inland":
                return RadioZone.Inland;
            case "coastal":
                return RadioZone.Coastal;
            case "sea":
                return RadioZone.Sea;
            default:
                string what = cell.Text.Length == 0 ? "the cell is empty" : $"'{Quote.Short(cell.Text)}' is no zone";
                diagnostics.Error(table.File, cell.Line, cell.Column, what, "write inland, coastal or sea");
                return RadioZone.Inland;
        }
    }
}
