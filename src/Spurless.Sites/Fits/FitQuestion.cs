using Spurless.Circuits.Parts;
using Spurless.Fit;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Fits;

/// <summary>What are the values of a traced circuit, given a sweep of it?</summary>
public sealed record FitQuestion
{
    /// <summary>Most places to start from.</summary>
    public const int MostStarts = 10_000;

    /// <summary>The circuit with its unknown values and estimates.</summary>
    public required Circuit Circuit { get; init; }

    /// <summary>The sweep, in the circuit's port impedance.</summary>
    public required FitSweep Sweep { get; init; }

    /// <summary>Seed, starts, and whether intervals are found by profiles.</summary>
    public FitOptions Options { get; init; } = new();

    /// <summary>The files that both were read from.</summary>
    public IReadOnlyList<InputFile> Inputs { get; init; } = [];
}
