using Spurless.Circuits.Series;
using Spurless.Circuits.Solving;

namespace Spurless.Design.Optimising;

/// <summary>
/// Takes capacitors to values of a series: one after the other, the nearest first, both neighbours tried with all that is still free
/// optimised anew; then single steps to either
/// side of each as long as one betters the least margin.
/// </summary>
internal static class SeriesRounding
{
    private const int Passes = 2;

    /// <summary>Rounds.</summary>
    /// <param name="real">The circuit.</param>
    /// <param name="descent">Optimiser of its model.</param>
    /// <param name="x">Logarithms of its values; moved to the rounded ones.</param>
    /// <param name="low">Least logarithms; those of rounded capacitors become their value.</param>
    /// <param name="high">Greatest logarithms; those of rounded capacitors become their value.</param>
    /// <param name="series">Size of the series.</param>
    /// <param name="cancellation">Ends the search early with what there is.</param>
    /// <returns>The least weighted margin.</returns>
    public static double Run(RealCircuit real, MaskDescent descent, ref double[] x, double[] low, double[] high, int series,
        CancellationToken cancellation)
    {
        int[] capacitors = [.. Enumerable.Range(0, x.Length).Where(i =>
            real.Solver.Parameters[real.Variables[i]].Quantity == CircuitQuantity.CapacitanceF)];
        HashSet<int> free = [.. capacitors];
        double margin = double.NegativeInfinity;
        while (free.Count > 0)
        {
            double[] here = x;
            int next = free.OrderBy(i => Math.Abs(here[i] - Math.Log(ESeries.Nearest(Math.Exp(here[i]), series)))).ThenBy(static i => i)
                .First();
            double[]? best = null;
            margin = double.NegativeInfinity;
            foreach (double value in Around(Math.Exp(x[next]), series, real.Low[next], real.High[next]))
            {
                (double reached, double[] trial) = Try(descent, x, low, high, [(next, value)]);
                if (best is null || reached > margin)
                {
                    (best, margin) = (trial, reached);
                }
            }

            x = best!;
            low[next] = high[next] = x[next];
            free.Remove(next);
        }

        for (int pass = 0; pass < Passes; pass++)
        {
            bool better = false;
            foreach (int i in capacitors)
            {
                foreach (int step in new[] { -1, 1 })
                {
                    if (cancellation.IsCancellationRequested)
                    {
                        return margin;
                    }

                    double value = Beside(Math.Exp(x[i]), series, step);
                    if (Math.Log(value) < real.Low[i] - 1e-9 || Math.Log(value) > real.High[i] + 1e-9)
                    {
                        continue;
                    }

                    (double reached, double[] trial) = Try(descent, x, low, high, [(i, value)]);
                    if (reached > margin + 0.02)
                    {
                        (margin, x, better) = (reached, trial, true);
                        low[i] = high[i] = x[i];
                    }
                }
            }

            if (!better)
            {
                break;
            }
        }

        return margin;
    }

    private static (double Margin, double[] X) Try(MaskDescent descent, double[] x, double[] low, double[] high,
        ReadOnlySpan<(int At, double Value)> set)
    {
        double[] trial = [.. x], least = [.. low], most = [.. high];
        foreach ((int at, double value) in set)
        {
            trial[at] = least[at] = most[at] = Math.Log(value);
        }

        return (descent.Run(trial, least, most, 4, 8), trial);
    }

    private static double[] Around(double value, int series, double low, double high)
    {
        double near = ESeries.Nearest(value, series), other = Beside(near, series, near > value ? -1 : 1);
        double[] within = [.. new[] { near, other }.Where(v => Math.Log(v) >= low - 1e-9 && Math.Log(v) <= high + 1e-9)];
        return within.Length > 0 ? within : ESeries.Within(Math.Exp(low), Math.Exp(high), series) is { Count: > 0 } all
            ? [all.MinBy(v => Math.Abs(Math.Log(v / value)))] : [near];
    }

    private static double Beside(double value, int series, int step) =>
        ESeries.Nearest(value * Math.Pow(10, step * 0.95 / series), series) is var beside && beside != value
        ? beside
        : ESeries.Nearest(value * Math.Pow(10, step * 1.6 / series), series);
}
