using Spurless.Reports.Words;

namespace Spurless.Reports.Html;

/// <summary>Makes a printed sum add up as printed: what rounding leaves over goes to its largest term.</summary>
internal static class PrintedSum
{
    /// <summary>Terms rounded to a tenth such that they add up to the rounded total.</summary>
    /// <param name="terms">In dB or dBm; may be empty.</param>
    /// <param name="total">What they add up to, within rounding.</param>
    public static IReadOnlyList<double> Of(IReadOnlyList<double> terms, double total)
    {
        double[] printed = [.. terms.Select(Figures.Rounded)];
        if (printed.Length == 0)
        {
            return printed;
        }

        int largest = 0;
        for (int i = 1; i < printed.Length; i++)
        {
            largest = Math.Abs(terms[i]) > Math.Abs(terms[largest]) ? i : largest;
        }

        double over = Figures.Rounded(Figures.Rounded(total) - printed.Sum());
        printed[largest] = Figures.Rounded(printed[largest] + over);
        return printed;
    }
}
