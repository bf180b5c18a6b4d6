using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>A place the search came to.</summary>
/// <param name="X">All unknowns, the instrument's included.</param>
/// <param name="Cost">The sum of squares there.</param>
internal sealed record FitCandidate(double[] X, double Cost);

/// <summary>
/// Looks for the deepest minimum from many starts. Each start takes the best of a number of random places, descends on few points with
/// blunt weights, and the best of all descend again on all points. Everything a start draws depends on seed and its number alone.
/// </summary>
/// <param name="problem">The circuit and what is looked for.</param>
/// <param name="data">The weighted sweep.</param>
/// <param name="noise">Its noise.</param>
/// <param name="seed">Seed.</param>
/// <param name="asked">Number of starts; of magnitudes, which tell less, four times as many are made.</param>
/// <param name="threads">Threads; 0 for all.</param>
internal sealed class FitSearch(FitProblem problem, FitData data, TraceNoise[] noise, ulong seed, int asked, int threads)
{
    private const int FewPoints = 96;
    private const int Drawn = 48;
    private const int CoarseIterations = 60;
    private const int FineIterations = 100;
    private const int Polished = 8;
    private const int FirstIterations = 8;
    private const double Hopeless = 4;
    private const double BluntSigma = 0.05;
    private const double BluntSigmaDb = 1.5;

    private readonly IReadOnlyList<FitUnknown> _unknowns = problem.Sought;
    private readonly FitProposals _proposals = new(problem.Circuit, problem.Blunt, problem.Sought, data);

    /// <summary>Searches.</summary>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the search early, with the best so far.</param>
    /// <param name="watch">Hears of every place that was come to.</param>
    /// <returns>Minima, the deepest first; at least one.</returns>
    public IReadOnlyList<FitCandidate> Run(IProgress<double>? progress, CancellationToken cancellation, FitWatch? watch = null)
    {
        FitData few = data.FirstLook(SweepThinning.Choose(data, FewPoints), noise, BluntSigma, BluntSigmaDb);
        FitModel coarse = problem.Coarse(few);
        FitModel fine = problem.Fine(data);
        CounterRandom random = new(seed, _unknowns.Count * Drawn);
        int starts = Array.Exists(data.Magnitude, static m => m) ? 4 * asked : asked;
        FitCandidate?[] found = new FitCandidate?[starts];
        int done = 0;
        ParallelOptions options = new() { MaxDegreeOfParallelism = threads > 0 ? threads : Environment.ProcessorCount };
        Parallel.For(0, starts, options, coarse.CreateWorkspace, (start, _, w) =>
        {
            if (start > 0 && cancellation.IsCancellationRequested)
            {
                return w;
            }

            double[] x = Draw(coarse, random, start, w);
            Descent descent = BoundedLeastSquares.Run(new FitSquares(coarse, w), x, CoarseIterations, 1e-5, cancellation);
            found[start] = new FitCandidate(x, descent.Cost);
            watch?.Offer(x);
            progress?.Report(0.7 * Interlocked.Increment(ref done) / starts);
            return w;
        }, static _ => { });

        List<FitCandidate> best = Distinct([.. found.OfType<FitCandidate>().OrderBy(static c => c.Cost)], Polished);
        // A few steps on all points show which of them are worth the rest.
        FitCandidate[] polished = new FitCandidate[best.Count];
        void Polish(int i, int iterations, FitWorkspace w)
        {
            double[] x = problem.Place(polished[i]?.X ?? best[i].X, fine.Count);
            Descent descent = BoundedLeastSquares.Run(new FitSquares(fine, w), x, iterations, 1e-8, i == 0 ? CancellationToken.None
                : cancellation);
            polished[i] = new FitCandidate(x, descent.Cost);
            watch?.Offer(x);
        }

        Parallel.For(
            0, best.Count, options, fine.CreateWorkspace, (i, _, w) => Do(() => Polish(i, FirstIterations, w), w), static _ => { });
        progress?.Report(0.85);
        double least = polished.Min(static p => p.Cost);
        int[] worth = [.. Enumerable.Range(0, best.Count).Where(i => polished[i].Cost <= (Hopeless * least) + 1000)];
        Parallel.For(
            0, worth.Length, options, fine.CreateWorkspace, (k, _, w) => Do(() => Polish(worth[k], FineIterations, w), w), static _ => { });
        progress?.Report(0.9);
        FitCandidate[] ordered = [.. polished.OrderBy(static c => c.Cost)];
        IEnumerable<FitCandidate> hopped = Array.Exists(data.Magnitude, static m => m) && double.IsFinite(ordered[0].Cost)
            ? new FitHops(fine, seed, threads).Run(ordered, cancellation, watch)
            : [];
        progress?.Report(1);
        return Distinct([.. ordered.Concat(hopped).OrderBy(static c => c.Cost)], Polished);
    }

    private static FitWorkspace Do(Action what, FitWorkspace w)
    {
        what();
        return w;
    }

    // The best of a number of random places.
    private double[] Draw(FitModel model, CounterRandom random, int start, FitWorkspace w)
    {
        int n = _unknowns.Count;
        double[] best = new double[n], x = new double[n], p = new double[n];
        double least = double.PositiveInfinity;
        for (int draw = 0; draw < Drawn; draw++)
        {
            for (int i = 0; i < n; i++)
            {
                p[i] = random.Uniform(start, (draw * n) + i);
            }

            _proposals.Draw(p, plain: start % 4 == 3, x);
            double cost = model.Cost(x, w);
            if (cost < least || draw == 0)
            {
                least = cost;
                x.CopyTo(best, 0);
            }
        }

        return best;
    }

    private List<FitCandidate> Distinct(IReadOnlyList<FitCandidate> ordered, int most)
    {
        List<FitCandidate> kept = [];
        foreach (FitCandidate one in ordered)
        {
            if (kept.Count == most)
            {
                break;
            }

            if (!kept.Exists(k => Same(k.X, one.X)))
            {
                kept.Add(one);
            }
        }

        return kept;
    }

    private bool Same(double[] a, double[] b)
    {
        for (int i = 0; i < _unknowns.Count; i++)
        {
            if (_unknowns[i].Quantity != CircuitQuantity.Q && Math.Abs(a[i] - b[i]) > 0.01)
            {
                return false;
            }
        }

        return true;
    }
}
