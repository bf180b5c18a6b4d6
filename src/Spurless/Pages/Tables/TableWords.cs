using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Sites.Tables;

namespace Spurless.Pages.Tables;

/// <summary>The sentences of a table on its way into a site.</summary>
internal static class TableWords
{
    /// <summary>What it holds, in a sentence.</summary>
    public static string Answer(TableAnswer? answer, string? problem)
    {
        if (answer is null)
        {
            return StudyWords.Capital(problem ?? "") + ".";
        }

        int unit = answer.Columns.Count(static c => c.Key is not null && c.Unit is null && TableKeys.Of(c.Key)!.Units.Count > 0);
        string rows = (answer.Rows.Count, answer.Skipped.Count) switch
        {
            (0, _) => "No row of the table can be written yet.",
            (_, 0) => $"{StudyWords.Capital(Emitters(answer.Rows.Count))} of the table can be written.",
            _ => $"{StudyWords.Capital(Emitters(answer.Rows.Count))} of the table can be written, "
                + $"{Rows(answer.Skipped.Count)} left out.",
        };
        string columns = unit == 1 ? "one column is" : $"{Figures.CountInWords(unit)} columns are";
        return rows + (unit == 0 ? "" : $" Say in which unit {columns}.");
    }

    /// <summary>So many emitters.</summary>
    public static string Emitters(int count) => $"{Figures.CountInWords(count)} emitter{(count == 1 ? "" : "s")}";

    /// <summary>So many rows.</summary>
    public static string Rows(int count) => $"{Figures.CountInWords(count)} row{(count == 1 ? "" : "s")}";

    /// <summary>A key in words.</summary>
    public static string Key(string key) => key switch
    {
        "at.latitude" => "latitude",
        "at.longitude" => "longitude",
        "erp" => "power, ERP",
        "eirp" => "power, EIRP",
        "power" => "power of the transmitter",
        "level" => "level received",
        "bandwidth" => "width",
        "bearing" => "bearing from the site",
        "antenna.bearing" => "direction of its antenna",
        "activity" => "share of the time on",
        "uncertainty" => "one sigma of its level",
        "ground" => "height of the ground",
        _ => key.Replace('.', ' ').Replace('_', ' '),
    };

    /// <summary>By what a unit is known.</summary>
    public static string Origin(UnitOrigin origin) => origin switch
    {
        UnitOrigin.Head => "by its head",
        UnitOrigin.Cells => "each cell says its own",
        UnitOrigin.Assumed => "assumed by its numbers",
        _ => "",
    };

    /// <summary>What parts the cells.</summary>
    public static string Separator(char separator) => separator switch { '\t' => "tabs", ';' => "semicolons", _ => "commas" };

    /// <summary>What is left out, line by line.</summary>
    public static IReadOnlyList<string> LeftOut(TableAnswer answer) =>
    [
        .. answer.Skipped.Select(static l => string.Create(CultureInfo.InvariantCulture, $"line {l.Line}: {l.Why.What}; {l.Why.Remedy}")),
        .. answer.Cells.Select(static l => string.Create(
            CultureInfo.InvariantCulture,
            $"line {l.Line}, {(l.Head is { Length: > 0 } h ? h : "a cell")}, this cell alone: {l.Why.What}; {l.Why.Remedy}")),
    ];

    /// <summary>What attaching does.</summary>
    public static string Attaching(string table, string site, string? other, bool native) => other is not null
        ? $"{site} takes more emitters from {other} already; rows of this table can be written into it."
        : native ? $"Attached, {table} stays where it is and is changed in a spreadsheet; {site} names it."
        : $"Attached, {table} is written once more with the program’s own heads, and {site} names that; {table} stays as it is.";
}
