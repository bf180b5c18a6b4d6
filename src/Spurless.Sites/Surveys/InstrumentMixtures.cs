using Spurless.Signals.Spectra;

namespace Spurless.Sites.Surveys;

/// <summary>A third-order intercept of the instrument that its own lines tell.</summary>
/// <param name="Dbm">It, at the instrument's input, in dBm.</param>
/// <param name="SpreadDb">The standard deviation of what the lines tell each by itself, in dB.</param>
/// <param name="Lines">How many lines tell it.</param>
internal sealed record FittedIntercept(double Dbm, double SpreadDb, int Lines);

/// <summary>
/// What the instrument would make of the lines it shows: sums and differences of two taken twice and once, or of three, by
/// <c>P = sum of levels - 2 IIP3</c>, 6.02 dB more for three (docs/method/product-levels.md). Levels are those at its input.
/// </summary>
internal sealed class InstrumentMixtures
{
    /// <summary>Lines that make others in the instrument are sought among so many of the strongest.</summary>
    private const int MostParents = 60;

    /// <summary>For a fit without a pad fewer: all of their mixtures are held against the sweep.</summary>
    private const int MostFitParents = 24;

    /// <summary>A line fits a predicted mixture within so much, in dB.</summary>
    private const double FitsWithinDb = 3;

    /// <summary>So many lines must agree before an intercept is believed without a pad (docs/method/spectra.md).</summary>
    private const int LeastLines = 5;

    private readonly IReadOnlyList<SpectrumLine> _lines;

    /// <param name="lines">The lines of one sweep, strongest first.</param>
    public InstrumentMixtures(IReadOnlyList<SpectrumLine> lines) => _lines = lines;

    /// <summary>
    /// Which of the other lines would make this one: with at least a quarter of its power at the intercept; null where none would.
    /// </summary>
    /// <param name="line">The line.</param>
    /// <param name="interceptDbm">The instrument's third-order intercept in dBm.</param>
    public LineDoubt? Doubt(SpectrumLine line, double interceptDbm)
    {
        SpectrumLine[] parents = [.. _lines.Where(l => l != line && l.LevelDbm > line.LevelDbm).Take(MostParents)];
        foreach (Mixture m in Of(parents))
        {
            if (m.LandsOn(line) && m.LevelDbm(interceptDbm) >= line.LevelDbm - 6)
            {
                return new LineDoubt.Mixture(m.A.FrequencyHz, m.B.FrequencyHz, m.C.FrequencyHz);
            }
        }

        return null;
    }

    /// <summary>The intercept that lines tell which are known to be the instrument's: the median of what each tells.</summary>
    /// <param name="inside">Those lines; the ones that sank or are of another order tell nothing.</param>
    /// <param name="padDb">The pad that told them, in dB.</param>
    public FittedIntercept? OfKnown(IReadOnlyList<InstrumentLine> inside, double padDb)
    {
        List<double> told = [];
        foreach (InstrumentLine line in inside.Where(l => !l.IsBound && Math.Abs(l.FellDb - (3 * padDb)) <= 0.5 * padDb))
        {
            SpectrumLine[] parents = [.. _lines.Where(l => l.LevelDbm > line.Line.LevelDbm).Take(MostParents)];
            double[] sums = [.. Of(parents).Where(m => m.LandsOn(line.Line)).Select(static m => m.SumDbm)];
            if (sums.Length > 0)
            {
                told.Add((sums.Max() - line.Line.LevelDbm) / 2);
            }
        }

        return told.Count == 0 ? null : Summed(told);
    }

    /// <summary>
    /// The intercept at which all mixtures of the strongest lines that would be seen are seen, and as strong; null where no one intercept
    /// does that with at least five lines: then nothing is claimed.
    /// </summary>
    /// <param name="finder">The sweep.</param>
    /// <param name="frequenciesHz">Its bins.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public FittedIntercept? Fit(LineFinder finder, IReadOnlyList<double> frequenciesHz, CancellationToken cancellationToken)
    {
        SpectrumLine[] parents = [.. _lines.Take(MostFitParents)];
        List<(double Sum, SpectrumLine? Line, double HiddenDbm)> seen = [];
        foreach (Mixture m in Of(parents))
        {
            cancellationToken.ThrowIfCancellationRequested();
            double spacing = frequenciesHz[1] - frequenciesHz[0];
            int bin = (int)Math.Round((m.Hertz - frequenciesHz[0]) / spacing);
            if (bin < 1 || bin >= frequenciesHz.Count - 1 || m.Parents.Any(p => m.LandsOn(p)))
            {
                continue;
            }

            SpectrumLine? line = _lines.FirstOrDefault(l => m.LandsOn(l));
            seen.Add((m.SumDbm, line, finder.HiddenDbm((bin - 1, bin + 1))));
        }

        FittedIntercept? best = null;
        IEnumerable<double> told = seen.Where(static s => s.Line is not null).Select(static s => (s.Sum - s.Line!.LevelDbm) / 2);
        foreach (double intercept in told.Distinct())
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (Agreeing(seen, intercept) is { } fit && (best is null || fit.Lines > best.Lines))
            {
                best = fit;
            }
        }

        return best;
    }

    private static FittedIntercept? Agreeing(List<(double Sum, SpectrumLine? Line, double HiddenDbm)> seen, double intercept)
    {
        Dictionary<SpectrumLine, double> agree = [];
        int missing = 0;
        int covered = 0;
        foreach ((double sum, SpectrumLine? line, double hidden) in seen)
        {
            double level = sum - (2 * intercept);
            if (level < hidden + FitsWithinDb)
            {
                continue;
            }

            if (line is null || line.LevelDbm < level - FitsWithinDb)
            {
                missing++;
            }
            else if (line.LevelDbm > level + FitsWithinDb)
            {
                covered++;
            }
            else
            {
                agree[line] = Math.Min(agree.GetValueOrDefault(line, double.MaxValue), (sum - line.LevelDbm) / 2);
            }
        }

        // One that is missing is proof against it; many that are covered by stronger lines leave it unproven.
        return agree.Count >= LeastLines && missing == 0 && covered <= agree.Count ? Summed([.. agree.Values]) : null;
    }

    private static FittedIntercept Summed(List<double> told)
    {
        double[] sorted = [.. told.Order()];
        double middle = sorted.Length % 2 == 1
            ? sorted[sorted.Length / 2]
            : (sorted[(sorted.Length / 2) - 1] + sorted[sorted.Length / 2]) / 2;
        double spread = sorted.Length < 2 ? 3 : Math.Sqrt(sorted.Sum(v => (v - middle) * (v - middle)) / (sorted.Length - 1));
        return new FittedIntercept(middle, spread, sorted.Length);
    }

    private static IEnumerable<Mixture> Of(SpectrumLine[] parents)
    {
        for (int a = 0; a < parents.Length; a++)
        {
            // a + b - c with a before b; a = b is twice a.
            for (int b = a; b < parents.Length; b++)
            {
                for (int c = 0; c < parents.Length; c++)
                {
                    if (c != a && c != b)
                    {
                        yield return new Mixture(parents[a], parents[b], parents[c]);
                    }
                }
            }
        }
    }

    /// <summary>A + B - C.</summary>
    private readonly record struct Mixture(SpectrumLine A, SpectrumLine B, SpectrumLine C)
    {
        public double Hertz => A.FrequencyHz + B.FrequencyHz - C.FrequencyHz;

        public double SumDbm => A.LevelDbm + B.LevelDbm + C.LevelDbm + (A == B ? 0 : 20 * Math.Log10(2));

        public SpectrumLine[] Parents => [A, B, C];

        public double LevelDbm(double interceptDbm) => SumDbm - (2 * interceptDbm);

        public bool LandsOn(SpectrumLine line) =>
            Math.Abs(Hertz - line.FrequencyHz)
                <= ((A.BandwidthHz + B.BandwidthHz + C.BandwidthHz + line.BandwidthHz) / 2) + (3 * line.FrequencySigmaHz);
    }
}
