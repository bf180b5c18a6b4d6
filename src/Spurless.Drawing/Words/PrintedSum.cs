using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>
/// Makes a printed sum add up as printed, with every figure that also stands in a list printed as it stands there: what rounding leaves
/// over goes to a term that stands nowhere else, and where there is none into a line of its own.
/// </summary>
internal static class PrintedSum
{
    /// <summary>The line that says what rounding left over.</summary>
    public const string LeftOver = "left over by rounding";

    /// <summary>Terms rounded to a tenth such that they add up to the rounded total.</summary>
    /// <param name="terms">In dB or dBm; may be empty.</param>
    /// <param name="total">What they add up to, within rounding.</param>
    /// <param name="taker">Index of the term that takes what rounding leaves over; null for the largest.</param>
    public static IReadOnlyList<double> Of(IReadOnlyList<double> terms, double total, int? taker = null)
    {
        double[] printed = [.. terms.Select(Figures.Rounded)];
        if (printed.Length == 0)
        {
            return printed;
        }

        int largest = taker ?? Enumerable.Range(0, terms.Count).MaxBy(i => Math.Abs(terms[i]));
        double over = Figures.Rounded(Figures.Rounded(total) - printed.Sum());
        printed[largest] = Figures.Rounded(printed[largest] + over);
        return printed;
    }

    /// <summary>What is left over between a level, a noise floor and their difference, each printed as it stands elsewhere.</summary>
    /// <param name="levelDbm">Level in the channel.</param>
    /// <param name="noiseDbm">Noise floor.</param>
    /// <param name="overDb">Their difference.</param>
    /// <returns>0 or a tenth.</returns>
    public static double LeftOverDb(double levelDbm, double noiseDbm, double overDb) =>
        Figures.Rounded(Figures.Rounded(overDb) - (Figures.Rounded(levelDbm) - Figures.Rounded(noiseDbm)));

    /// <summary>The lines of a sum as they are printed.</summary>
    /// <param name="lines">Of <see cref="ProductArithmetic.Of"/>.</param>
    /// <returns>The same lines with rounded values, one more before the result where rounding leaves something over.</returns>
    public static IReadOnlyList<SumLine> Of(IReadOnlyList<SumLine> lines)
    {
        List<SumLine> printed = [];
        int from = 0;
        double carried = 0;
        for (int i = 0; i < lines.Count; i++)
        {
            switch (lines[i].Kind)
            {
                case SumLineKind.Part:
                    break;
                case SumLineKind.Subtotal:
                    double[] parts = [.. lines.Skip(from).Take(i - from).Select(static l => l.Value)];
                    // The subtotal above stands as printed, so its own rounding is among what is left over here.
                    IReadOnlyList<double> rounded = Of(parts, Figures.Rounded(lines[i].Value) - carried, Taker(lines, from, i));
                    printed.AddRange(rounded.Select((v, at) => lines[from + at] with { Value = v }));
                    carried = Figures.Rounded(lines[i].Value);
                    printed.Add(lines[i] with { Value = carried });
                    from = i + 1;
                    break;
                case SumLineKind.Reference:
                    printed.Add(lines[i] with { Value = Figures.Rounded(lines[i].Value) });
                    from = i + 1;
                    break;
                default:
                    double over = LeftOverDb(carried, printed[^1].Value, lines[i].Value);
                    if (over != 0)
                    {
                        printed.Add(new SumLine(SumPart.LeftOver, over, SumLineKind.Part));
                    }

                    printed.Add(lines[i] with { Value = Figures.Rounded(lines[i].Value) });
                    from = i + 1;
                    break;
            }
        }

        return printed;
    }

    // The intercept's part stands nowhere else; the levels before it do.
    private static int? Taker(IReadOnlyList<SumLine> lines, int from, int to)
    {
        for (int i = from; i < to; i++)
        {
            if (lines[i].Part == SumPart.Intercept)
            {
                return i - from;
            }
        }

        return null;
    }
}
