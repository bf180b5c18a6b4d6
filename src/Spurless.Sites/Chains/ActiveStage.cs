using Spurless.Mixing.Levels;

namespace Spurless.Sites.Chains;

/// <summary>A stage in which products are made: an amplifier of the chain, or the receiver itself.</summary>
/// <param name="Name"><c>amplifier 1</c> (counted from the antenna) or the receiver's name.</param>
/// <param name="GainDb">Gain in 50 ohm, in dB; 0 for the receiver.</param>
/// <param name="NoiseFigureDb">Noise figure in dB.</param>
/// <param name="Intercepts">Input intercepts of the orders 2 to 9.</param>
public sealed record ActiveStage(string Name, double GainDb, double NoiseFigureDb, Intercepts Intercepts);
