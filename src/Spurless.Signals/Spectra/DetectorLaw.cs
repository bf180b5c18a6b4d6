namespace Spurless.Signals.Spectra;

/// <summary>
/// The law of noise readings that are means of K independent powers: a gamma distribution of shape K and mean 1. K is not told by any
/// file: it is
/// found from the readings' own spread. Quantiles by Wilson and Hilferty's cube root (1931, from memory), within 0.1 dB between 5 and 95
/// % from K = 1 on, and too high
/// further out, which makes a threshold a little safer.
/// </summary>
/// <param name="averages">K, above 0; infinity for readings without any spread.</param>
public readonly struct DetectorLaw(double averages)
{
    /// <summary>K.</summary>
    public double Averages => averages;

    /// <summary>The value, with the mean as 1, that a share of noise readings lies under.</summary>
    /// <param name="z">The share as a standard normal deviate: -1.2816 for 10 %.</param>
    public double Quantile(double z)
    {
        double v = 1 / (9 * averages);
        double root = 1 - v + (z * Math.Sqrt(v));
        return root <= 0 ? 0 : root * root * root;
    }

    /// <summary>The value that at most one in so many noise readings lies over.</summary>
    public double OverOnceIn(double readings) => Quantile(Deviate(Math.Max(2, readings)));

    /// <summary>The same law for means of so many readings.</summary>
    public DetectorLaw Mean(double readings) => new(averages * readings);

    /// <summary>Finds K from noise readings: from the distance of their tenth and fortieth percentile, where signals hardly
    /// reach.</summary>
    /// <param name="tenth">10th percentile.</param>
    /// <param name="fortieth">40th percentile.</param>
    public static DetectorLaw FromSpread(double tenth, double fortieth)
    {
        const double z10 = -1.281552;
        const double z40 = -0.253347;
        double ratio = tenth > 0 ? fortieth / tenth : double.PositiveInfinity;
        double low = 0.5;
        double high = 1e6;
        for (int i = 0; i < 100; i++)
        {
            double middle = Math.Sqrt(low * high);
            DetectorLaw law = new(middle);
            bool wider = law.Quantile(z10) <= 0 || law.Quantile(z40) / law.Quantile(z10) > ratio;
            (low, high) = wider ? (middle, high) : (low, middle);
        }

        return new DetectorLaw(Math.Sqrt(low * high));
    }

    /// <summary>The deviate that a standard normal exceeds once in n: Abramowitz and Stegun 26.2.23 (from memory), within 0.0005.</summary>
    private static double Deviate(double n)
    {
        double t = Math.Sqrt(2 * Math.Log(n));
        return t - ((2.515517 + (t * (0.802853 + (t * 0.010328)))) / (1 + (t * (1.432788 + (t * (0.189269 + (t * 0.001308)))))));
    }
}
