namespace Spurless.Design.Optimising;

/// <summary>
/// Makes the least margin of a mask large: Levenberg's and Marquardt's damped least squares on what is short of a target (from memory), the
/// target rising
/// with what is reached, within bounds. Variables that are held keep their values.
/// </summary>
internal sealed class MaskDescent
{
    private const double LongestStep = 0.35;
    private const double MostTarget = 14;
    private readonly MaskModel _model;
    private readonly double[] _a;
    private readonly double[] _l;
    private readonly double[] _g;
    private readonly double[] _step;
    private readonly double[] _trial;
    private readonly double[] _best;
    private readonly bool[] _held;

    public MaskDescent(MaskModel model)
    {
        _model = model;
        int n = model.Count;
        (_a, _l) = (new double[n * n], new double[n * n]);
        (_g, _step, _trial, _best, _held) = (new double[n], new double[n], new double[n], new double[n], new bool[n]);
    }

    /// <summary>Climbs from a point.</summary>
    /// <param name="x">Logarithms of the values; moved to the best found.</param>
    /// <param name="low">Least logarithms; equal to the greatest where a value is held.</param>
    /// <param name="high">Greatest logarithms.</param>
    /// <param name="rounds">Most targets.</param>
    /// <param name="iterations">Most steps a target.</param>
    /// <param name="enough">Weighted margin at which it may stop.</param>
    /// <returns>The least weighted margin there.</returns>
    public double Run(double[] x, double[] low, double[] high, int rounds, int iterations, double enough = MostTarget)
    {
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = Math.Clamp(x[i], low[i], high[i]);
        }

        double best = _model.Worst(x);
        if (double.IsNegativeInfinity(best))
        {
            return best;
        }

        Array.Copy(x, _best, x.Length);
        double reach = 1.5;
        for (int round = 0; round < rounds && best < enough; round++)
        {
            double target = Math.Min(MostTarget, Math.Max(best, Math.Min(0, best / 2)) + reach);
            Descend(x, low, high, target, iterations);
            double now = _model.Worst(x);
            if (now > best + 0.01)
            {
                reach = now > best + (0.5 * reach) ? Math.Min(3, reach * 1.5) : reach;
                best = now;
                Array.Copy(x, _best, x.Length);
                continue;
            }

            if (now > best)
            {
                best = now;
                Array.Copy(x, _best, x.Length);
            }

            Array.Copy(_best, x, x.Length);
            if (reach < 0.2)
            {
                break;
            }

            reach *= 0.35;
        }

        Array.Copy(_best, x, x.Length);
        return best;
    }

    private void Descend(double[] x, double[] low, double[] high, double target, int iterations)
    {
        int n = x.Length;
        double cost = _model.Normal(x, target, _a, _g), lambda = 1e-2, grow = 2;
        for (int iteration = 0; iteration < iterations && cost > 1e-9 && double.IsFinite(cost); iteration++)
        {
            for (int i = 0; i < n; i++)
            {
                _held[i] = high[i] <= low[i] || (x[i] <= low[i] && _g[i] > 0) || (x[i] >= high[i] && _g[i] < 0);
            }

            if (!Solve(lambda))
            {
                lambda = Math.Max(lambda, 1e-9) * 10;
                if (lambda > 1e9)
                {
                    return;
                }

                continue;
            }

            double longest = 0;
            foreach (double s in _step)
            {
                longest = Math.Max(longest, Math.Abs(s));
            }

            double cut = longest > LongestStep ? LongestStep / longest : 1;
            for (int i = 0; i < n; i++)
            {
                _trial[i] = Math.Clamp(x[i] + (cut * _step[i]), low[i], high[i]);
            }

            double next = _model.Cost(_trial, target);
            if (next < cost)
            {
                bool still = cost - next < 1e-4 * cost;
                Array.Copy(_trial, x, n);
                cost = _model.Normal(x, target, _a, _g);
                lambda = Math.Max(1e-9, lambda / 4);
                grow = 2;
                if (still)
                {
                    return;
                }
            }
            else
            {
                lambda *= grow;
                grow *= 2;
                if (lambda > 1e8 || longest < 1e-9)
                {
                    return;
                }
            }
        }
    }

    // (A + lambda (diag A + a little)) step = -g by Cholesky; held variables stay.
    private bool Solve(double lambda)
    {
        int n = _g.Length;
        double trace = 0;
        for (int i = 0; i < n; i++)
        {
            trace += _a[(i * n) + i];
        }

        double little = 1e-6 * ((trace / n) + 1e-12);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = _held[i] || _held[j] ? (i == j ? 1 : 0) : _a[(i * n) + j]
                    + (i == j ? (lambda * _a[(i * n) + i]) + ((1 + lambda) * little) : 0);
                for (int k = 0; k < j; k++)
                {
                    sum -= _l[(i * n) + k] * _l[(j * n) + k];
                }

                if (i != j)
                {
                    _l[(i * n) + j] = sum / _l[(j * n) + j];
                }
                else if (sum > 0)
                {
                    _l[(i * n) + i] = Math.Sqrt(sum);
                }
                else
                {
                    return false;
                }
            }
        }

        for (int i = 0; i < n; i++)
        {
            double sum = _held[i] ? 0 : -_g[i];
            for (int k = 0; k < i; k++)
            {
                sum -= _l[(i * n) + k] * _step[k];
            }

            _step[i] = sum / _l[(i * n) + i];
        }

        for (int i = n - 1; i >= 0; i--)
        {
            double sum = _step[i];
            for (int k = i + 1; k < n; k++)
            {
                sum -= _l[(k * n) + i] * _step[k];
            }

            _step[i] = sum / _l[(i * n) + i];
        }

        return true;
    }
}
