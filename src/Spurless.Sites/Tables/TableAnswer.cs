using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Tables;

/// <summary>By what a column's unit is known.</summary>
public enum UnitOrigin
{
    /// <summary>It needs none, or none is known yet.</summary>
    None,

    /// <summary>It was chosen.</summary>
    Chosen,

    /// <summary>Its head says so.</summary>
    Head,

    /// <summary>Every cell carries its own.</summary>
    Cells,

    /// <summary>It is the only one in which the numbers make sense, or the trade's usual one: an assumption.</summary>
    Assumed,
}

/// <summary>A column of a table.</summary>
/// <param name="Head">What stands over it; empty where the table has no head.</param>
/// <param name="Key">The key of an emitter that it is taken for; null where it is left out.</param>
/// <param name="Unit">The unit of its bare numbers; null where it has none.</param>
/// <param name="Origin">By what the unit is known.</param>
/// <param name="Samples">Its first cells that hold anything, as they stand.</param>
public sealed record TableColumn(string Head, string? Key, string? Unit, UnitOrigin Origin, IReadOnlyList<string> Samples);

/// <summary>A row that can be written as an emitter.</summary>
/// <param name="Line">The line of the table, from 1.</param>
/// <param name="Values">Its keys with values as the site file writes them, the name first.</param>
public sealed record TableRow(int Line, IReadOnlyList<(string Key, string Value)> Values)
{
    /// <summary>A key's value; null where the row states none.</summary>
    public string? Value(string key) => Values.FirstOrDefault(v => v.Key == key).Value;
}

/// <summary>What is not taken: a whole row, or one of its cells.</summary>
/// <param name="Line">The line of the table, from 1.</param>
/// <param name="Head">The head of the cell's column; null for a whole row.</param>
/// <param name="Why">Why, and what to write instead.</param>
public sealed record LeftOut(int Line, string? Head, Refusal Why);

/// <summary>What a table holds.</summary>
public sealed record TableAnswer
{
    /// <summary>What was asked.</summary>
    public required TableQuestion Question { get; init; }

    /// <summary>What separates its cells.</summary>
    public required char Separator { get; init; }

    /// <summary>Whether its first row was taken for its head.</summary>
    public required bool HasHead { get; init; }

    /// <summary>Whether a comma was taken for the decimal sign.</summary>
    public required bool DecimalComma { get; init; }

    /// <summary>Its columns.</summary>
    public required IReadOnlyList<TableColumn> Columns { get; init; }

    /// <summary>The rows that can be written.</summary>
    public required IReadOnlyList<TableRow> Rows { get; init; }

    /// <summary>The rows that cannot.</summary>
    public required IReadOnlyList<LeftOut> Skipped { get; init; }

    /// <summary>Cells of rows that can be written that are left out of them.</summary>
    public required IReadOnlyList<LeftOut> Cells { get; init; }

    /// <summary>How many rows have the assumed width.</summary>
    public required int WidthAssumed { get; init; }

    /// <summary>The rows as a table that a site file's <c>emitters_from</c> can name.</summary>
    public string Native => TableText.Write(Rows);
}
