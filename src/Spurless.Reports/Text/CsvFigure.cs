namespace Spurless.Reports.Text;

/// <summary>A figure of a table of comma-separated values: six decimals, as everywhere in the results.</summary>
internal static class CsvFigure
{
    /// <summary>The figure; nothing where there is none or it is not finite, for a reader of tables knows no word for that.</summary>
    /// <param name="value">The figure.</param>
    public static string Of(double? value) => value is { } known && double.IsFinite(known) ? FixedText.Of(known, 6) : "";
}
