using Spurless.Sites.Registers;
using Spurless.Sites.Surveys;

namespace Spurless.Sites.Matching;

/// <summary>An emitter that was measured: a line of a survey, or an emitter of a site file.</summary>
public sealed record MeasuredEmitter
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its frequency in hertz, as measured.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>One sigma of it in hertz.</summary>
    public required double FrequencySigmaHz { get; init; }

    /// <summary>Its width in hertz; 0 where it is narrower than could be seen, or not known.</summary>
    public required double BandwidthHz { get; init; }

    /// <summary>Its level at the antenna connector in dBm; null where that was not measured.</summary>
    public double? LevelDbm { get; init; }

    /// <summary>One sigma of the level in dB.</summary>
    public double SigmaDb { get; init; }

    /// <summary>Bearing from the site in degrees; null where it was not taken.</summary>
    public double? BearingDegrees { get; init; }

    /// <summary>Whether the instrument may have made it.</summary>
    public bool IsDoubtful { get; init; }

    /// <summary>The survey's line; null for an emitter of a site file.</summary>
    public SurveyedEmitter? Line { get; init; }
}

/// <summary>What a measured emitter turned out to be.</summary>
public enum MatchOutcome
{
    /// <summary>One licence explains it and no other does nearly as well.</summary>
    Joined,

    /// <summary>Several licences explain it, or one that a transmitter outside the register explains nearly as well.</summary>
    Ambiguous,

    /// <summary>No licence on its frequency explains it.</summary>
    Unexplained,
}

/// <summary>A licence that may be a measured emitter.</summary>
/// <param name="Licensed">The licensed transmitter.</param>
/// <param name="Weight">Its share of the weight of all explanations, 0 to 1.</param>
/// <param name="OffHz">How far the measured frequency lies over its own, in hertz.</param>
/// <param name="OverPredictedDb">How far the measured level lies over the predicted one, in dB; null where either is not known.</param>
/// <param name="BearingOffDegrees">Angle between the measured bearing and its own, 0 to 180; null where none was taken.</param>
public sealed record MatchCandidate(
    NearEmitter Licensed, double Weight, double OffHz, double? OverPredictedDb, double? BearingOffDegrees);

/// <summary>A measured emitter with the licences that may be it.</summary>
/// <param name="Measured">What was measured.</param>
/// <param name="Outcome">What it turned out to be.</param>
/// <param name="Candidates">The licences, the likeliest first.</param>
/// <param name="OtherWeight">The weight of a transmitter that is not in the register, 0 to 1.</param>
public sealed record EmitterMatch(
    MeasuredEmitter Measured, MatchOutcome Outcome, IReadOnlyList<MatchCandidate> Candidates, double OtherWeight);

/// <summary>What measured emitters and licences have in common.</summary>
/// <param name="Matches">The measured emitters, in their order.</param>
/// <param name="ByLevel">Whether levels could be compared; else frequency and direction alone decided.</param>
public sealed record MatchAnswer(IReadOnlyList<EmitterMatch> Matches, bool ByLevel);
