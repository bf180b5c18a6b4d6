using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Circuits.Tolerance;

/// <summary>
/// What making one part tunable would do: the loss that matters, each specimen tuned with that part alone for the least of it.
/// </summary>
/// <param name="Part">The part's name.</param>
/// <param name="LossDb">Percentiles of the loss in dB when it is tuned.</param>
public sealed record TuningGain(string Part, Percentiles LossDb);

/// <summary>The findings of <see cref="TuningStudy"/>.</summary>
/// <param name="Specimens">How many specimens were tuned.</param>
/// <param name="Untuned">Percentiles of the same specimens' loss in dB before.</param>
/// <param name="Gains">The parts tried, the best first.</param>
public sealed record TuningFinding(int Specimens, Percentiles Untuned, IReadOnlyList<TuningGain> Gains)
{
    /// <summary>The part whose tuning leaves the least median loss; null where none betters it by a tenth of a decibel.</summary>
    public TuningGain? Best => Gains.Count > 0 && Gains[0].LossDb.P50 < Untuned.P50 - 0.1 ? Gains[0] : null;
}

/// <summary>Tries out which part to make tunable, by tuning it.</summary>
/// <remarks>
/// The first 200 specimens of a tolerance run, each tuned by the parts that did most of the spread, one at a time, within a fifth either
/// way: the greatest insertion loss of what must pass (up to eight frequencies of the mask's pass-band; without one the frequency that
/// matters most) is made least, by 17 even steps and golden section. One part alone: a filter of several tanks wants as many trimmers, and
/// the study shows how far one goes.
/// </remarks>
public static class TuningStudy
{
    private const int MostSpecimens = 200;
    private const int MostParts = 12;
    private const int Steps = 17;
    private const int Refinements = 14;
    private const double Reach = 1.2;

    /// <summary>Runs the study.</summary>
    /// <param name="solver">The solver of the run.</param>
    /// <param name="result">The run.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The findings; null where nothing spreads or a specimen has no one solution.</returns>
    public static TuningFinding? TryRun(CircuitSolver solver, ToleranceResult result, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(solver);
        ArgumentNullException.ThrowIfNull(result);
        ToleranceRequest request = result.Request;
        double[] frequencies = Frequencies(result);
        if (result.Ranking.Count == 0 || frequencies.Length == 0)
        {
            return null;
        }

        double kelvins = request.HighestC - request.LowestC;
        Spread[] spreads = [.. Spread.Of(solver, kelvins > 0 || request.LowestC != ToleranceRequest.ReferenceC)];
        int[] tried =
        [
            .. result.Ranking
                .Take(MostParts)
                .Select(r => Array.FindIndex(spreads, s => solver.Parameters[s.Parameter].Part == r.Part))
                .Where(static i => i >= 0),
        ];
        CounterRandom random = new(request.Seed, spreads.Length + 1);
        int specimens = Math.Min(MostSpecimens, request.Samples);
        double[] before = new double[specimens];
        double[][] after = [.. tried.Select(_ => new double[specimens])];
        bool failed = false;
        ParallelOptions options = new()
        {
            MaxDegreeOfParallelism = request.Threads > 0 ? request.Threads : Environment.ProcessorCount,
            CancellationToken = cancellation,
        };
        Parallel.For(0, specimens, options, () => new Trial(solver, frequencies), (sample, state, trial) =>
        {
            double above = request.LowestC + (kelvins * random.Uniform(sample, spreads.Length)) - ToleranceRequest.ReferenceC;
            for (int i = 0; i < spreads.Length; i++)
            {
                trial.Values[spreads[i].Parameter] = spreads[i].At(random.Uniform(sample, i), above);
            }

            before[sample] = trial.Loss();
            for (int t = 0; t < tried.Length; t++)
            {
                after[t][sample] = trial.Tuned(spreads[tried[t]].Parameter);
            }

            if (double.IsNaN(before[sample]))
            {
                failed = true;
                state.Stop();
            }

            return trial;
        }, static _ => { });
        return failed ? null : new TuningFinding(
            specimens,
            Three(before),
            [
                .. tried
                    .Select((i, t) => new TuningGain(solver.Parameters[spreads[i].Parameter].Part, Three(after[t])))
                    .OrderBy(static g => g.LossDb.P50)
                    .ThenBy(static g => g.Part, StringComparer.Ordinal),
            ]);
    }

    private static double[] Frequencies(ToleranceResult result) =>
        result.Request.Mask.FirstOrDefault(static m => m.MostLossDb is not null) is { } pass
        ? pass.ToHz > pass.FromHz
            ? [.. Enumerable.Range(0, 8).Select(i => pass.FromHz + ((pass.ToHz - pass.FromHz) * i / 7))]
            : [pass.FromHz]
        : result.Main is { } main ? [main.FrequencyHz] : [];

    private static Percentiles Three(double[] losses)
    {
        double[] sorted = [.. losses.Order()];
        double At(double share) => sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)];
        return new(At(0.05), At(0.5), At(0.95));
    }

    private sealed class Trial(CircuitSolver solver, double[] frequencies)
    {
        private readonly SolverWorkspace _workspace = solver.CreateWorkspace();
        private readonly float[] _s21 = new float[frequencies.Length];
        private readonly float[] _s11 = new float[frequencies.Length];

        public double[] Values { get; } = solver.NominalValues();

        /// <summary>Greatest loss in dB over the frequencies; NaN where there is no solution.</summary>
        public double Loss() => solver.SolvePowers(frequencies, Values, _workspace, _s21, _s11) is null
            ? -10 * Math.Log10(Math.Max(_s21.Min(), 1e-40f))
            : double.NaN;

        /// <summary>The least loss that moving one value reaches; the value is put back.</summary>
        public double Tuned(int parameter)
        {
            double drawn = Values[parameter];
            double At(double x)
            {
                Values[parameter] = drawn * Math.Pow(Reach, x);
                double loss = Loss();
                return double.IsNaN(loss) ? double.PositiveInfinity : loss;
            }

            const double step = 2.0 / (Steps - 1);
            (double best, double least) = (0, At(0));
            for (int i = 0; i < Steps; i++)
            {
                double x = -1 + (i * step), loss = At(x);
                if (loss < least)
                {
                    (best, least) = (x, loss);
                }
            }

            double low = Math.Max(-1, best - step), high = Math.Min(1, best + step), ratio = (Math.Sqrt(5) - 1) / 2;
            for (int i = 0; i < Refinements; i++)
            {
                double a = high - (ratio * (high - low)), b = low + (ratio * (high - low));
                double atA = At(a), atB = At(b);
                least = Math.Min(least, Math.Min(atA, atB));
                (low, high) = atA < atB ? (low, b) : (a, high);
            }

            Values[parameter] = drawn;
            return least;
        }
    }
}
