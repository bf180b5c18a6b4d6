using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;

namespace Spurless.Sites.Stresses;

/// <summary>What a transmitter's power does to a circuit.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Network">The circuit as a two-port, for its curves.</param>
/// <param name="Result">Powers, and what each part bears.</param>
public sealed record StressAnswer(StressQuestion Question, CircuitTwoPort Network, StressResult Result);
