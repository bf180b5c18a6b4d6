namespace Spurless.Mixing.Measurements;

/// <summary>Two figures for one thing that lie further apart than their errors explain.</summary>
/// <param name="First">Index of the one.</param>
/// <param name="Second">Index of the other, greater than <paramref name="First"/>.</param>
/// <param name="ApartDb">How far apart they lie, in dB, at least 0.</param>
/// <param name="SigmaDb">One sigma of their difference, in dB; what they share has fallen out of it.</param>
public readonly record struct Disagreement(int First, int Second, double ApartDb, double SigmaDb)
{
    /// <summary>Figures that lie further apart than so many sigma of their difference disagree.</summary>
    public const double FromSigmas = 3;
}
