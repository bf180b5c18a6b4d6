namespace Spurless.Sites.Chains;

/// <summary>What the filter in line takes from one carrier.</summary>
/// <param name="NominalDb">The chain's gain without the filter less that with it, everything in 50 ohm, in dB.</param>
/// <param name="LowDb">Least rejection over all phases of the stated mismatch, in dB; null where the filter is not known at the
/// frequency.</param>
/// <param name="HighDb">Greatest rejection over all phases of the stated mismatch, in dB; null where the filter is not known at the
/// frequency.</param>
public sealed record FilterRejection(double NominalDb, double? LowDb, double? HighDb);
