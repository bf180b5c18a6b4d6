using System.Globalization;

namespace Spurless.Reports.Text;

/// <summary>A figure with so many decimals, invariant; one that rounds to nothing carries no minus.</summary>
internal static class FixedText
{
    /// <summary>The figure; finite.</summary>
    public static string Of(double value, int decimals)
    {
        string text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return text[0] == '-' && !text.AsSpan(1).ContainsAnyInRange('1', '9') ? text[1..] : text;
    }
}
