namespace Spurless.Mixing.Measurements;

/// <summary>The mean of several figures for one thing, the surer the heavier.</summary>
/// <param name="Figure">
/// The mean, weights <c>1/sigma^2</c>. Its errors are those of the figures times their weights; where figures disagree they are widened.
/// </param>
/// <param name="Disagree">The two that disagree most, over three sigma of their difference; null where none do.</param>
public sealed record WeightedMean(MeasuredFigure Figure, Disagreement? Disagree)
{
    /// <summary>The mean of one or more figures.</summary>
    /// <param name="figures">The figures. Those without an error, if there are any, count alone.</param>
    /// <returns>
    /// The mean. Two of -3 dBm and -1 dBm, each known to 1 dB: -2 dBm, sigma 0.71 dB. Where two disagree the errors are widened by
    /// <c>sqrt(chi^2/(n-1))</c>, so that of two the sigma is half of what they lie apart.
    /// </returns>
    /// <remarks>
    /// Inverse-variance weights by each figure's own sigma; what figures share does not average away. Widening by the scatter is common
    /// practice where results are averaged that do not agree (the scale factor of tables of constants, from memory).
    /// </remarks>
    /// <exception cref="ArgumentException">There is no figure.</exception>
    public static WeightedMean Of(IReadOnlyList<MeasuredFigure> figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        if (figures.Count == 0)
        {
            throw new ArgumentException("there is no mean of nothing", nameof(figures));
        }

        double[] sigmas = [.. figures.Select(static f => f.SigmaDb)];
        bool exact = sigmas.Any(static s => s == 0);
        double[] weights = [.. sigmas.Select(s => exact ? (s == 0 ? 1 : 0) : 1 / (s * s))];
        double all = weights.Sum();
        MeasuredFigure mean = MeasuredFigure.Exact(0);
        for (int i = 0; i < figures.Count; i++)
        {
            mean = mean.Plus(figures[i], weights[i] / all);
        }

        Disagreement? worst = Worst(figures);
        if (worst is null || exact)
        {
            return new WeightedMean(mean, worst);
        }

        double chiSquare = 0;
        for (int i = 0; i < figures.Count; i++)
        {
            double off = (figures[i].Value - mean.Value) / sigmas[i];
            chiSquare += off * off;
        }

        return new WeightedMean(mean.Widened(Math.Max(1, Math.Sqrt(chiSquare / (figures.Count - 1)))), worst);
    }

    private static Disagreement? Worst(IReadOnlyList<MeasuredFigure> figures)
    {
        Disagreement? worst = null;
        double most = Disagreement.FromSigmas;
        for (int i = 0; i < figures.Count; i++)
        {
            for (int j = i + 1; j < figures.Count; j++)
            {
                MeasuredFigure difference = figures[i].Plus(figures[j], -1);
                (double apart, double sigma) = (Math.Abs(difference.Value), difference.SigmaDb);

                // Two exact figures that differ by a rounding error do not disagree.
                if (apart > 1e-9 && apart > most * sigma)
                {
                    most = sigma > 0 ? apart / sigma : double.PositiveInfinity;
                    worst = new Disagreement(i, j, apart, sigma);
                }
            }
        }

        return worst;
    }
}
