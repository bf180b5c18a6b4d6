namespace Spurless.Numerics;

/// <summary>How a descent ended.</summary>
/// <param name="Cost">The sum of squares reached.</param>
/// <param name="Iterations">Steps taken.</param>
/// <param name="Converged">Whether it came to rest.</param>
public readonly record struct Descent(double Cost, int Iterations, bool Converged);

/// <summary>
/// Levenberg's and Marquardt's damped least squares within bounds (Levenberg 1944, Marquardt 1963; damping after Nielsen 1999; all from
/// memory).
/// </summary>
/// <remarks>An unknown that stands on a bound and is pushed outwards is held there for the step. Steps are cut at the bounds.</remarks>
public static class BoundedLeastSquares
{
    private const double LongestStep = 1.0;

    /// <summary>Descends from a point.</summary>
    /// <param name="model">What is made small.</param>
    /// <param name="x">The point; moved to the least found.</param>
    /// <param name="most">Most iterations.</param>
    /// <param name="tolerance">Relative decrease of the cost under which it is at rest.</param>
    /// <param name="cancellation">Stops it; <paramref name="x"/> is then the best so far.</param>
    public static Descent Run(ILeastSquares model, double[] x, int most, double tolerance, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(x);
        int n = model.Count;
        double[] a = new double[n * n], g = new double[n], damped = new double[n * n], step = new double[n], trial = new double[n];
        double[] onto = new double[n];
        bool[] held = new bool[n];
        Clamp(model, x);
        double cost = model.Normal(x, a, g);
        double lambda = 1e-3, grow = 2;
        int calm = 0, iteration = 0;
        for (; iteration < most && double.IsFinite(cost) && !cancellation.IsCancellationRequested; iteration++)
        {
            if (!TryStep(model, x, a, g, lambda, held, onto, damped, step))
            {
                lambda = Math.Max(lambda, 1e-12) * 10;
                if (lambda > 1e12)
                {
                    break;
                }

                continue;
            }

            double predicted = Cut(model, x, a, g, step, trial);
            double next = model.Cost(trial);
            double gain = predicted > 0 ? (cost - next) / predicted : next < cost ? 1 : -1;
            if (next < cost)
            {
                double relative = (cost - next) / Math.Max(cost, 1e-300);
                Array.Copy(trial, x, n);
                cost = model.Normal(x, a, g);
                double q = (2 * gain) - 1;
                lambda = Math.Max(1e-12, lambda * Math.Max(1.0 / 5, 1 - (q * q * q)));
                grow = 2;
                calm = relative < tolerance ? calm + 1 : 0;
                if (calm >= 2)
                {
                    return new Descent(cost, iteration + 1, true);
                }
            }
            else
            {
                if ((predicted > 0 && predicted <= tolerance * cost * 0.1) || lambda > 1e10)
                {
                    return new Descent(cost, iteration + 1, true);
                }

                lambda *= grow;
                grow *= 2;
            }
        }

        return new Descent(cost, iteration, false);
    }

    // The damped step within the bounds.
    private static bool TryStep(ILeastSquares model, double[] x, double[] a, double[] g, double lambda, bool[] held, double[] onto,
        double[] damped, double[] step)
    {
        int n = model.Count;
        for (int i = 0; i < n; i++)
        {
            held[i] = (x[i] <= model.Low[i] && g[i] > 0) || (x[i] >= model.High[i] && g[i] < 0);
        }

        // An unknown whose step would leave its range goes to the end of it, and the others are found anew with that step given.
        bool solved = true, changed = true;
        Array.Clear(onto);
        for (int round = 0; solved && changed && round < 4; round++)
        {
            solved = Solve(a, g, lambda, held, onto, damped, step);
            changed = false;
            for (int i = 0; solved && i < model.Scaled; i++)
            {
                double to = x[i] + step[i];
                if (!held[i] && (to < model.Low[i] || to > model.High[i]))
                {
                    held[i] = true;
                    onto[i] = (to < model.Low[i] ? model.Low[i] : model.High[i]) - x[i];
                    changed = true;
                }
            }
        }

        return solved;
    }

    // Cuts the step to its greatest length and at the bounds; returns the decrease of the cost that the model expects of it.
    private static double Cut(ILeastSquares model, double[] x, double[] a, double[] g, double[] step, double[] trial)
    {
        int n = model.Count;
        double longest = 0;
        for (int i = 0; i < model.Scaled; i++)
        {
            longest = Math.Max(longest, Math.Abs(step[i]));
        }

        double cut = longest > LongestStep ? LongestStep / longest : 1;
        double predicted = 0;
        for (int i = 0; i < n; i++)
        {
            trial[i] = Math.Clamp(x[i] + (cut * step[i]), model.Low[i], model.High[i]);
            step[i] = trial[i] - x[i];
        }

        for (int i = 0; i < n; i++)
        {
            double row = 0;
            for (int j = 0; j < n; j++)
            {
                row += a[(i * n) + j] * step[j];
            }

            predicted -= step[i] * ((2 * g[i]) + row);
        }

        return predicted;
    }

    /// <summary>Puts a point within the bounds.</summary>
    public static void Clamp(ILeastSquares model, double[] x)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(x);
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = Math.Clamp(x[i], model.Low[i], model.High[i]);
        }
    }

    // (A + lambda diag A) step = -g by Cholesky; held unknowns take the step that is given.
    private static bool Solve(double[] a, double[] g, double lambda, bool[] held, double[] onto, double[] l, double[] step)
    {
        int n = g.Length;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = held[i] || held[j] ? (i == j ? 1 : 0) : a[(i * n) + j] + (i == j ? lambda * (a[(i * n) + i] + 1e-9) : 0);
                for (int k = 0; k < j; k++)
                {
                    sum -= l[(i * n) + k] * l[(j * n) + k];
                }

                if (i == j)
                {
                    if (!(sum > 0))
                    {
                        return false;
                    }

                    l[(i * n) + i] = Math.Sqrt(sum);
                }
                else
                {
                    l[(i * n) + j] = sum / l[(j * n) + j];
                }
            }
        }

        for (int i = 0; i < n; i++)
        {
            double sum = held[i] ? onto[i] : -g[i];
            for (int j = 0; j < n && !held[i]; j++)
            {
                sum -= held[j] ? a[(i * n) + j] * onto[j] : 0;
            }

            for (int k = 0; k < i; k++)
            {
                sum -= l[(i * n) + k] * step[k];
            }

            step[i] = sum / l[(i * n) + i];
        }

        for (int i = n - 1; i >= 0; i--)
        {
            double sum = step[i];
            for (int k = i + 1; k < n; k++)
            {
                sum -= l[(k * n) + i] * step[k];
            }

            step[i] = sum / l[(i * n) + i];
        }

        return true;
    }
}
