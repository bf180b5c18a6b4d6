namespace Spurless.Mixing.Evidence;

/// <summary>
/// What a hypothesis says a reading will be: normal about a mean, or anything between two bounds where it cannot be known.
/// </summary>
/// <param name="Mean">The mean, in the reading's unit; not a number where only bounds are known.</param>
/// <param name="Sigma">One sigma, above 0; 0 where only bounds are known.</param>
/// <param name="Low">Lower bound where only bounds are known.</param>
/// <param name="High">Upper bound where only bounds are known.</param>
public readonly record struct Prediction(double Mean, double Sigma, double Low, double High)
{
    /// <summary>Whether a mean is known.</summary>
    public bool IsNormal => Sigma > 0;

    /// <summary>A reading that is normal about a mean.</summary>
    /// <param name="mean">The mean.</param>
    /// <param name="variance">Its variance, above 0.</param>
    public static Prediction Normal(double mean, double variance) => new(mean, Math.Sqrt(variance), double.NaN, double.NaN);

    /// <summary>A reading that can be anything between two bounds.</summary>
    /// <param name="low">The lower one.</param>
    /// <param name="high">The upper one, above it.</param>
    public static Prediction Between(double low, double high) => new(double.NaN, 0, low, high);

    /// <summary>
    /// Natural logarithm of the density of a reading. Where only bounds are known it is the same everywhere: a reading that scatters over a
    /// bound is no proof.
    /// </summary>
    /// <param name="reading">The reading.</param>
    public double LogDensity(double reading)
    {
        if (!IsNormal)
        {
            return -Math.Log(High - Low);
        }

        double z = (reading - Mean) / Sigma;
        return (-0.5 * z * z) - Math.Log(Sigma) - 0.918938533204672742; // ln(2 pi) / 2
    }

    /// <summary>How many sigma a reading lies from the mean; 0 where only bounds are known.</summary>
    /// <param name="reading">The reading.</param>
    public double SigmasOff(double reading) => IsNormal ? Math.Abs(reading - Mean) / Sigma : 0;
}
