using System.Globalization;

namespace Spurless.CommandLine;

/// <summary>A range of temperatures as typed: <c>-10..40 C</c>, or one temperature.</summary>
/// <param name="LowestC">Lowest in degrees Celsius, over absolute zero.</param>
/// <param name="HighestC">Highest in degrees Celsius, at most 1000.</param>
internal readonly record struct TemperatureRange(double LowestC, double HighestC)
{
    private const double Least = -273.15;
    private const double Most = 1000;

    /// <summary>Reads a range.</summary>
    public static bool TryParse(string text, out TemperatureRange value, out string problem)
    {
        value = default;
        string clean = text.Trim();
        if (!clean.EndsWith('C'))
        {
            problem = $"'{clean}' has no unit; write degrees Celsius like \"-10..40 C\"";
            return false;
        }

        string[] ends = clean[..^1].TrimEnd('°', ' ').Split("..", StringSplitOptions.TrimEntries);
        if (ends.Length > 2 || !TryDegrees(ends[0], out double low) || !TryDegrees(ends[^1], out double high))
        {
            problem = $"'{clean}' is no range of temperatures; write the lowest and the highest like \"-10..40 C\", or one like \"60 C\"";
            return false;
        }

        if (low > high)
        {
            problem = $"'{clean}' begins with the higher temperature; write the lower one first";
            return false;
        }

        value = new TemperatureRange(low, high);
        problem = "";
        return true;
    }

    private static bool TryDegrees(string text, out double degrees) =>
        double.TryParse(
            text.Replace('−', '-'),
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out degrees)
        && degrees is > Least and <= Most;
}
