namespace Spurless.Acceptance.House.Toy;

/// <summary>A quarter wave in a cable.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="LengthM">Its length in metres.</param>
public sealed record QuarterWaveAnswer(QuarterWaveQuestion Question, double LengthM);
