using System.Numerics;

namespace Spurless.Fit.Tests;

/// <summary>A generator of the tests' own (SplitMix64, from memory), so that no version of a library can change the cases.</summary>
internal sealed class SeededNoise(ulong seed)
{
    private ulong _state = seed;

    /// <summary>From 0 to below 1.</summary>
    public double Uniform()
    {
        _state += 0x9E3779B97F4A7C15UL;
        ulong z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }

    /// <summary>Evenly between two numbers.</summary>
    public double Between(double low, double high) => low + ((high - low) * Uniform());

    /// <summary>Evenly in ratio between two numbers above 0.</summary>
    public double Ratio(double low, double high) => low * Math.Pow(high / low, Uniform());

    /// <summary>Normal, sigma 1.</summary>
    public double Normal() => Gauss().Real;

    /// <summary>Complex, each part normal with a sigma of 1 (polar form of Box and Muller).</summary>
    public Complex Gauss() => Complex.FromPolarCoordinates(Math.Sqrt(-2 * Math.Log(1 - Uniform())), 2 * Math.PI * Uniform());
}
