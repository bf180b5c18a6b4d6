using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Keying;

/// <summary>The rates at which a keyed signal may change: the lines in the spectrum of its squared slope.</summary>
internal static class SymbolRates
{
    private const int Coarse = 1 << 15;
    private const int Fine = 1 << 18;
    private const int Most = 4;
    private const int FloorBins = 256;
    private const double LeastOver = 25;
    private const double LowestBd = 45;
    private const double HighestBd = 11_000;

    /// <summary>Two rates nearer than this are one.</summary>
    private const double OneRate = 0.002;

    /// <summary>
    /// The likely rates, the likeliest first: by spectra of 0.7 s together, and of some seconds by one over all, in which a steady clock
    /// stands out more.
    /// </summary>
    /// <param name="x">The signal behind a low-pass.</param>
    /// <param name="sampleRate">Its samples a second.</param>
    /// <param name="cut">Corner of the low-pass, in hertz.</param>
    /// <param name="hole">Which samples a fade took; null for none.</param>
    public static List<double> Find(float[] x, double sampleRate, double cut, bool[]? hole)
    {
        float[] slope = Slope(x, cut > 5_000 ? 2 : cut > 2_000 ? 5 : 10, hole);
        double highest = Math.Min(2 * cut, HighestBd);
        List<double> rates = Lines(slope, Math.Min(Coarse, slope.Length), Coarse, sampleRate, highest);
        if (slope.Length < 3 * Coarse)
        {
            return rates;
        }

        List<double> steady = Lines(slope, Math.Min(Fine, slope.Length), Fine, sampleRate, highest);
        return [.. steady, .. rates.Where(r => !steady.Exists(s => Math.Abs(s / r - 1) < OneRate))];
    }

    private static float[] Slope(float[] x, int step, bool[]? hole)
    {
        float[] slope = new float[x.Length];
        double mean = 0;
        int held = 0;
        for (int n = step; n < x.Length; n++)
        {
            float d = x[n] - x[n - step];
            slope[n] = d * d;
            mean += hole?[n] == true ? 0 : slope[n];
            held += hole?[n] == true ? 0 : 1;
        }

        mean /= Math.Max(1, held);
        for (int n = 0; n < slope.Length; n++)
        {
            slope[n] = hole?[n] == true ? 0 : slope[n] - (float)mean;
        }

        return slope;
    }

    /// <summary>The strongest lines, strongest first.</summary>
    private static List<double> Lines(float[] slope, int length, int size, double sampleRate, double highest)
    {
        PowerSpectrum spectrum = new(size, length);
        float[] power = new float[size / 2];
        float[] sum = new float[size / 2];
        for (int at = 0; at + length <= slope.Length; at += length)
        {
            spectrum.OfReal(slope.AsSpan(at, length), power);
            for (int b = 0; b < sum.Length; b++)
            {
                sum[b] += power[b];
            }
        }

        double perBin = sampleRate / size;
        float[] floors = size > Coarse ? Floors(sum) : [];
        float[] sorted = new float[400];
        List<(double Hz, double Over)> lines = [];
        double strong = 0;
        for (int b = (int)(LowestBd / perBin); b < (int)(highest / perBin); b++)
        {
            if (sum[b] > sum[b - 1] && sum[b] >= sum[b + 1] && sum[b] >= 0.005 * strong
                && sum[b] > LeastOver * (floors.Length > 0 ? floors[b / FloorBins] : Floor(sum, b, sorted)))
            {
                double a = Math.Log(sum[b - 1] + 1e-20);
                double m = Math.Log(sum[b] + 1e-20);
                double c = Math.Log(sum[b + 1] + 1e-20);
                lines.Add(((b + 0.5 * (a - c) / (a - 2 * m + c)) * perBin, sum[b]));
                strong = Math.Max(strong, sum[b]);
            }
        }

        return Ordered(lines);
    }

    /// <summary>
    /// Sharp changes have lines at multiples of the rate too: the lowest that the strongest one is a multiple of is the rate.
    /// </summary>
    private static List<double> Ordered(List<(double Hz, double Over)> lines)
    {
        List<(double Hz, double Over)> strongest = [.. lines.OrderByDescending(static l => l.Over).Take(Most)];
        if (strongest.Count == 0)
        {
            return [];
        }

        double top = strongest[0].Hz;
        double lowest = lines.Where(l => l.Over > 0.01 * strongest[0].Over
            && Math.Abs(top / l.Hz - Math.Round(top / l.Hz)) < 0.004 * (top / l.Hz))
            .Select(static l => l.Hz).Min();
        return lowest < 0.9 * top ? [lowest] : [.. strongest.Select(static l => l.Hz)];
    }

    /// <summary>The median round a bin.</summary>
    private static float Floor(float[] sum, int b, float[] sorted)
    {
        int side = Math.Clamp(b / 4, 12, 200);
        Span<float> near = sorted.AsSpan(0, Math.Min(400, 2 * side));
        sum.AsSpan(b - side, near.Length).CopyTo(near);
        return Kernels.Nth(near, near.Length / 2) + 1e-20f;
    }

    /// <summary>The median of each part of a spectrum.</summary>
    private static float[] Floors(float[] sum)
    {
        float[] floors = new float[sum.Length / FloorBins];
        float[] part = new float[FloorBins];
        for (int k = 0; k < floors.Length; k++)
        {
            sum.AsSpan(k * FloorBins, FloorBins).CopyTo(part);
            floors[k] = Kernels.Nth(part, FloorBins / 2) + 1e-20f;
        }

        return floors;
    }
}
