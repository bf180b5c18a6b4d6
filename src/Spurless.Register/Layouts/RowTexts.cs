using Spurless.Register.Reading;

namespace Spurless.Register.Layouts;

/// <summary>Rows of comma-separated files for the reject file.</summary>
internal static class RowTexts
{
    /// <summary>The first fields of a row.</summary>
    public static string First(RecordReader row, int fields) => Without(row, i => i >= fields);

    /// <summary>A row with some fields left empty.</summary>
    public static string Without(RecordReader row, Func<int, bool> leftOut)
    {
        string[] kept = new string[row.Count];
        for (int i = 0; i < kept.Length; i++)
        {
            kept[i] = leftOut(i) ? "" : ColumnText.Text(row[i]);
        }

        return string.Join(",", kept);
    }
}
