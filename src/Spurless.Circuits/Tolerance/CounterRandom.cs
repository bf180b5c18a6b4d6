namespace Spurless.Circuits.Tolerance;

/// <summary>
/// Random numbers that depend on seed, sample and dimension alone and on nothing drawn before, so that any thread can draw any of them.
/// The finaliser of SplitMix64 (Steele, Lea, Flood 2014; from memory) over a counter.
/// </summary>
internal readonly struct CounterRandom(ulong seed, int dimensions)
{
    private readonly ulong _start = Mix(seed ^ 0x6A09E667F3BCC909);

    /// <summary>A number evenly spread over 0 to 1, both excluded.</summary>
    public double Uniform(int sample, int dimension)
    {
        ulong counter = ((ulong)sample * (ulong)dimensions) + (ulong)dimension + 1;
        return ((Mix(_start + (counter * 0x9E3779B97F4A7C15)) >> 12) + 0.5) * (1.0 / (1UL << 52));
    }

    /// <summary>The standard normal deviate below which a share of the distribution lies.</summary>
    /// <param name="p">The share, above 0 and below 1.</param>
    /// <returns>Deviate; relative error below 1.2e-9 (Acklam's rational approximation, from memory; held to a general library by a test).</returns>
    public static double Normal(double p)
    {
        if (p < 0.02425)
        {
            double q = Math.Sqrt(-2 * Math.Log(p));
            return Tail(q);
        }

        if (p > 1 - 0.02425)
        {
            double q = Math.Sqrt(-2 * Math.Log(1 - p));
            return -Tail(q);
        }

        double x = p - 0.5, r = x * x;
        return ((((((((((-39.69683028665376 * r) + 220.9460984245205) * r) - 275.9285104469687) * r) + 138.3577518672690) * r) - 30.66479806614716) * r) + 2.506628277459239) * x
            / ((((((((((-54.47609879822406 * r) + 161.5858368580409) * r) - 155.6989798598866) * r) + 66.80131188771972) * r) - 13.28068155288572) * r) + 1);
    }

    private static double Tail(double q) =>
        ((((((((((-0.007784894002430293 * q) - 0.3223964580411365) * q) - 2.400758277161838) * q) - 2.549732539343734) * q) + 4.374664141464968) * q) + 2.938163982698783)
        / ((((((((0.007784695709041462 * q) + 0.3224671290700398) * q) + 2.445134137142996) * q) + 3.754408661907416) * q) + 1);

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
