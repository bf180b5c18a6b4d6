namespace Spurless.Mixing.Levels;

/// <summary>What a product does to a receiver.</summary>
public static class ProductEffects
{
    /// <summary>A product this close under the wanted signal spoils it, dB (common practice).</summary>
    public const double SpoilsWithinDb = 8;

    /// <summary>From here on a product costs sensitivity, over noise in dB: 0.41 dB of it (our choice, the verdict 'marginal').</summary>
    public const double CostsFromDb = -10;

    /// <summary>Rise of the noise by a signal x dB over it.</summary>
    /// <param name="overNoiseDb">x in dB.</param>
    /// <returns>10 lg(1 + 10^(x/10)) in dB: 0.973, 3.010 and 6.973 for -6, 0 and +6 dB.</returns>
    public static double NoiseRiseDb(double overNoiseDb) =>
        // For a strong product 10^(x/10) is taken out, so that nothing overflows.
        overNoiseDb > 0
            ? overNoiseDb + (10 * Math.Log10(1 + Math.Pow(10, -overNoiseDb / 10)))
            : 10 * Math.Log10(1 + Math.Pow(10, overNoiseDb / 10));

    /// <summary>Whether a product opens a carrier squelch.</summary>
    /// <param name="overNoiseDb">Product over noise in dB.</param>
    /// <param name="squelchOpensDb">Where the squelch opens, over noise in dB; by default CN12.</param>
    public static bool OpensSquelch(double overNoiseDb, double squelchOpensDb) => overNoiseDb >= squelchOpensDb;

    /// <summary>Whether a product spoils a wanted signal: one that is less than <paramref name="withinDb"/> stronger.</summary>
    /// <param name="productDbm">Product in the channel, dBm.</param>
    /// <param name="wantedDbm">Wanted signal at the same place, dBm.</param>
    /// <param name="withinDb">Protection it needs, dB.</param>
    public static bool SpoilsWanted(double productDbm, double wantedDbm, double withinDb = SpoilsWithinDb) =>
        wantedDbm - productDbm < withinDb;
}
