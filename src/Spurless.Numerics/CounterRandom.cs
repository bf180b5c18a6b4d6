namespace Spurless.Numerics;

/// <summary>
/// Random numbers that depend on seed, sample and dimension alone and on nothing drawn before, so that any thread can draw any of them.
/// The finaliser of SplitMix64 (Steele, Lea, Flood 2014; from memory) over a counter.
/// </summary>
public readonly struct CounterRandom(ulong seed, int dimensions)
{
    private readonly ulong _start = Mix(seed ^ 0x6A09E667F3BCC909);

    /// <summary>A number evenly spread over 0 to 1, both excluded.</summary>
    public double Uniform(int sample, int dimension)
    {
        ulong counter = ((ulong)sample * (ulong)dimensions) + (ulong)dimension + 1;
        return ((Mix(_start + (counter * 0x9E3779B97F4A7C15)) >> 12) + 0.5) * (1.0 / (1UL << 52));
    }

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
