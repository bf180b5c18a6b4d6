using System.Globalization;

namespace Spurless.Reports.Tests.Studies;

/// <summary>Adds up a printed sum as a reader would.</summary>
internal static class PrintedSums
{
    /// <summary>
    /// Asserts that each total is the sum of what stands above it: the total before it counted in, the noise floor taken away.
    /// </summary>
    /// <param name="rows">What a line says, what is printed beside it, and whether it is a total.</param>
    public static void AddUp(IReadOnlyList<(string What, string Value, bool Total)> rows)
    {
        double sum = 0;
        int totals = 0;
        foreach ((string what, string text, bool total) in rows)
        {
            double value = text.Length == 0
                ? 0
                : double.Parse(text.Replace('\u2212', '-'), NumberStyles.Float, CultureInfo.InvariantCulture);
            if (total)
            {
                Assert.True(Math.Abs(sum - value) < 1e-6, $"'{what}' reads {value}, what stands above adds up to {sum:0.0}");
                sum = value;
                totals++;
            }
            else
            {
                sum += what.StartsWith("noise floor", StringComparison.Ordinal) ? -value : value;
            }
        }

        Assert.True(totals >= 2, "there are two totals at least");
    }
}
