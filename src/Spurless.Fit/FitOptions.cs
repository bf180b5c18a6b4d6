namespace Spurless.Fit;

/// <summary>How a fit is run.</summary>
public sealed record FitOptions
{
    /// <summary>Seed of the places it starts from; the same seed gives the same result on any number of threads.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Number of starts, at least 1.</summary>
    public int Starts { get; init; } = 32;

    /// <summary>Threads; 0 for as many as the machine has.</summary>
    public int Threads { get; init; }

    /// <summary>
    /// Whether other tracings are tried where the sweep is not explained, and which measurement would help most is computed.
    /// </summary>
    public bool Advise { get; init; } = true;

    /// <summary>How well the analyser was calibrated: how much of the sweep may be the instrument's.</summary>
    public Calibration Calibration { get; init; } = Calibration.Usual;

    /// <summary>Whether capacitors that state no series inductance may have the usual one of a chip on a board.</summary>
    public bool Parasitics { get; init; } = true;

    /// <summary>Sizes of the instrument's errors in place of those of <see cref="Calibration"/>; null for those.</summary>
    internal InstrumentErrors? Errors { get; init; }

    /// <summary>
    /// How many times less sure an estimate counts than it says: who writes 10 % is off by more rather often (common experience).
    /// </summary>
    internal double EstimateFactor { get; init; } = 1.5;

    /// <summary>
    /// Whether all intervals are found by profiles to 1 %, and not only the wide ones roughly: each value is held while all others are
    /// fitted anew.
    /// </summary>
    public bool Profile { get; init; }
}
