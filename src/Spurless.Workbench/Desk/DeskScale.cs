using System.Globalization;

namespace Spurless.Workbench.Desk;

/// <summary>Range, step and decimals of an item's slider.</summary>
internal static class DeskScale
{
    /// <summary>
    /// A ratio or a level: a fixed range, widened to hold the file's value, in steps of half a decibel or finer where the file is.
    /// </summary>
    public static DeskItem Decibels(DeskItem item, double low, double high, double step)
    {
        int decimals = Math.Max(DecimalsOf(step), DecimalsOf(item.FileValue));
        return item with
        {
            Low = Math.Min(low, Math.Floor(item.FileValue)),
            High = Math.Max(high, Math.Ceiling(item.FileValue)),
            Step = decimals > DecimalsOf(step) ? Math.Pow(10, -decimals) : step,
            Decimals = decimals,
        };
    }

    /// <summary>A part's value or a length: from half to twice the file's value, in steps of a hundredth of its leading digit.</summary>
    /// <param name="item">The item without its scale.</param>
    /// <param name="text">Its value in the file as a quantity prints it: <c>6.8 pF</c>.</param>
    /// <returns>The item; null where the value is so far from every unit that no slider holds it.</returns>
    public static DeskItem? Proportional(DeskItem item, string text)
    {
        (double value, string unit) = Split(text);
        int leading = value > 0 ? (int)Math.Floor(Math.Log10(value)) : 0;
        int decimals = Math.Max(Math.Max(0, 2 - leading), DecimalsOf(value));
        return decimals > DeskItem.MostDecimals ? null : item with
        {
            FileValue = value,
            Unit = unit,
            Decimals = decimals,
            Step = Math.Pow(10, -decimals),
            Low = Math.Round(value / 2, decimals),
            High = Math.Round(value * 2, decimals),
        };
    }

    private static (double Value, string Unit) Split(string text)
    {
        int blank = text.IndexOf(' ', StringComparison.Ordinal);
        return (double.Parse(text.AsSpan(0, blank), NumberStyles.Float, CultureInfo.InvariantCulture), text[(blank + 1)..]);
    }

    private static int DecimalsOf(double value)
    {
        string text = Math.Abs(value).ToString("0.#########", CultureInfo.InvariantCulture);
        int point = text.IndexOf('.', StringComparison.Ordinal);
        return point < 0 ? 0 : text.Length - point - 1;
    }
}
