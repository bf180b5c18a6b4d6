using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition;

/// <summary>Plain figures of a place: how wide it is, and its strongest lines.</summary>
internal static class Occupied
{
    private const int Size = 4_096;

    /// <summary>The width that holds 99 % of the power, in hertz.</summary>
    public static double Width(Stretch stretch, Span span)
    {
        float[] power = Mean(stretch, span);
        double total = power.Sum(static p => (double)p);
        double sum = 0;
        int low = 0;
        int high = power.Length - 1;
        for (int b = 0; b < power.Length; b++)
        {
            sum += power[b];
            if (sum < 0.005 * total)
            {
                low = b;
            }

            if (sum < 0.995 * total)
            {
                high = b;
            }
        }

        return (high - low + 1) * (double)Stretch.WideRate / Size;
    }

    /// <summary>The strongest lines, in hertz, at most four, strongest first.</summary>
    public static IReadOnlyList<double> Lines(Stretch stretch, Span span)
    {
        float[] power = Mean(stretch, span);
        float[] sorted = [.. power.Order()];
        float floor = sorted[sorted.Length / 2];
        double perBin = (double)Stretch.WideRate / Size;
        return
        [
            .. Enumerable.Range(4, power.Length - 6)
                .Where(b => power[b] > 30 * floor && power[b] > power[b - 1] && power[b] >= power[b + 1])
                .OrderByDescending(b => power[b]).Take(4).Select(b => Math.Round(b * perBin)),
        ];
    }

    private static float[] Mean(Stretch stretch, Span span)
    {
        PowerSpectrum spectrum = new(Size, Size);
        float[] power = new float[Size / 2];
        float[] sum = new float[Size / 2];
        int from = Math.Max(0, (int)(span.FromS * Stretch.WideRate));
        int to = Math.Min(stretch.Wide.Length, (int)(span.ToS * Stretch.WideRate));
        for (int at = from; at + Size <= to; at += Size)
        {
            spectrum.OfReal(stretch.Wide.AsSpan(at, Size), power);
            for (int b = 0; b < sum.Length; b++)
            {
                sum[b] += power[b];
            }
        }

        return sum;
    }
}
