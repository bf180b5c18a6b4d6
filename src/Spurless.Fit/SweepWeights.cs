namespace Spurless.Fit;

/// <summary>
/// Gives every point of a sweep its weight, from the sweep's own noise, and leaves out what lies in the instrument's floor.
/// </summary>
internal static class SweepWeights
{
    private const double LeastSigma = 2e-6;
    private const double LeastSigmaDb = 1e-3;
    private const int Window = 9;
    private const double OverFloor = 4;

    /// <summary>Weights from the noise of the trace itself, or of what a fit has left of it.</summary>
    /// <param name="data">Takes the weights; a point with weight 0 keeps it.</param>
    /// <param name="residuals">Unweighted residuals per trace (model less measured); null to look at the trace itself.</param>
    /// <returns>The noise of each trace.</returns>
    public static TraceNoise[] Set(FitData data, (double[] Re, double[] Im)[]? residuals)
    {
        TraceNoise[] noise = new TraceNoise[data.Parameters.Length];
        double[] growth = new double[data.Points];
        bool[] used = new bool[data.Points];
        for (int t = 0; t < noise.Length; t++)
        {
            (double[] re, double[] im) = residuals?[t] ?? (data.Real[t], data.Imaginary[t]);
            for (int i = 0; i < data.Points; i++)
            {
                growth[i] = Growth(data, t, i);
                used[i] = data.Weight[t][i] > 0;
            }

            TraceNoise found = noise[t] = NoiseEstimate.Of(
                data.FrequenciesHz, re.AsSpan(0, data.Points), im.AsSpan(0, data.Points), growth, used);
            for (int i = 0; i < data.Points; i++)
            {
                double variance = found.Floor + (found.Share * growth[i]);
                double sigma = data.Magnitude[t]
                    ? Math.Max(LeastSigmaDb, Math.Sqrt(variance))
                    : Math.Max(LeastSigma, Math.Sqrt(variance / 2));
                data.Weight[t][i] = used[i] ? 1 / sigma : 0;
            }
        }

        return noise;
    }

    /// <summary>
    /// Leaves out the points of a transmission that lie in the floor: over nine points less than 6 dB above the noise there.
    /// </summary>
    /// <param name="data">The sweep, weighted by <see cref="Set"/>.</param>
    /// <param name="noise">Its noise.</param>
    /// <returns>Points left out, per trace.</returns>
    public static int[] LeaveOutFloor(FitData data, TraceNoise[] noise)
    {
        int[] left = new int[data.Parameters.Length];
        for (int t = 0; t < left.Length; t++)
        {
            if (data.Parameters[t] is SweepParameter.S11 or SweepParameter.S22)
            {
                continue;
            }

            bool[] inFloor = new bool[data.Points];
            for (int i = 0; i < data.Points; i++)
            {
                (int first, int last) = (Math.Max(0, i - (Window / 2)), Math.Min(data.Points - 1, i + (Window / 2)));
                inFloor[i] = data.Magnitude[t]
                    ? Scatter(data.Real[t], first, last) > 3
                    : Power(data, t, first, last) < OverFloor * noise[t].Floor;
            }

            for (int i = 0; i < data.Points; i++)
            {
                if (inFloor[i])
                {
                    data.Weight[t][i] = 0;
                    left[t]++;
                }
            }
        }

        return left;
    }

    private static double Growth(FitData data, int t, int i) => data.Magnitude[t]
        ? Math.Pow(10, -data.Real[t][i] / 10)
        : (data.Real[t][i] * data.Real[t][i]) + (data.Imaginary[t][i] * data.Imaginary[t][i]);

    private static double Power(FitData data, int t, int first, int last)
    {
        double sum = 0;
        for (int i = first; i <= last; i++)
        {
            sum += Growth(data, t, i);
        }

        return sum / (last - first + 1);
    }

    // Rms second difference in dB, scaled to that of a single point: noise as strong as the signal makes some 5.6 dB.
    private static double Scatter(double[] decibels, int first, int last)
    {
        double sum = 0;
        int count = 0;
        for (int i = first; i + 2 <= last; i++, count++)
        {
            double d = decibels[i] - (2 * decibels[i + 1]) + decibels[i + 2];
            sum += d * d / 6;
        }

        return count == 0 ? 0 : Math.Sqrt(sum / count);
    }
}
