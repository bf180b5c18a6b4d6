namespace Spurless.Sites.Tables;

/// <summary>Finds out what the columns of somebody's table are, and in which units.</summary>
internal static class TableColumns
{
    private const int Looked = 200; // cells of a column by which it is judged
    private const int Enough = 40; // how well a head must fit a key

    /// <summary>A row is a head where none of its cells is a number and at least one has a word for a key, or all have.</summary>
    public static bool IsHead(IReadOnlyList<string> cells) =>
        !cells.Any(static c => c.Length > 0 && TableNumbers.TryRead(c, false, out _, out _))
        && cells.Any(static c => TableKeys.All.Any(k => TableKeys.Fit(c, k) >= Enough));

    /// <summary>Whether a comma is the decimal sign.</summary>
    public static bool DecimalComma(
        IReadOnlyList<string> heads, IReadOnlyList<(int Line, IReadOnlyList<string> Cells)> body, char separator)
    {
        List<string> cells = [.. body.Take(Looked).SelectMany(static r => r.Cells).Where(IsNumber)];
        if (TableNumbers.DecimalComma(cells) is { } told)
        {
            return told;
        }

        // '145,050' alone: in MHz a decimal comma, in kHz or Hz a thousand. A table whose cells are parted by commas has no other.
        bool small = heads.Any(static h => TableKeys.Fit(h, TableKeys.Of("frequency")!) >= Enough
            && TableKeys.Parts(h).Unit is "kHz" or "Hz");
        return separator != ',' && !small && cells.Exists(static c => c.Contains(',', StringComparison.Ordinal));
    }

    /// <summary>What each column is.</summary>
    public static IEnumerable<TableColumn> Recognise(
        IReadOnlyList<string> heads,
        IReadOnlyList<(int Line, IReadOnlyList<string> Cells)> body,
        int width,
        bool comma,
        IReadOnlyList<ColumnChoice?>? chosen,
        int samples)
    {
        string[][] cells = [.. Enumerable.Range(0, width).Select(c => body.Where(r => c < r.Cells.Count).Select(r => r.Cells[c])
            .Where(static t => !TableCells.IsBlank(t)).Take(Looked).ToArray())];
        string?[] keys = heads.Count > 0 ? ByHead(heads, width, cells, comma) : ByContent(cells, comma);
        for (int c = 0; c < width; c++)
        {
            string head = c < heads.Count ? heads[c] : "";
            ColumnChoice? choice = chosen is not null && c < chosen.Count ? chosen[c] : null;
            string? key = choice is null ? keys[c] : choice.Key;
            (string? unit, UnitOrigin origin) = Unit(key, head, cells[c], comma, choice?.Unit);
            yield return new TableColumn(head, key, unit, origin, [.. cells[c].Take(samples)]);
        }
    }

    private static string?[] ByHead(IReadOnlyList<string> heads, int width, string[][] cells, bool comma)
    {
        string?[] keys = new string?[width];
        IEnumerable<(int Column, string Key, int Fit)> all = Enumerable.Range(0, Math.Min(width, heads.Count))
            .SelectMany(c => TableKeys.All.Select(k => (Column: c, k.Key, Fit: TableKeys.Fit(heads[c], k))))
            .Where(static f => f.Fit >= Enough).OrderByDescending(static f => f.Fit).ThenBy(static f => f.Column);
        foreach ((int column, string key, _) in all)
        {
            // A power in dBm that is under 0 is what a receiver hears, not what a transmitter gives.
            string to = key == "power" && TableKeys.Parts(heads[column]).Unit == "dBm" && IsNegative(cells[column], comma) ? "level" : key;
            if (keys[column] is null && !keys.Contains(to))
            {
                keys[column] = to;
            }
        }

        return keys;
    }

    // Without a head: the first text is the name, the first numbers that can be carriers are frequencies, the first negative ones levels.
    private static string?[] ByContent(string[][] cells, bool comma)
    {
        string?[] keys = new string?[cells.Length];
        for (int c = 0; c < cells.Length; c++)
        {
            string? key = cells[c].Length == 0 ? null
                : cells[c].All(static t => Radio.Emissions.Emission.TryParse(t, out _, out _)) ? "emission"
                : cells[c].Count(IsNumber) < cells[c].Length / 2.0 ? "name"
                : Unit("frequency", "", cells[c], comma, null).Unit is not null && !IsNegative(cells[c], comma) ? "frequency"
                : IsNegative(cells[c], comma) ? "level"
                : null;
            keys[c] = keys.Contains(key) ? null : key;
        }

        return keys;
    }

    private static (string? Unit, UnitOrigin Origin) Unit(string? key, string head, string[] cells, bool comma, string? chosen)
    {
        if (TableKeys.Of(key) is not { Units.Count: > 0 } known)
        {
            return (null, UnitOrigin.None);
        }

        if (chosen is not null)
        {
            return (chosen, UnitOrigin.Chosen);
        }

        if (TableKeys.Parts(head).Unit is { } said && known.Units.Contains(said))
        {
            return (said, UnitOrigin.Head);
        }

        List<double> bare = [];
        foreach (string cell in cells)
        {
            if (TableNumbers.TryRead(cell, comma, out string number, out string unit) && unit.Length == 0)
            {
                bare.Add(TableNumbers.Value(number));
            }
        }

        if (bare.Count == 0)
        {
            return cells.Length > 0 ? (known.Units[0], UnitOrigin.Cells) : (known.Units[0], UnitOrigin.Assumed);
        }

        bare.Sort();
        double middle = bare[bare.Count / 2];
        return key switch
        {
            // Carriers of these bands, 20 MHz to 3 GHz: no two units give the same numbers.
            "frequency" => middle is >= 20 and <= 3000 ? ("MHz", UnitOrigin.Assumed)
                : middle is >= 20e3 and <= 3e6 ? ("kHz", UnitOrigin.Assumed)
                : middle is >= 20e6 and <= 3e9 ? ("Hz", UnitOrigin.Assumed)
                : (null, UnitOrigin.None),
            // A voltage is never negative in these units, a level nearly always.
            "level" => middle < 0 ? ("dBm", UnitOrigin.Assumed) : (null, UnitOrigin.None),
            // Over a dipole or over isotropic: 2.15 dB that no number tells.
            "antenna.gain" => (null, UnitOrigin.None),
            "bandwidth" => middle is >= 1 and <= 1000 ? ("kHz", UnitOrigin.Assumed)
                : middle > 1000 ? ("Hz", UnitOrigin.Assumed) : (null, UnitOrigin.None),
            "distance" => (null, UnitOrigin.None),
            "power" or "erp" or "eirp" => ("W", UnitOrigin.Assumed),
            _ => (known.Units[0], UnitOrigin.Assumed),
        };
    }

    private static bool IsNumber(string cell) =>
        TableNumbers.TryRead(cell, false, out _, out _) || TableNumbers.TryRead(cell, true, out _, out _);

    private static bool IsNegative(string[] cells, bool comma) => cells.Any(c =>
        TableNumbers.TryRead(c, comma, out string number, out _) && TableNumbers.Value(number) < 0);
}
