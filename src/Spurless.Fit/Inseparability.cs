using System.Collections.Immutable;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>
/// Names the combinations of values that a sweep cannot tell: directions in which its information is less than that of a change by a
/// quarter. Levels of inner nodes are named as such, the rest is brought to combinations of few parts each.
/// </summary>
internal static class Inseparability
{
    // One sigma of a direction, as a change of ln(value) of length one: beyond it nobody would call it measured.
    private const double OpenSigma = 0.25;
    private const double Share = 0.15;

    /// <summary>Whether a direction of such information is open.</summary>
    public static bool IsOpen(double information) => information < 1 / (OpenSigma * OpenSigma);

    /// <summary>Finds them.</summary>
    public static ImmutableArray<InseparableParts> Find(FitSurroundings around, Circuit circuit)
    {
        FitUnknown[] unknowns = around.Unknowns;
        int n = unknowns.Length;
        (double[] values, double[] vectors) = SymmetricEigen.Of(around.OfSweep, n);
        List<double[]> open =
        [
            .. Enumerable.Range(0, n)
                .Where(k => values[k] < 1 / (OpenSigma * OpenSigma))
                .Select(k => Enumerable.Range(0, n).Select(i => vectors[(i * n) + k]).ToArray()),
        ];
        List<InseparableParts> found = [];
        foreach ((string[] parts, bool side) in AlikeParts.Find(circuit, unknowns))
        {
            found.Add(new InseparableParts([.. parts], side ? InseparableKind.SideBySide : InseparableKind.InSeries));
        }

        if (open.Count == 0)
        {
            return [.. found];
        }

        Circuit fitted = FittedCircuit.With(circuit, unknowns.Select((u, i) => (u.Part, u.Quantity, u.From(around.X[i]))));
        (double[] noQ, int[] kept) = WithoutQ(around.OfSweep, unknowns);
        foreach (string node in ImpedanceLevel.Nodes(fitted))
        {
            if (ImpedanceLevel.Direction(fitted, unknowns, node) is not { } level
                || Information(noQ, [.. kept.Select(i => level[i])]) * OpenSigma * OpenSigma >= 1)
            {
                continue;
            }

            string[] parts = Parts(unknowns, level);
            string[] anchors = [.. unknowns.Where((u, i) => u.Mean is not null && Math.Abs(level[i]) > Share).Select(static u => u.Part)];
            found.Add(new InseparableParts([.. parts], InseparableKind.ImpedanceLevel) { Node = node, HeldBy = [.. anchors] });
            Deflate(open, level);
        }

        foreach (double[] one in Sparse(open))
        {
            string[] parts = Parts(unknowns, one);
            if (parts.Length >= 2 && !found.Any(f => parts.All(p => f.Parts.Contains(p))))
            {
                found.Add(new InseparableParts([.. parts], KindOf(one, parts.Length)));
            }
        }

        return [.. found];
    }

    private static InseparableKind KindOf(double[] direction, int parts)
    {
        double[] strong = [.. direction.Where(d => Math.Abs(d) > Share)];
        return strong.Length != 2 || parts != 2 || Math.Abs(Math.Abs(strong[0]) - Math.Abs(strong[1])) >= 0.2
            ? InseparableKind.Combination
            : strong[0] * strong[1] > 0 ? InseparableKind.Ratio : InseparableKind.Together;
    }

    // Information of the values when the losses are left to follow.
    private static (double[] Information, int[] Kept) WithoutQ(double[] a, FitUnknown[] unknowns)
    {
        int n = unknowns.Length;
        int[] kept = [.. Enumerable.Range(0, n).Where(i => unknowns[i].Quantity != CircuitQuantity.Q)];
        int[] order = [.. kept, .. Enumerable.Range(0, n).Except(kept)];
        double[] sorted = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                sorted[(i * n) + j] = a[(order[i] * n) + order[j]];
            }
        }

        return (FitInformation.Marginal(sorted, n, kept.Length), kept);
    }

    private static double Information(double[] a, double[] direction)
    {
        int n = direction.Length;
        double sum = 0, length = 0;
        for (int i = 0; i < n; i++)
        {
            length += direction[i] * direction[i];
            for (int j = 0; j < n; j++)
            {
                sum += direction[i] * a[(i * n) + j] * direction[j];
            }
        }

        return sum / length;
    }

    // Parts that move, the most moved first.
    private static string[] Parts(FitUnknown[] unknowns, double[] direction)
    {
        double most = direction.Max(Math.Abs);
        return
        [
            .. unknowns.Select((u, i) => (u.Part, Move: Math.Abs(direction[i]))).Where(p => p.Move > Share * most)
                .GroupBy(static p => p.Part)
                    .OrderByDescending(static g => Math.Round(g.Max(static p => p.Move), 2))
                    .Select(static g => g.Key),
        ];
    }

    // Takes a direction out of a space, which loses a dimension if it lay within.
    private static void Deflate(List<double[]> space, double[] direction)
    {
        double[] inside = new double[direction.Length];
        foreach (double[] v in space)
        {
            double dot = v.Zip(direction, static (p, q) => p * q).Sum();
            for (int i = 0; i < inside.Length; i++)
            {
                inside[i] += dot * v[i];
            }
        }

        double length = Math.Sqrt(inside.Sum(static v => v * v)), whole = Math.Sqrt(direction.Sum(static v => v * v));
        if (length < 0.5 * whole)
        {
            return;
        }

        List<double[]> rest = [];
        foreach (double[] v in space)
        {
            double dot = v.Zip(inside, static (p, q) => p * q).Sum() / (length * length);
            double[] r = [.. v.Zip(inside, (p, q) => p - (dot * q))];
            foreach (double[] kept in rest)
            {
                double d = r.Zip(kept, static (p, q) => p * q).Sum();
                r = [.. r.Zip(kept, (p, q) => p - (d * q))];
            }

            double size = Math.Sqrt(r.Sum(static t => t * t));
            if (size > 1e-6)
            {
                rest.Add([.. r.Select(t => t / size)]);
            }
        }

        space.Clear();
        space.AddRange(rest);
    }

    // Gauss-Jordan with full pivoting: each combination has one part that no other has.
    private static List<double[]> Sparse(List<double[]> space)
    {
        List<double[]> rows = [.. space.Select(static v => (double[])v.Clone())];
        HashSet<int> pivots = [];
        for (int r = 0; r < rows.Count; r++)
        {
            (int row, int column) = (r, -1);
            double most = 0;
            for (int i = r; i < rows.Count; i++)
            {
                for (int j = 0; j < rows[i].Length; j++)
                {
                    if (!pivots.Contains(j) && Math.Abs(rows[i][j]) > most)
                    {
                        (most, row, column) = (Math.Abs(rows[i][j]), i, j);
                    }
                }
            }

            if (column < 0 || most < 1e-9)
            {
                break;
            }

            (rows[r], rows[row]) = (rows[row], rows[r]);
            pivots.Add(column);
            double pivot = rows[r][column];
            rows[r] = [.. rows[r].Select(v => v / pivot)];
            for (int i = 0; i < rows.Count; i++)
            {
                if (i != r)
                {
                    double factor = rows[i][column];
                    rows[i] = [.. rows[i].Zip(rows[r], (p, q) => p - (factor * q))];
                }
            }
        }

        return [.. rows.Select(static v => { double m = v.Max(Math.Abs); return v.Select(t => t / Math.Max(m, 1e-12)).ToArray(); })];
    }
}
