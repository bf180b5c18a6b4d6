using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>
/// Hops from a minimum to its neighbours: magnitudes leave several that are nearly as deep, above all by which tank has which loss. Each
/// hop draws all Q anew and moves the rest along what the sweep hardly sees, then descends.
/// </summary>
/// <param name="model">The fit on all points.</param>
/// <param name="seed">Seed.</param>
/// <param name="threads">Threads; 0 for all.</param>
internal sealed class FitHops(FitModel model, ulong seed, int threads)
{
    private const int Hops = 36;
    private const int Rounds = 4;
    private const int Centres = 3;
    private const int Iterations = 40;
    private const double Farthest = 0.7;
    private const double Worthwhile = 0.05;

    /// <summary>Hops until a round finds nothing deeper.</summary>
    /// <param name="from">Where to begin, the deepest first.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <param name="watch">Hears of every place that was come to.</param>
    /// <returns>All minima met, the deepest first.</returns>
    public List<FitCandidate> Run(IReadOnlyList<FitCandidate> from, CancellationToken cancellation, FitWatch? watch = null)
    {
        List<FitCandidate> met = [.. from];
        ParallelOptions options = new() { MaxDegreeOfParallelism = threads > 0 ? threads : Environment.ProcessorCount };
        int parts = model.Sought;
        CounterRandom random = new(seed ^ 0xB0B, 2 * parts);
        for (int round = 0; round < Rounds && !cancellation.IsCancellationRequested; round++)
        {
            FitCandidate best = met[0];
            FitWorkspace own = model.CreateWorkspace();

            // The first round looks round the runners-up too.
            FitCandidate[] centres = [.. met.Take(round == 0 ? Centres : 1).Where(c => c.Cost < 3 * best.Cost)];
            (double[] Values, double[] Vectors)[] open =
            [
                .. centres.Select(c => SymmetricEigen.Of(FitInformation.WithBeforehand(FitInformation.OfSweep(model, c.X, own),
                    model.Unknowns[..parts]), parts)),
            ];
            FitCandidate?[] found = new FitCandidate?[Hops];
            int first = round * Hops;
            Parallel.For(0, Hops, options, model.CreateWorkspace, (hop, _, w) =>
            {
                if (cancellation.IsCancellationRequested)
                {
                    return w;
                }

                double[] x = [.. centres[hop % centres.Length].X];
                (double[] values, double[] vectors) = open[hop % centres.Length];
                double reach = (hop / centres.Length) % 3;
                for (int k = 0; k < parts; k++)
                {
                    double along = Math.Clamp(
                        reach * NormalDistribution.Quantile(random.Uniform(first + hop, k)) / Math.Sqrt(Math.Max(values[k], 1e-6)),
                        -Farthest,
                        Farthest);
                    for (int i = 0; i < parts; i++)
                    {
                        x[i] += along * vectors[(i * parts) + k];
                    }
                }

                for (int i = 0; i < parts; i++)
                {
                    if (model.Unknowns[i].Quantity == CircuitQuantity.Q)
                    {
                        x[i] = Math.Log(50 * Math.Pow(10, random.Uniform(first + hop, parts + i)));
                    }
                }

                Descent descent = BoundedLeastSquares.Run(new FitSquares(model, w), x, Iterations, 1e-7, cancellation);
                found[hop] = new FitCandidate(x, descent.Cost);
                watch?.Offer(x);
                return w;
            }, static _ => { });
            met = [.. met.Concat(found.OfType<FitCandidate>()).OrderBy(static c => c.Cost)];
            if (met[0].Cost > best.Cost - Worthwhile)
            {
                break;
            }
        }

        return met;
    }
}
