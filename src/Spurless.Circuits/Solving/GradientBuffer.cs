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
/// Receives the derivatives of S-parameters by all parameters of a circuit at a number of frequencies. Made once and used again; the run fills it.
/// Units: one over the parameter's SI unit.
/// </summary>
public sealed unsafe class GradientBuffer
{
    private readonly double[]?[] _planes = new double[]?[6];

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
        Stride = (frequencies + 7) & ~7;
        for (int i = 0; i < 6; i++)
        {
            if (parts.HasFlag((GradientParts)(1 << (i / 2))))
            {
                _planes[i] = GC.AllocateArray<double>((ParameterCount * Stride) + 1, pinned: true);
            }
        }
    }

    /// <summary>What it holds.</summary>
    public GradientParts Parts { get; }

    /// <summary>Number of parameters.</summary>
    public int ParameterCount { get; }

    /// <summary>Number of frequencies.</summary>
    public int FrequencyCount { get; }

    internal int Stride { get; }

    /// <summary>dS11 by a parameter at a frequency; the buffer must hold it.</summary>
    public Complex S11(int parameter, int frequency) => Read(0, parameter, frequency);

    /// <summary>dS21 by a parameter at a frequency; the buffer must hold it.</summary>
    public Complex S21(int parameter, int frequency) => Read(2, parameter, frequency);

    /// <summary>dS22 by a parameter at a frequency; the buffer must hold it.</summary>
    public Complex S22(int parameter, int frequency) => Read(4, parameter, frequency);

    internal double* Plane(int plane) => _planes[plane] is { } array ? (double*)System.Runtime.CompilerServices.Unsafe.AsPointer(ref array[0]) : null;

    private Complex Read(int plane, int parameter, int frequency)
    {
        if ((uint)parameter >= (uint)ParameterCount || (uint)frequency >= (uint)FrequencyCount)
        {
            throw new ArgumentOutOfRangeException(nameof(parameter), "There is no such parameter or frequency.");
        }

        int at = (parameter * Stride) + frequency;
        return _planes[plane] is { } real ? new(real[at], _planes[plane + 1]![at]) : throw new InvalidOperationException("The buffer was not made for these derivatives.");
    }
}
