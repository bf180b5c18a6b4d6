using System.Globalization;

namespace Spurless.Reports.Text;

/// <summary>A figure with so many decimals, invariant; one that rounds to nothing carries no minus.</summary>
internal static class FixedText
{
    /// <summary>The figure; finite.</summary>
    public static string Of(double value, int decimals) => Of(value, "F" + decimals.ToString(CultureInfo.InvariantCulture));

    /// <summary>The figure in a format of digits; finite.</summary>
    public static string Of(double value, string format)
    {
        string text = value.ToString(format, CultureInfo.InvariantCulture);
        return text[0] == '-' && !text.AsSpan(1).ContainsAnyInRange('1', '9') ? text[1..] : text;
    }
}
