namespace Spurless.Fit;

/// <summary>
/// Counts what a fit leaves beyond noise as an error of the model. Such an error is alike over a stretch of the sweep, so that neighbouring
/// points are
/// not so many witnesses: what neighbours have in common is its variance, and that is multiplied by the number of points over which it
/// stays alike, before it is added to the noise's.
/// </summary>
/// <remarks>
/// Variance: the residual's autocovariance at one point's distance, in which noise and single wild points drop out. Length: <c>1 + 2 sum
/// rho_k</c> up to the
/// first rho_k under 0.05, rho the autocovariance over that at one point. The fit has
/// taken part of the error into its values: the variance is divided by the share of the independent stretches that the values leave free,
/// at least a quarter.
/// </remarks>
internal static class ModelError
{
    private const double CountsFrom = 1.2;
    private const double LeastFree = 0.25;

    /// <summary>
    /// What each S-parameter has left over beyond noise and wild points: rms amplitude, of magnitudes in dB; 0 where it is noise alone.
    /// </summary>
    /// <param name="model">The fit, its data weighted by noise alone.</param>
    /// <param name="x">Where it stands.</param>
    /// <param name="w">Memory.</param>
    public static double[] LeftOver(FitModel model, double[] x, FitWorkspace w)
    {
        (double[] Re, double[] Im)[] residuals = FitFinish.Residuals(model, x, w);
        return [.. residuals.Select((r, t) => Math.Sqrt(Measure(model.Data, t, r.Re, r.Im).Excess))];
    }

    /// <summary>The data with weights that count it.</summary>
    /// <param name="model">The fit, its data weighted by noise alone.</param>
    /// <param name="x">The minimum.</param>
    /// <param name="w">Memory.</param>
    /// <param name="widened">Receives the root of the mean growth of the variance; 1 where nothing is left but noise.</param>
    public static FitData Counted(FitModel model, double[] x, FitWorkspace w, out double widened)
    {
        FitData data = model.Data;
        FitData counted = data.At([.. Enumerable.Range(0, data.Points)]);
        (double[] Re, double[] Im)[] residuals = FitFinish.Residuals(model, x, w);
        int traces = data.Parameters.Length;
        double[] excess = new double[traces], length = new double[traces];
        double stretches = 0;
        for (int t = 0; t < traces; t++)
        {
            (excess[t], length[t], int used) = Measure(data, t, residuals[t].Re, residuals[t].Im);
            stretches += (data.Magnitude[t] ? 1 : 2) * used / length[t];
        }

        double free = Math.Max(LeastFree, 1 - (model.Sought / Math.Max(stretches, 1)));
        double grown = 0;
        int count = 0;
        for (int t = 0; t < traces; t++)
        {
            double added = excess[t] * length[t] / free / (data.Magnitude[t] ? 1 : 2);
            for (int i = 0; i < data.Points; i++)
            {
                if (data.Weight[t][i] > 0)
                {
                    double noise = 1 / (data.Weight[t][i] * data.Weight[t][i]);
                    counted.Weight[t][i] = 1 / Math.Sqrt(noise + added);
                    grown += (noise + added) / noise;
                    count++;
                }
            }
        }

        widened = count == 0 ? 1 : Math.Sqrt(grown / count);
        return counted;
    }

    // Mean square beyond noise, of complex values or of dB, and over how many points it is alike.
    private static (double Excess, double Length, int Used) Measure(FitData data, int t, double[] re, double[] im)
    {
        double power = 0, noise = 0, weighted = 0;
        int used = 0, parts = data.Magnitude[t] ? 1 : 2;
        for (int i = 0; i < data.Points; i++)
        {
            double weight = data.Weight[t][i];
            if (weight > 0)
            {
                // A wild point is no error of the model.
                double square = Math.Min((re[i] * re[i]) + (im[i] * im[i]), 1e4 * parts / (weight * weight));
                power += square;
                noise += parts / (weight * weight);
                weighted += square * weight * weight / parts;
                used++;
            }
        }

        if (used < 8 || !(power > noise) || weighted < CountsFrom * used)
        {
            return (0, 1, used);
        }

        // What is alike from one point to the next is no noise, and no single wild point either.
        double Covariance(int lag)
        {
            double sum = 0;
            int pairs = 0;
            for (int i = 0; i + lag < data.Points; i++)
            {
                double a = data.Weight[t][i], b = data.Weight[t][i + lag];
                if (a > 0 && b > 0)
                {
                    sum += (re[i] * re[i + lag]) + (im[i] * im[i + lag]);
                    pairs++;
                }
            }

            return pairs == 0 ? 0 : sum / pairs;
        }

        double excess = Covariance(1), length = 1;
        if (!(excess > 0))
        {
            return (0, 1, used);
        }

        for (int lag = 1; lag < data.Points / 2; lag++)
        {
            double rho = Covariance(lag) / excess;
            if (rho <= 0.05)
            {
                break;
            }

            length += 2 * Math.Min(rho, 1);
        }

        return (excess, Math.Min(length, used / 2.0), used);
    }
}
