using System.Numerics;
using Spurless.Mixing.Levels;
using Spurless.Numerics;

namespace Spurless.Mixing.Forecast;

/// <summary>
/// All products at once and none listed: how many of each order fall into each bin of a raster, or their power, for any number of emitters
/// in a product. A forecast (length of a list to come, strips of a channel plan), not a verdict: it knows no occupied bandwidths, no
/// exclusive groups and no limit of signals, and takes each carrier at the bin nearest to it.
/// </summary>
/// <remarks>
/// The products of order n at a frequency are the coefficient of z^n and of e^{j theta f} in <c>prod_i Q(p_i z, theta f_i)</c>,
/// <c>Q(y, phi) = sum_k y^|k| e^{j k phi}</c> for the count and with each term divided by (|k|!)^2 for the power. The logarithm of Q is a
/// power series in y whose terms are short sums of cosines, so the sum over emitters is a Fourier transform of the carriers and the
/// exponential a short recurrence. Accuracy: counts to about 1e-12 of the fullest bin's; powers down to 105 to 140 dB under the strongest
/// bin. Derivation in docs/method. Nothing of the program asks for it yet: it waits for <c>plan</c>, the search for a free channel.
/// </remarks>
public sealed class SpectralForecast
{
    private readonly double[][] _bins;
    private readonly long _rasterHz;

    private SpectralForecast(double[][] bins, long rasterHz) => (_bins, _rasterHz) = (bins, rasterHz);

    /// <summary>Number of products of each order by bin.</summary>
    /// <param name="frequencyHz">Carriers in hertz, above 0.</param>
    /// <param name="rasterHz">Width of a bin in hertz.</param>
    /// <param name="maxOrder">Highest order, 2 to 9.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>A forecast whose values are numbers of products.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The raster is too fine for the highest frequency: more than 2^25 bins.</exception>
    public static SpectralForecast Count(
        ReadOnlySpan<long> frequencyHz, long rasterHz, int maxOrder, CancellationToken cancellationToken = default)
    {
        double[] ones = new double[frequencyHz.Length];
        Array.Fill(ones, 1);
        return new SpectralForecast(Compute(frequencyHz, ones, rasterHz, maxOrder, false, cancellationToken), rasterHz);
    }

    /// <summary>Power of the products of each order by bin, at the input of a stage, added in power.</summary>
    /// <param name="frequencyHz">Carriers in hertz, above 0.</param>
    /// <param name="levelDbm">Their levels at the stage's input, in dBm.</param>
    /// <param name="intercepts">The stage's intercepts.</param>
    /// <param name="rasterHz">Width of a bin in hertz.</param>
    /// <param name="maxOrder">Highest order, 2 to 9.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>A forecast whose values are milliwatts.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The raster is too fine for the highest frequency: more than 2^25 bins.</exception>
    public static SpectralForecast Power(
        ReadOnlySpan<long> frequencyHz,
        ReadOnlySpan<double> levelDbm,
        Intercepts intercepts,
        long rasterHz,
        int maxOrder,
        CancellationToken cancellationToken = default)
    {
        // Relative to the strongest carrier, so that powers of it stay near 1.
        double strongest = double.NegativeInfinity;
        foreach (double level in levelDbm)
        {
            strongest = Math.Max(strongest, level);
        }

        double[] relative = new double[levelDbm.Length];
        for (int i = 0; i < relative.Length; i++)
        {
            relative[i] = Math.Pow(10, (levelDbm[i] - strongest) / 10);
        }

        double[][] bins = Compute(frequencyHz, relative, rasterHz, maxOrder, true, cancellationToken);
        for (int n = 2; n <= maxOrder; n++)
        {
            double gainDb = (n * strongest) - ((n - 1) * intercepts.Dbm(n)) + MicroDb.ToDecibels(Multinomial.OrderMicroDb(n));
            double gain = Math.Pow(10, gainDb / 10);
            for (int b = 0; b < bins[n].Length; b++)
            {
                bins[n][b] *= gain;
            }
        }

        return new SpectralForecast(bins, rasterHz);
    }

    /// <summary>Value of the bin nearest to a frequency.</summary>
    /// <param name="order">2 to the highest order.</param>
    /// <param name="frequencyHz">Hertz, at least 0.</param>
    /// <returns>Products, or milliwatts; 0 beyond the highest product.</returns>
    public double At(int order, long frequencyHz)
    {
        long bin = (frequencyHz + (_rasterHz / 2)) / _rasterHz;
        // What is 0 comes out as a rounding error of either sign.
        return bin < _bins[order].Length ? Math.Max(0, _bins[order][bin]) : 0;
    }

    /// <summary>Sum over all frequencies within a distance, bins at the ends taken in part.</summary>
    /// <param name="order">2 to the highest order.</param>
    /// <param name="frequencyHz">Centre in hertz.</param>
    /// <param name="halfWidthHz">Distance to either side in hertz: (B + n b) / 2 for a raster B and carriers of width b.</param>
    /// <returns>Products, or milliwatts.</returns>
    public double Within(int order, long frequencyHz, double halfWidthHz)
    {
        double low = ((frequencyHz - halfWidthHz) / _rasterHz) + 0.5;
        double high = ((frequencyHz + halfWidthHz) / _rasterHz) + 0.5;
        double[] bins = _bins[order];
        double sum = 0;
        for (int b = Math.Max(0, (int)Math.Floor(low)); b < bins.Length && b < high; b++)
        {
            sum += bins[b] * (Math.Min(high, b + 1) - Math.Max(low, b));
        }

        return Math.Max(0, sum);
    }

    private static double[][] Compute(
        ReadOnlySpan<long> frequencyHz, double[] power, long rasterHz, int maxOrder, bool factorials, CancellationToken cancel)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rasterHz, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(maxOrder, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(maxOrder, Multinomial.MaxOrder);
        long highest = 0;
        foreach (long f in frequencyHz)
        {
            highest = Math.Max(highest, (f + (rasterHz / 2)) / rasterHz);
        }

        // Bins must not wrap: more than twice the highest product's, for negative frequencies are there too.
        ArgumentOutOfRangeException.ThrowIfGreaterThan((2 * maxOrder * highest) + 1, 1L << 25, nameof(rasterHz));
        int length = (int)BitOperations.RoundUpToPowerOf2((uint)((2 * maxOrder * highest) + 1));
        double[][] carriers = Carriers(frequencyHz, power, rasterHz, maxOrder, length, factorials, cancel);
        double[][] series = LogarithmSeries(maxOrder, factorials);

        // Coefficients of z^n by angle, first of the logarithm, then of the product itself; both are even, so half the angles do.
        double[][] spectrum = new double[maxOrder + 1][];
        for (int n = 2; n <= maxOrder; n++)
        {
            spectrum[n] = new double[(length / 2) + 1];
        }

        Span<double> log = stackalloc double[Multinomial.MaxOrder + 1];
        Span<double> product = stackalloc double[Multinomial.MaxOrder + 1];
        product[0] = 1;
        int mask = length - 1;
        for (int angle = 0; angle <= length / 2; angle++)
        {
            if ((angle & 0xffff) == 0)
            {
                cancel.ThrowIfCancellationRequested();
            }

            for (int n = 1; n <= maxOrder; n++)
            {
                double[] transform = carriers[factorials ? n : 1];
                double sum = 0;
                for (int h = n; h >= 0; h -= 2)
                {
                    sum += series[n][h] * transform[(int)((long)h * angle & mask)];
                }

                log[n] = sum;
                double total = 0;
                for (int j = 1; j <= n; j++)
                {
                    total += j * log[j] * product[n - j];
                }

                product[n] = total / n;
                if (n >= 2)
                {
                    spectrum[n][angle] = product[n];
                }
            }
        }

        return Back(spectrum, maxOrder, length, highest, cancel);
    }

    /// <summary>
    /// Real parts of the transforms of the carriers' powers 1 to n, at all angles; two at a time, one as the imaginary part.
    /// </summary>
    private static double[][] Carriers(
        ReadOnlySpan<long> frequencyHz, double[] power, long rasterHz, int maxOrder, int length, bool factorials, CancellationToken cancel)
    {
        double[][] transforms = new double[maxOrder + 1][];
        int last = factorials ? maxOrder : 1;
        for (int n = 1; n <= last; n += 2)
        {
            cancel.ThrowIfCancellationRequested();
            Complex[] data = new Complex[length];
            for (int i = 0; i < frequencyHz.Length; i++)
            {
                // Half at each of +-f: then the transform is real.
                int bin = (int)((frequencyHz[i] + (rasterHz / 2)) / rasterHz);
                Complex value = new(0.5 * Math.Pow(power[i], n), n < last ? 0.5 * Math.Pow(power[i], n + 1) : 0);
                data[bin] += value;
                data[length - bin & length - 1] += value;
            }

            Fourier.Transform(data);
            transforms[n] = Array.ConvertAll(data, static c => c.Real);
            if (n < last)
            {
                transforms[n + 1] = Array.ConvertAll(data, static c => c.Imaginary);
            }
        }

        return transforms;
    }

    private static double[][] Back(double[][] spectrum, int maxOrder, int length, long highest, CancellationToken cancel)
    {
        double[][] bins = new double[maxOrder + 1][];
        for (int n = 2; n <= maxOrder; n += 2)
        {
            cancel.ThrowIfCancellationRequested();
            // Both brought to one size, so that the greater one's rounding does not drown the lesser.
            double first = Greatest(spectrum[n]);
            double second = n < maxOrder ? Greatest(spectrum[n + 1]) : 1;
            Complex[] data = new Complex[length];
            for (int angle = 0; angle <= length / 2; angle++)
            {
                Complex value = new(spectrum[n][angle] / first, n < maxOrder ? spectrum[n + 1][angle] / second : 0);
                data[angle] = value;
                data[length - angle & length - 1] = value;
            }

            Fourier.Transform(data);
            for (int k = n; k <= Math.Min(n + 1, maxOrder); k++)
            {
                bins[k] = new double[(k * highest) + 1];
                for (int b = 0; b < bins[k].Length; b++)
                {
                    bins[k][b] = (k == n ? data[b].Real * first : data[b].Imaginary * second) / length;
                }
            }
        }

        return bins;
    }

    /// <summary>Greatest magnitude, or 1 where all is 0.</summary>
    private static double Greatest(double[] values)
    {
        double greatest = 0;
        foreach (double value in values)
        {
            greatest = Math.Max(greatest, Math.Abs(value));
        }

        return greatest > 0 ? greatest : 1;
    }

    /// <summary>log Q as <c>sum_n y^n sum_h c[n][h] cos(h phi)</c>, by the series of the logarithm on polynomials in e^{j phi}.</summary>
    private static double[][] LogarithmSeries(int maxOrder, bool factorials)
    {
        // q[n] holds the coefficients of e^{j h phi}, h = -n..n at place h + maxOrder.
        int width = (2 * maxOrder) + 1;
        double[][] q = new double[maxOrder + 1][];
        double[][] log = new double[maxOrder + 1][];
        double[][] cosines = new double[maxOrder + 1][];
        for (int n = 0; n <= maxOrder; n++)
        {
            q[n] = new double[width];
            double weight = factorials ? 1 / Math.Pow(Multinomial.Factorial(n), 2) : 1;
            q[n][maxOrder + n] = q[n][maxOrder - n] = weight;
        }

        // n q_n = sum_j j l_j q_{n-j}, solved for l_n with q_0 = 1.
        for (int n = 1; n <= maxOrder; n++)
        {
            log[n] = [.. q[n]];
            for (int j = 1; j < n; j++)
            {
                for (int h = -j; h <= j; h++)
                {
                    for (int g = -(n - j); g <= n - j; g++)
                    {
                        log[n][maxOrder + h + g] -= (double)j / n * log[j][maxOrder + h] * q[n - j][maxOrder + g];
                    }
                }
            }

            cosines[n] = new double[maxOrder + 1];
            for (int h = 0; h <= n; h++)
            {
                cosines[n][h] = h == 0 ? log[n][maxOrder] : 2 * log[n][maxOrder + h];
            }
        }

        return cosines;
    }
}
