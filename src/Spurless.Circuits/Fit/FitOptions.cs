namespace Spurless.Circuits.Fit;

/// <summary>How a fit is run.</summary>
public sealed record FitOptions
{
    /// <summary>Seed of the places it starts from; the same seed gives the same result on any number of threads.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Number of starts, at least 1.</summary>
    public int Starts { get; init; } = 32;

    /// <summary>Threads; 0 for as many as the machine has.</summary>
    public int Threads { get; init; }

    /// <summary>Whether other tracings are tried where the sweep is not explained, and which measurement would help most is computed.</summary>
    public bool Advise { get; init; } = true;

    /// <summary>Whether all intervals are found by profiles to 1 %, and not only the wide ones roughly: each value is held while all others are fitted anew.</summary>
    public bool Profile { get; init; }
}
