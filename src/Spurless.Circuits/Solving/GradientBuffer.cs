using System.Numerics;

namespace Spurless.Circuits.Solving;

/// <summary>Which derivatives a gradient run computes.</summary>
[Flags]
public enum GradientParts
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Derivatives of S11.</summary>
    S11 = 1,

    /// <summary>Derivatives of S21.</summary>
    S21 = 2,

    /// <summary>Derivatives of S22.</summary>
    S22 = 4,

    /// <summary>By the quality factors too, and not by the parts' values alone.</summary>
    QualityFactors = 8,

    /// <summary>S11 and S21 by every part's value.</summary>
    Values = S11 | S21,

    /// <summary>All there is.</summary>
    All = S11 | S21 | S22 | QualityFactors,
}

/// <summary>
/// Receives the derivatives of S-parameters by all parameters of a circuit at a number of frequencies. Made once and used again; the run
/// fills it. Units: one over the parameter's SI unit.
/// </summary>
public sealed unsafe class GradientBuffer
{
    private readonly double[]?[] _planes = new double[]?[3];

    /// <summary>Makes a buffer.</summary>
    /// <param name="solver">The solver whose parameters count.</param>
    /// <param name="frequencies">Number of frequencies, at least 1.</param>
    /// <param name="parts">What to compute.</param>
    public GradientBuffer(CircuitSolver solver, int frequencies, GradientParts parts = GradientParts.Values)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(frequencies, 1);
        Parts = parts;
        ParameterCount = solver.Parameters.Count;
        FrequencyCount = frequencies;
        for (int i = 0; i < 3; i++)
        {
            if (parts.HasFlag((GradientParts)(1 << i)))
            {
                // Written in the order in which it is computed: batch after batch of 8 frequencies, in it parameter after parameter.
                _planes[i] = GC.AllocateArray<double>(
                    ((frequencies + 7) / 8 * ParameterCount * SparseStructure.EntrySize) + 8, pinned: true);
            }
        }
    }

    /// <summary>What it holds.</summary>
    public GradientParts Parts { get; }

    /// <summary>Number of parameters.</summary>
    public int ParameterCount { get; }

    /// <summary>Number of frequencies.</summary>
    public int FrequencyCount { get; }

    /// <summary>dS11 by a parameter at a frequency; the buffer must hold it.</summary>
    public Complex S11(int parameter, int frequency) => Read(0, parameter, frequency);

    /// <summary>dS21 by a parameter at a frequency; the buffer must hold it.</summary>
    public Complex S21(int parameter, int frequency) => Read(1, parameter, frequency);

    /// <summary>dS22 by a parameter at a frequency; the buffer must hold it.</summary>
    public Complex S22(int parameter, int frequency) => Read(2, parameter, frequency);

    /// <summary>Start of the derivatives of S11 (0), S21 (1) or S22 (2); null where the buffer does not hold them.</summary>
    public double* Plane(int plane) => _planes[plane] is { } array ? Aligned(array) : null;

    /// <summary>Offset of the real part of a derivative; the imaginary one is 8 further.</summary>
    public int Offset(int parameter, int frequency) =>
        ((((frequency >> 3) * ParameterCount) + parameter) * SparseStructure.EntrySize) + (frequency & 7);

    private static double* Aligned(double[] pinned) =>
        (double*)(((nint)System.Runtime.CompilerServices.Unsafe.AsPointer(ref pinned[0]) + 63) & ~63);

    private Complex Read(int plane, int parameter, int frequency)
    {
        if ((uint)parameter >= (uint)ParameterCount || (uint)frequency >= (uint)FrequencyCount)
        {
            throw new ArgumentOutOfRangeException(nameof(parameter), "There is no such parameter or frequency.");
        }

        double* start = Plane(plane);
        if (start == null)
        {
            throw new InvalidOperationException("The buffer was not made for these derivatives.");
        }

        int at = Offset(parameter, frequency);
        return new(start[at], start[at + 8]);
    }
}
