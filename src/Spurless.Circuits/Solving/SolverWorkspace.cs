using System.Numerics;

namespace Spurless.Circuits.Solving;

/// <summary>
/// The memory one thread needs to run a <see cref="CircuitSolver"/>: made once, then no run allocates. Not safe for use by several threads
/// at once.
/// </summary>
public sealed unsafe class SolverWorkspace
{
    // Held so that the pinned block lives as long as the pointers into it.
    private readonly double[] _block;

    internal SolverWorkspace(
        CircuitSolver owner, SparseStructure? structure, int classes, int terms, int generalDoubles, int nodes, int ports)
    {
        Owner = owner;
        Pivoted = new PivotedSolver(owner.Netlist);
        Solution1 = new Complex[Pivoted.Capacity];
        Solution2 = new Complex[Pivoted.Capacity];
        int states = Math.Max(1, Pivoted.StateLength);
        States1 = new Complex[states];
        States2 = new Complex[states];
        Adjoint1 = new Complex[states];
        Adjoint2 = new Complex[states];
        Small = new Complex[Math.Max(3, (ports * ports) + (ports * (ports + 1) / 2))];
        GradientNumbers = new double[Math.Max(1, 2 * owner.Netlist.Elements.Length)];
        Gradient = new Complex[3 * Math.Max(1, owner.Parameters.Count)];
        int entries = structure?.EntryCount ?? 0;
        const int size = SparseStructure.EntrySize;
        int[] lengths =
        [
            entries * size, (nodes + 1) * size, (nodes + 1) * size, classes * size, generalDoubles, Round(entries * 3), Round(terms), size,
        ];
        _block = GC.AllocateArray<double>(lengths.Sum() + 8, pinned: true);
        double* p = (double*)(((nint)System.Runtime.CompilerServices.Unsafe.AsPointer(ref _block[0]) + 63) & ~63);
        double*[] starts = new double*[lengths.Length];
        for (int i = 0; i < lengths.Length; i++)
        {
            starts[i] = p;
            p += lengths[i];
        }

        Matrix = starts[0];
        Voltages1 = starts[1];
        Voltages2 = starts[2];
        Functions = starts[3];
        General = starts[4];
        Entries = starts[5];
        Terms = starts[6];
        Frequencies = starts[7];
        EntryLength = entries * 3;
        static int Round(int length) => (length + 7) & ~7;
    }

    internal CircuitSolver Owner { get; }

    internal PivotedSolver Pivoted { get; }

    internal Complex[] Solution1 { get; }

    internal Complex[] Solution2 { get; }

    internal Complex[] States1 { get; }

    internal Complex[] States2 { get; }

    internal Complex[] Adjoint1 { get; }

    internal Complex[] Adjoint2 { get; }

    internal Complex[] Gradient { get; }

    /// <summary>For every simple element the factor of its derivative by value, and of that by Q.</summary>
    internal double[] GradientNumbers { get; }

    internal Complex[] Small { get; }

    internal double* Matrix { get; }

    internal double* Voltages1 { get; }

    internal double* Voltages2 { get; }

    internal double* Functions { get; }

    internal double* General { get; }

    internal double* Entries { get; }

    internal int EntryLength { get; }

    internal double* Terms { get; }

    internal double* Frequencies { get; }

    /// <summary>
    /// Points that the pivoted solver did since this workspace was made, because the batch kernel had lost digits or does not know the
    /// network's parts.
    /// </summary>
    public long PivotedPoints { get; internal set; }
}
