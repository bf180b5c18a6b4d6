namespace Spurless.Sites.Tables;

/// <summary>What a column of somebody's table is taken for.</summary>
/// <param name="Key">The key of an emitter that it holds, such as <c>antenna.gain</c>; null leaves the column out.</param>
/// <param name="Unit">The unit of its bare numbers; null where none was chosen.</param>
public sealed record ColumnChoice(string? Key, string? Unit);

/// <summary>Which emitters does a table hold whose heads are not the program's?</summary>
public sealed record TableQuestion
{
    /// <summary>Occupied width of a carrier of which the table says none: that of a narrow FM channel (common practice).</summary>
    public const string UsualWidth = "16 kHz";

    /// <summary>The table's text, as pasted or as it stands in its file.</summary>
    public required string Text { get; init; }

    /// <summary>What each column is, by its place; null, as a whole or for one, where it is to be recognised.</summary>
    public IReadOnlyList<ColumnChoice?>? Columns { get; init; }

    /// <summary>Whether the first row says what the columns are; null where that is to be recognised.</summary>
    public bool? HasHead { get; init; }

    /// <summary>Whether a comma is the decimal sign; null where that is to be recognised.</summary>
    public bool? DecimalComma { get; init; }

    /// <summary>Occupied width written for rows that state neither emission nor width; blank leaves such rows out.</summary>
    public string Width { get; init; } = UsualWidth;

    /// <summary>Names that the site uses, with their frequencies in hertz: what is there already is not taken twice.</summary>
    public IReadOnlyDictionary<string, long> Taken { get; init; } = new Dictionary<string, long>();
}
