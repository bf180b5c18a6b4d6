using System.Collections.Immutable;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>How far a fit has come.</summary>
/// <param name="Fraction">Share done, 0 to 1; never less than before.</param>
/// <param name="Best">The nearest to the sweep so far; null before the first start has come to rest.</param>
public sealed record FitProgress(double Fraction, FitSoFar? Best);

/// <summary>The nearest that a running fit has come to the sweep.</summary>
public sealed class FitSoFar
{
    private readonly Circuit _traced;

    internal FitSoFar(
        Circuit traced,
        double differenceDb,
        bool isMagnitude,
        ImmutableArray<(string Part, CircuitQuantity Quantity, double Value)> values) =>
        (_traced, DifferenceDb, IsMagnitude, Values) = (traced, differenceDb, isMagnitude, values);

    /// <summary>
    /// Rms difference over all points, without weights, as <see cref="FitResult.RmsResidualDb"/>: of complex sweeps 20 log of it, of
    /// magnitudes in dB.
    /// </summary>
    public double DifferenceDb { get; }

    /// <summary>Whether the sweep is of magnitudes only.</summary>
    public bool IsMagnitude { get; }

    /// <summary>The values there, in SI units.</summary>
    public ImmutableArray<(string Part, CircuitQuantity Quantity, double Value)> Values { get; }

    /// <summary>The circuit with those values.</summary>
    public Circuit Circuit => FittedCircuit.With(_traced, Values);
}
