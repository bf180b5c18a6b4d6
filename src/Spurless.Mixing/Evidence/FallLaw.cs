namespace Spurless.Mixing.Evidence;

/// <summary>
/// By how much a reading falls when what is read is attenuated: the reading holds the noise too, so that the fall ends there.
/// <c>F(x, y) = 10 lg(1 + 10^(x/10)) - 10 lg(1 + 10^((x - y)/10))</c>, x over noise before, y the attenuation.
/// </summary>
public static class FallLaw
{
    private const double NepersPerDecibel = 0.230258509299404568; // ln(10) / 10

    /// <summary>The fall of the reading in dB; below 0 where it rises.</summary>
    /// <param name="overNoiseDb">What is attenuated, over noise before, in dB.</param>
    /// <param name="attenuationDb">Its attenuation in dB; positive infinity takes it away altogether, below 0 it grows.</param>
    /// <remarks>43 dB over noise behind 20 dB falls 20.0 dB; 3 dB over noise taken away altogether falls 4.76 dB.</remarks>
    public static double Db(double overNoiseDb, double attenuationDb) =>
        (Softplus(overNoiseDb) - Softplus(overNoiseDb - attenuationDb)) / NepersPerDecibel;

    /// <summary>How the fall changes with what was read before: <c>dF/dx</c>, 0 far over noise and the more the nearer to it.</summary>
    /// <param name="overNoiseDb">What is attenuated, over noise before, in dB.</param>
    /// <param name="attenuationDb">Its attenuation in dB.</param>
    public static double Slope(double overNoiseDb, double attenuationDb) =>
        Logistic(overNoiseDb) - Logistic(overNoiseDb - attenuationDb);

    /// <summary>The most that a reading can fall: all the way to the noise, in dB.</summary>
    /// <param name="overNoiseDb">What is read, over noise, in dB.</param>
    public static double MostDb(double overNoiseDb) => Db(overNoiseDb, double.PositiveInfinity);

    // ln(1 + e^z) of decibels, without overflow.
    private static double Softplus(double db)
    {
        double z = db * NepersPerDecibel;
        return z > 0 ? z + Math.Log(1 + Math.Exp(-z)) : Math.Log(1 + Math.Exp(z));
    }

    private static double Logistic(double db) => 1 / (1 + Math.Exp(-db * NepersPerDecibel));
}
