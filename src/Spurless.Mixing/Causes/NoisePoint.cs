namespace Spurless.Mixing.Causes;

/// <summary>A sideband noise density at an offset.</summary>
/// <param name="OffsetHz">Offset from the carrier in hertz, above 0.</param>
/// <param name="DbcPerHz">Density relative to the carrier's power, in dBc/Hz (one sideband).</param>
public readonly record struct NoisePoint(double OffsetHz, double DbcPerHz);
