using Spurless.Sites.Studies;

namespace Spurless.Sites.Measuring;

/// <summary>How many mixtures without a level are of an order and a number of emitters.</summary>
/// <param name="Order">The order.</param>
/// <param name="Signals">How many emitters take part.</param>
/// <param name="Count">How many there are.</param>
public sealed record CandidateCount(int Order, int Signals, int Count);

/// <summary>An emitter to be measured, after those before it in the list.</summary>
/// <param name="Emitter">Its index in <see cref="ReceiverFindings.Carriers"/>.</param>
/// <param name="Name">Its name.</param>
/// <param name="FrequencyHz">Its carrier in hertz.</param>
/// <param name="TakesPart">In how many mixtures without a level it takes part.</param>
/// <param name="Settled">How many of them have all their levels once this one and those before it are measured.</param>
public sealed record MeasureStep(int Emitter, string Name, long FrequencyHz, int TakesPart, int Settled);

/// <summary>What to measure first.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Candidates">How many mixtures can land there whose level waits for a measurement.</param>
/// <param name="Counts">The same by order and number of emitters.</param>
/// <param name="First">The emitters, the one that settles most first.</param>
public sealed record MeasureFirstAnswer(
    MeasureFirstQuestion Question, int Candidates, IReadOnlyList<CandidateCount> Counts, IReadOnlyList<MeasureStep> First);
