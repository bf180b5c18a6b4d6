namespace Spurless.Mixing.Evidence;

/// <summary>What a clue is about.</summary>
public enum ClueKind
{
    /// <summary>The level of what is heard: the largest reading over noise, once a receiver.</summary>
    Level,

    /// <summary>A fall.</summary>
    Fall,

    /// <summary>The offset from the channel's centre.</summary>
    Offset,

    /// <summary>The logs.</summary>
    Log,

    /// <summary>Likelihoods that were given.</summary>
    Given,
}

/// <summary>One piece of evidence that every hypothesis has a likelihood for.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Observation">Index of the observation that it comes from.</param>
public readonly record struct Clue(ClueKind Kind, int Observation);

/// <summary>How much a clue speaks for a hypothesis.</summary>
/// <param name="Clue">Index of the clue.</param>
/// <param name="Weight">
/// Natural logarithm of its likelihood over that of all other hypotheses, weighed as before any evidence: above 0 it speaks for it.
/// </param>
public readonly record struct Reason(int Clue, double Weight);

/// <summary>How evidence fails to fit.</summary>
public enum MisfitKind
{
    /// <summary>A reading lies over four sigma from what every hypothesis says.</summary>
    NothingNear,

    /// <summary>Something else explains the logs by far better than any product.</summary>
    LogUnexplained,

    /// <summary>What the rest of the evidence leaves as the likeliest does not fit this: the evidence contradicts itself.</summary>
    AgainstTheRest,
}

/// <summary>A clue that does not fit.</summary>
/// <param name="Kind">How it fails.</param>
/// <param name="Clue">Index of the clue.</param>
/// <param name="Sigmas">
/// How many sigma it lies from the nearest hypothesis, or from the likeliest; of logs the sigma that are as unlikely.
/// </param>
public readonly record struct Misfit(MisfitKind Kind, int Clue, double Sigmas);
