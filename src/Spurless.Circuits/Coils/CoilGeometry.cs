namespace Spurless.Circuits.Coils;

/// <summary>A single-layer air coil of round wire.</summary>
/// <param name="Turns">Number of turns, above 0; need not be whole.</param>
/// <param name="DiameterM">Diameter in metres from wire centre to wire centre.</param>
/// <param name="LengthM">Turns times pitch, in metres.</param>
/// <param name="WireM">Diameter of the bare wire in metres.</param>
/// <param name="LeadM">Length of the lead at each end in metres; 0 for none.</param>
public sealed record CoilGeometry(double Turns, double DiameterM, double LengthM, double WireM, double LeadM = 0);
