using System.Numerics;

namespace Spurless.Circuits.Touchstone;

/// <summary>One line of the noise block of a Touchstone file.</summary>
/// <param name="FrequencyHz">Frequency in hertz.</param>
/// <param name="MinimumNoiseFigureDb">Least noise figure in dB.</param>
/// <param name="OptimumSource">Source reflection coefficient at which it is reached, in the file's reference.</param>
/// <param name="NoiseResistanceOhm">Effective noise resistance in ohms (version 1 writes it divided by the reference; that is
/// undone).</param>
public readonly record struct TouchstoneNoisePoint(
    double FrequencyHz, double MinimumNoiseFigureDb, Complex OptimumSource, double NoiseResistanceOhm);
