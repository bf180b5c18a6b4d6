using Spurless.Design.Questions;

namespace Spurless.Design.Designing;

/// <summary>What a design found.</summary>
/// <param name="Question">The requirement.</param>
/// <param name="Candidates">The candidates, best first.</param>
/// <param name="FamiliesTried">The families that were tried, in the order of how near they came.</param>
/// <param name="Bound">What Q a band-pass filter would need by Cohn's estimate; null where it says nothing.</param>
/// <param name="IsComplete">False where it was cancelled, and this is the best so far.</param>
public sealed record DesignAnswer(
    DesignQuestion Question, IReadOnlyList<DesignCandidate> Candidates,
        IReadOnlyList<(string Family, double WeightedMargin)> FamiliesTried, SynthesisBound? Bound, bool IsComplete);

/// <summary>How far a design has come.</summary>
/// <param name="Fraction">Share done, 0 to 1; never less than before.</param>
/// <param name="Newest">A candidate just found, not yet with yield and ratings; null for none.</param>
public sealed record DesignProgress(double Fraction, DesignCandidate? Newest);
