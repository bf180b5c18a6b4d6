using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;

namespace Spurless.Sites.Recordings;

/// <summary>What was heard on a recording.</summary>
/// <param name="Recording">The recording's name as the user gave it.</param>
/// <param name="Heard">The transmissions.</param>
/// <param name="Fits">Which mixtures of the site fit, most likely first; empty without a site.</param>
/// <param name="Receiver">The receiver whose mixtures these are; null without a site.</param>
/// <param name="Log">When what was on, as the log that <c>locate</c> takes.</param>
public sealed record ListenAnswer(string Recording, Heard Heard, IReadOnlyList<MixtureFit> Fits, string? Receiver, HeardLog Log)
{
    /// <summary>The kinds on the receiver's channel that tell mixtures apart; empty without a site.</summary>
    public IReadOnlyList<SignalKind> OnChannel { get; init; } = [];

    /// <summary>The largest peak deviation on the receiver's channel, in hertz, of a band; null where not measured.</summary>
    public double? DeviationHz { get; init; }
}
