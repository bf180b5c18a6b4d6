using System.Numerics;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Numerics;

namespace Spurless.Circuits.Tolerance;

/// <summary>What the parts' tolerances and temperature do to a circuit's response, by many seeded samples.</summary>
/// <remarks>
/// Monte Carlo: every sample draws each toleranced value by itself, and one temperature for all. Percentiles by nearest rank.
/// Contributions: the first-order share of the variance of |S21| in dB, estimated from the samples sorted into 16 bins of each part's
/// distribution, less what chance alone gives; cross-checked by linear theory from adjoint sensitivities. The result depends on the seed
/// and not on the number of threads.
/// </remarks>
public static class ToleranceAnalysis
{
    private const int Chunk = 50;
    private const int Bins = 16;

    /// <summary>Most frequencies that the ranking looks at, spread evenly over those asked for.</summary>
    private const int RankingPoints = 21;

    /// <summary>Runs the samples.</summary>
    /// <param name="solver">The circuit's solver; all values known.</param>
    /// <param name="request">Samples, seed, frequencies, mask, temperature.</param>
    /// <param name="fault">Why there is no result; null where there is one.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <param name="cancellation">Stops the run.</param>
    public static ToleranceResult? TryRun(
        CircuitSolver solver,
        ToleranceRequest request,
        out CircuitFault? fault,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(request.Samples, 20, nameof(request));
        ArgumentOutOfRangeException.ThrowIfLessThan(request.HighestC, request.LowestC, nameof(request));
        double[] asked = [.. request.FrequenciesHz];
        double[] grid = [.. asked, .. request.Mask.SelectMany(static m => m.Frequencies())];
        Limit[] limits = Limits(request.Mask, asked.Length);
        double[] nominal = solver.NominalValues();
        SolverWorkspace w = solver.CreateWorkspace();
        ScatteringMatrix[] center = new ScatteringMatrix[grid.Length];
        fault = solver.Solve(grid, nominal, w, center);
        if (fault is not null || grid.Length == 0)
        {
            return fault is null ? throw new ArgumentException("There is no frequency to look at.", nameof(request)) : null;
        }

        double kelvins = request.HighestC - request.LowestC;
        Spread[] spreads = [.. Spread.Of(solver, kelvins > 0 || request.LowestC != ToleranceRequest.ReferenceC)];
        CounterRandom random = new(request.Seed, spreads.Length + 1);
        int samples = request.Samples, points = grid.Length;
        float[] s21 = GC.AllocateUninitializedArray<float>(samples * points), s11 = GC.AllocateUninitializedArray<float>(samples * points);
        bool[] kept = new bool[samples];
        CircuitFault? failed = null;
        int chunks = (samples + Chunk - 1) / Chunk, done = 0;
        ParallelOptions options = new()
        {
            MaxDegreeOfParallelism = request.Threads > 0 ? request.Threads : Environment.ProcessorCount,
            CancellationToken = cancellation,
        };
        Parallel.For(0, chunks, options, () => (Workspace: solver.CreateWorkspace(), Values: solver.NominalValues()),
            (chunk, state, local) =>
        {
            for (int sample = chunk * Chunk; sample < Math.Min(samples, (chunk + 1) * Chunk); sample++)
            {
                double above = request.LowestC + (kelvins * random.Uniform(sample, spreads.Length)) - ToleranceRequest.ReferenceC;
                for (int i = 0; i < spreads.Length; i++)
                {
                    local.Values[spreads[i].Parameter] = spreads[i].At(random.Uniform(sample, i), above);
                }

                Span<float> p21 = s21.AsSpan(sample * points, points), p11 = s11.AsSpan(sample * points, points);
                if (solver.SolvePowers(grid, local.Values, local.Workspace, p21, p11) is { } singular)
                {
                    Interlocked.CompareExchange(ref failed, singular, null);
                    state.Stop();
                    return local;
                }

                kept[sample] = Keeps(limits, p21, p11);
            }

            progress?.Report(0.9 * Interlocked.Increment(ref done) / chunks);
            return local;
        }, static _ => { });
        if (failed is not null)
        {
            fault = failed;
            return null;
        }

        Percentiles[] bands21 = new Percentiles[asked.Length], bands11 = new Percentiles[asked.Length];
        Parallel.For(0, asked.Length, options, () => new float[samples], (f, _, column) =>
        {
            bands21[f] = Band(s21, f, points, column);
            bands11[f] = Band(s11, f, points, column);
            return column;
        }, static _ => { });
        IReadOnlyList<ToleranceShare> ranking = Rank(solver, request, spreads, random, grid, s21, points, kelvins, w, options);
        progress?.Report(1);
        int good = kept.Count(static k => k);
        return new ToleranceResult
        {
            Request = request,
            Samples = samples,
            Yield = limits.Length == 0 ? null : (double)good / samples,
            YieldInterval = limits.Length == 0 ? null : Wilson(good, samples),
            Bands = [.. asked.Select((f, i) => new ToleranceBand(f, Db(center[i].S21), Db(center[i].S11), bands21[i], bands11[i]))],
            Ranking = ranking,
            HeldParts =
            [
                .. solver.Circuit.Parts
                    .Where((p, i) => p.Tolerance is null && !spreads.Any(s => solver.Parameters[s.Parameter].PartIndex == i))
                    .Select(static p => p.Name),
            ],
        };
    }

    private static double Db(Complex s) => 20 * Math.Log10(s.Magnitude);

    private static Limit[] Limits(IReadOnlyList<MaskLine> mask, int first)
    {
        List<Limit> limits = [];
        foreach (MaskLine line in mask)
        {
            foreach (double _ in line.Frequencies())
            {
                limits.Add(
                    new(
                        first++,
                        Power(line.MostLossDb, 0),
                        Power(line.LeastLossDb, double.PositiveInfinity),
                        Power(line.LeastReturnLossDb, double.PositiveInfinity)));
            }
        }

        return [.. limits];
        static double Power(double? lossDb, double without) => lossDb is { } db ? Math.Pow(10, -db / 10) : without;
    }

    private static bool Keeps(Limit[] limits, ReadOnlySpan<float> s21, ReadOnlySpan<float> s11)
    {
        foreach (Limit l in limits)
        {
            if (s21[l.Point] < l.LeastS21 || s21[l.Point] > l.MostS21 || s11[l.Point] > l.MostS11)
            {
                return false;
            }
        }

        return true;
    }

    private static Percentiles Band(float[] powers, int f, int points, float[] column)
    {
        int n = column.Length;
        for (int i = 0; i < n; i++)
        {
            column[i] = powers[(i * points) + f];
        }

        static int Rank(double share, int n) => Math.Clamp((int)Math.Ceiling(share * n) - 1, 0, n - 1);
        int low = Rank(0.05, n), middle = Rank(0.5, n), high = Rank(0.95, n);
        double p50 = Select(column, 0, n - 1, middle);
        double p5 = low == middle ? p50 : Select(column, 0, middle - 1, low);
        double p95 = high == middle ? p50 : Select(column, middle + 1, n - 1, high);
        return new(10 * Math.Log10(p5), 10 * Math.Log10(p50), 10 * Math.Log10(p95));
    }

    // Hoare's selection: leaves what is not greater before the rank and what is not less after it.
    private static float Select(float[] a, int low, int high, int rank)
    {
        while (low < high)
        {
            int middle = low + ((high - low) / 2);
            float x = Math.Max(Math.Min(a[low], a[middle]), Math.Min(Math.Max(a[low], a[middle]), a[high]));
            int i = low, j = high;
            while (i <= j)
            {
                while (a[i] < x)
                {
                    i++;
                }

                while (a[j] > x)
                {
                    j--;
                }

                if (i <= j)
                {
                    (a[i], a[j]) = (a[j], a[i]);
                    i++;
                    j--;
                }
            }

            if (rank <= j)
            {
                high = j;
            }
            else if (rank >= i)
            {
                low = i;
            }
            else
            {
                break;
            }
        }

        return a[rank];
    }

    private static (double Low, double High) Wilson(int good, int n)
    {
        const double z = 1.959964;
        double p = (double)good / n, d = 1 + (z * z / n), centre = (p + (z * z / (2 * n))) / d;
        double half = z / d * Math.Sqrt((p * (1 - p) / n) + (z * z / (4.0 * n * n)));
        return (Math.Max(0, centre - half), Math.Min(1, centre + half));
    }

    private static ToleranceShare[] Rank(
        CircuitSolver solver,
        ToleranceRequest request,
        Spread[] spreads,
        CounterRandom random,
        double[] grid,
        float[] s21,
        int points,
        double kelvins,
        SolverWorkspace w,
        ParallelOptions options)
    {
        if (spreads.Length == 0)
        {
            return [];
        }

        int all = request.FrequenciesHz.Count > 0 ? request.FrequenciesHz.Count : grid.Length,
        n = Math.Min(RankingPoints, all),
        samples = request.Samples;
        int[] chosen = [.. Enumerable.Range(0, n).Select(i => n == 1 ? 0 : (int)((long)i * (all - 1) / (n - 1)))];
        double[] y = new double[samples * n];
        for (int s = 0; s < samples; s++)
        {
            for (int k = 0; k < n; k++)
            {
                y[(s * n) + k] = 10 * Math.Log10(Math.Max(s21[(s * points) + chosen[k]], 1e-30f));
            }
        }

        double[] mean = new double[n];
        for (int s = 0; s < samples; s++)
        {
            for (int k = 0; k < n; k++)
            {
                mean[k] += y[(s * n) + k] / samples;
            }
        }

        double total = 0;
        for (int s = 0; s < samples; s++)
        {
            for (int k = 0; k < n; k++)
            {
                double d = y[(s * n) + k] - mean[k];
                total += d * d / samples;
            }
        }

        double[] explained = new double[spreads.Length];
        Parallel.For(0, spreads.Length, options, i =>
        {
            double[] sums = new double[Bins * n];
            int[] counts = new int[Bins];
            for (int s = 0; s < samples; s++)
            {
                int bin = (int)(random.Uniform(s, i) * Bins);
                counts[bin]++;
                for (int k = 0; k < n; k++)
                {
                    sums[(bin * n) + k] += y[(s * n) + k] - mean[k];
                }
            }

            double between = 0;
            for (int bin = 0; bin < Bins; bin++)
            {
                for (int k = 0; k < n && counts[bin] > 0; k++)
                {
                    between += sums[(bin * n) + k] * sums[(bin * n) + k] / counts[bin] / samples;
                }
            }

            // Means of bins scatter by themselves, by (bins - 1) / samples of the variance.
            explained[i] = Math.Max(0, between - (total * (Bins - 1) / samples));
        });

        double[] linear =
        [
            .. Slopes(solver, spreads, [.. chosen.Select(c => grid[c])], kelvins, w).Select(static d => d.Sum(static x => x * x)),
        ];
        double sum = explained.Sum(), linearSum = linear.Sum();
        return
        [
            .. spreads.Select(
                (s, i) =>
                    new ToleranceShare(
                        solver.Parameters[s.Parameter].Part, sum > 0 ? explained[i] / sum : 0, linearSum > 0 ? linear[i] / linearSum : 0))
                .OrderByDescending(static s => s.Share).ThenBy(static s => s.Part, StringComparer.Ordinal),
        ];
    }

    // How far one standard deviation of each value alone moves |S21| in dB at each frequency: d|S21|dB/dx sigma, d ln|S| = Re(dS / S).
    private static double[][] Slopes(CircuitSolver solver, Spread[] spreads, double[] frequencies, double kelvins, SolverWorkspace w)
    {
        GradientBuffer gradient = new(solver, frequencies.Length, GradientParts.S21);
        ScatteringMatrix[] s = new ScatteringMatrix[frequencies.Length];
        bool solved = solver.SolveWithGradient(frequencies, solver.NominalValues(), w, s, gradient) is null;
        return [.. spreads.Select(p =>
        {
            double[] moved = new double[frequencies.Length];
            double sigma = p.Sigma(kelvins);
            for (int k = 0; solved && k < moved.Length; k++)
            {
                double db = 20 / Math.Log(10) * (gradient.S21(p.Parameter, k) / s[k].S21).Real * sigma;
                moved[k] = double.IsFinite(db) ? db : 0;
            }

            return moved;
        })];
    }

    private readonly record struct Limit(int Point, double LeastS21, double MostS21, double MostS11);
}
