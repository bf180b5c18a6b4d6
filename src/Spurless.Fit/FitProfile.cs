using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>
/// Intervals by profile: a value is moved away from the minimum while all others are fitted anew, until the sum of squares has risen by
/// 3.84 (95 % of chi-squared with one degree of freedom; a textbook figure, from memory). Where the problem is straight, it is the interval
/// of the curvature.
/// </summary>
internal sealed class FitProfile(FitModel model, double[] x, double[] covariance, double widened, int threads)
{
    private const double Deviate = 1.959964;
    private const int Iterations = 30;
    private const int Turns = 9;
    private const int FollowTurns = 40;
    private const double LongestStep = 0.5;

    /// <summary>A place with a lower sum of squares that was met on the way; null if none.</summary>
    public double[]? Better { get; private set; }

    /// <summary>Ends of the intervals on the unknowns' scales.</summary>
    /// <param name="least">Only values with at least this sigma are looked at; the others get the curvature's interval.</param>
    /// <param name="tolerance">How near the rise must come, in its root.</param>
    /// <param name="wider">Whether an interval is never narrower than that of the curvature.</param>
    /// <param name="open">Which values take part in what the sweep leaves open: they are followed to the end, in small steps.</param>
    /// <param name="cancellation">Leaves the rest at the curvature's interval.</param>
    public (double Low, double High)[] Ends(double least, double tolerance, bool wider, bool[] open, CancellationToken cancellation)
    {
        int n = model.Sought;
        (double Low, double High)[] ends = new (double, double)[n];
        (double Cost, double[] X)?[] lower = new (double, double[])?[n];
        double cost = model.Cost(x, model.CreateWorkspace());
        ParallelOptions parallel = new() { MaxDegreeOfParallelism = threads > 0 ? threads : Environment.ProcessorCount };
        Parallel.For(0, n, parallel, () => model.Copy(), (i, _, own) =>
        {
            double sigma = Math.Sqrt(Math.Max(covariance[(i * n) + i], 1e-30));
            ends[i] = (Math.Max(model.Low[i], x[i] - (Deviate * widened * sigma)),
                Math.Min(model.High[i], x[i] + (Deviate * widened * sigma)));
            if ((sigma < least && !open[i]) || cancellation.IsCancellationRequested)
            {
                return own;
            }

            FitWorkspace w = own.CreateWorkspace();
            double low = End(own, w, i, -1, sigma, cost, tolerance, open[i], ref lower[i]), high =
                End(own, w, i, 1, sigma, cost, tolerance, open[i], ref lower[i]);

            // The wider of both: where the curvature nearly vanishes, a narrow profile rests on terms that noise can mimic.
            ends[i] = wider ? (Math.Min(low, ends[i].Low), Math.Max(high, ends[i].High)) : (low, high);
            (own.Low[i], own.High[i]) = (model.Low[i], model.High[i]);
            return own;
        }, static _ => { });
        Better = lower.Where(static l => l is not null).OrderBy(static l => l!.Value.Cost).Select(static l => l!.Value.X).FirstOrDefault();
        return ends;
    }

    // The place on one side at which the root of the rise is 1.96, by steps in proportion. A valley is followed as it bends: the next place
    // is foretold by the last two.
    private double End(FitModel own, FitWorkspace w, int i, int side, double sigma, double cost, double tolerance, bool follow,
        ref (double Cost, double[] X)? lower)
    {
        int n = model.Sought;
        double bound = side < 0 ? model.Low[i] : model.High[i], room = Math.Abs(bound - x[i]);
        if (room <= 1e-9)
        {
            return bound;
        }

        double longest = follow ? LongestStep : double.PositiveInfinity;
        double reach = Math.Min(Math.Min(Deviate * sigma, room), longest), inside = 0, before = 0, outside = double.PositiveInfinity;
        double[] within = [.. x], earlier = [.. x], at = [.. x];
        for (int turn = 0; turn < (follow ? FollowTurns : Turns); turn++)
        {
            for (int k = 0; k < x.Length; k++)
            {
                double foretold = inside > before ? (within[k] - earlier[k]) * (reach - inside) / (inside - before)
                    : k < n ? side * (reach - inside) * covariance[(k * n) + i] / (sigma * sigma) : 0;
                at[k] = Math.Clamp(within[k] + foretold, model.Low[k], model.High[k]);
            }

            at[i] = own.Low[i] = own.High[i] = x[i] + (side * reach);
            double now = BoundedLeastSquares.Run(new FitSquares(own, w), at, Iterations, 1e-6).Cost;
            if (now < cost - 0.2 && now < (lower?.Cost ?? double.PositiveInfinity))
            {
                lower = (now, [.. at]);
            }

            double root = Math.Sqrt(Math.Max(0, now - cost)) / (Deviate * widened);
            if (Math.Abs(root - 1) < tolerance)
            {
                break;
            }

            if (root < 1)
            {
                if (reach >= room)
                {
                    return bound;
                }

                (before, inside) = (inside, reach);
                (earlier, within) = (within, [.. at]);
            }
            else
            {
                outside = reach;
            }

            double next = Math.Min(reach * Math.Clamp(1 / Math.Max(root, 0.1), 0.4, 2.5), inside + longest);
            reach = next <= inside || next >= outside ? (inside + Math.Min(outside, room)) / 2 : Math.Min(next, room);
        }

        return x[i] + (side * reach);
    }
}
