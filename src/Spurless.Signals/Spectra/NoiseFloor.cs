namespace Spurless.Signals.Spectra;

/// <summary>The noise under a spectrum: a running low quantile of the readings, raised to the mean by the detector's law.</summary>
public sealed class NoiseFloor
{
    private const double TenthDeviate = -1.281552;
    private const int MostRows = 64;

    private NoiseFloor(double[] milliwatts, DetectorLaw law) => (Milliwatts, Law) = (milliwatts, law);

    /// <summary>Mean noise power of each bin in milliwatts.</summary>
    public double[] Milliwatts { get; }

    /// <summary>The law of one reading.</summary>
    public DetectorLaw Law { get; }

    /// <summary>Mean over all bins in dBm.</summary>
    public double MeanDbm => 10 * Math.Log10(Milliwatts.Average());

    /// <summary>Finds the noise of readings.</summary>
    /// <param name="rows">Rows of powers in milliwatts.</param>
    /// <returns>The floor. It holds where at least a tenth of a window of a quarter of the band (200 to 2,000 bins) is free of
    /// signals.</returns>
    public static NoiseFloor Of(IReadOnlyList<double[]> rows)
    {
        int bins = rows[0].Length;
        int window = Math.Min(bins, Math.Clamp(bins / 4, 200, 2_000));
        int step = Math.Max(1, window / 4);
        int every = Math.Max(1, rows.Count / MostRows);
        List<(double At, double Tenth)> points = [];
        List<double> ratios = [];
        double[] values = new double[window * ((rows.Count + every - 1) / every)];
        for (int from = 0; ; from += step)
        {
            from = Math.Min(from, bins - window);
            int count = 0;
            for (int r = 0; r < rows.Count; r += every)
            {
                rows[r].AsSpan(from, window).CopyTo(values.AsSpan(count));
                count += window;
            }

            Array.Sort(values, 0, count);
            double tenth = values[count / 10];
            points.Add((from + (window / 2.0), tenth));
            ratios.Add(values[count * 4 / 10] / Math.Max(tenth, double.Epsilon));
            if (from == bins - window)
            {
                break;
            }
        }

        // Where signals fill a window the ratio is wide: the quietest windows tell the detector.
        ratios.Sort();
        DetectorLaw law = DetectorLaw.FromSpread(1, ratios[ratios.Count / 4]);
        double raise = 1 / law.Quantile(TenthDeviate);
        double[] floor = new double[bins];
        for (int i = 0, k = 0; i < bins; i++)
        {
            while (k + 1 < points.Count - 1 && points[k + 1].At < i)
            {
                k++;
            }

            (double at, double value) = points[k];
            (double next, double then) = points[Math.Min(k + 1, points.Count - 1)];
            double share = next > at ? Math.Clamp((i - at) / (next - at), 0, 1) : 0;
            floor[i] = raise * Math.Exp(((1 - share) * Math.Log(value)) + (share * Math.Log(then)));
        }

        return new NoiseFloor(floor, law);
    }
}
