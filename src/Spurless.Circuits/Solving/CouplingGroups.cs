using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Solving;

/// <summary>Sets of inductors that hang together by couplings.</summary>
internal static class CouplingGroups
{
    /// <summary>The sets of two and more, each as part indices in the order of the circuit.</summary>
    public static List<int[]> Find(Circuit circuit)
    {
        Dictionary<string, int> index = new(StringComparer.Ordinal);
        for (int i = 0; i < circuit.Parts.Count; i++)
        {
            index.TryAdd(circuit.Parts[i].Name, i);
        }

        int[] label = [.. Enumerable.Range(0, circuit.Parts.Count)];
        foreach (Coupling coupling in circuit.Parts.OfType<Coupling>())
        {
            int a = label[index[coupling.First]], b = label[index[coupling.Second]];
            for (int i = 0; i < label.Length; i++)
            {
                if (label[i] == b)
                {
                    label[i] = a;
                }
            }
        }

        return [
            .. label
                .Select(static (l, i) => (l, i))
                .GroupBy(static p => p.l)
                .Where(static g => g.Count() > 1)
                .Select(static g => g.Select(static p => p.i).ToArray()),
        ];
    }

    /// <summary>
    /// Faults of sets whose coefficients contradict each other: the matrix of coefficients must be positive definite, else the windings
    /// would give energy.
    /// </summary>
    public static void Check(Circuit circuit, List<CircuitFault> faults)
    {
        foreach (int[] group in Find(circuit))
        {
            if (group.Length < 3)
            {
                continue;
            }

            string[] names = [.. group.Select(i => circuit.Parts[i].Name)];
            double[,] k = new double[names.Length, names.Length];
            bool known = true;
            for (int i = 0; i < names.Length; i++)
            {
                k[i, i] = 1;
            }

            foreach (Coupling coupling in circuit.Parts.OfType<Coupling>())
            {
                int i = Array.IndexOf(names, coupling.First), j = Array.IndexOf(names, coupling.Second);
                if (i >= 0 && j >= 0)
                {
                    known &= coupling.Coefficient.IsKnown;
                    k[i, j] = k[j, i] = coupling.Coefficient.Value ?? 0;
                }
            }

            if (known && !PositiveDefinite(k))
            {
                faults.Add(new(
                    CircuitFaultKind.ImpossibleCoupling,
                    names,
                    $"the couplings among {string.Join(", ", names)} contradict each other: no windings can have them together",
                    "lower the coefficients, or state the missing couplings among them"));
            }
        }
    }

    private static bool PositiveDefinite(double[,] m)
    {
        int n = m.GetLength(0);
        for (int k = 0; k < n; k++)
        {
            if (m[k, k] <= 1e-12)
            {
                return false;
            }

            for (int i = k + 1; i < n; i++)
            {
                double f = m[i, k] / m[k, k];
                for (int j = k; j < n; j++)
                {
                    m[i, j] -= f * m[k, j];
                }
            }
        }

        return true;
    }
}
