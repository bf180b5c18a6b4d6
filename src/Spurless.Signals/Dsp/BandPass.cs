using Spurless.Signals.Recognition;

namespace Spurless.Signals.Dsp;

/// <summary>The band of speech, 300 to 3,400 Hz, by a windowed sinc of linear phase whose delay is taken out.</summary>
internal static class BandPass
{
    private const int Half = 96;
    private static readonly float[] _speech = Design(300, 3_400, Stretch.NarrowRate, Half);

    /// <summary>The speech band of audio at 12 kHz.</summary>
    public static float[] Speech(ReadOnlySpan<float> x) => Apply(x, _speech);

    /// <summary>A windowed sinc of 2 x half + 1 taps.</summary>
    public static float[] Design(double lowHz, double highHz, double rateHz, int half)
    {
        float[] h = new float[2 * half + 1];
        for (int k = -half; k <= half; k++)
        {
            double window = 0.54 + 0.46 * Math.Cos(Math.PI * k / (half + 1));
            double high = k == 0 ? 2 * highHz / rateHz : Math.Sin(2 * Math.PI * highHz * k / rateHz) / (Math.PI * k);
            double low = k == 0 ? 2 * lowHz / rateHz : Math.Sin(2 * Math.PI * lowHz * k / rateHz) / (Math.PI * k);
            h[k + half] = (float)(window * (high - low));
        }

        return h;
    }

    /// <summary>Filters with a symmetric filter of odd length, without delay; beyond its ends the signal counts as 0.</summary>
    public static float[] Apply(ReadOnlySpan<float> x, ReadOnlySpan<float> h)
    {
        float[] y = GC.AllocateUninitializedArray<float>(x.Length);
        Apply(x, h, y);
        return y;
    }

    /// <summary>The same, into an array that is there.</summary>
    public static void Apply(ReadOnlySpan<float> x, ReadOnlySpan<float> h, Span<float> y)
    {
        int half = h.Length / 2;
        y = y[..x.Length];
        if (x.Length <= 4 * half)
        {
            Padded(half, x, half, h, y);
            return;
        }

        // Zeros are put beside the ends alone; what lies between is taken as it stands.
        Padded(half, x[..(2 * half)], 0, h, y[..half]);
        Kernels.Slide(x, h, y[half..^half]);
        Padded(0, x[^(2 * half)..], half, h, y[^half..]);
    }

    /// <summary>Filters with zeros before and behind.</summary>
    private static void Padded(int before, ReadOnlySpan<float> x, int behind, ReadOnlySpan<float> h, Span<float> y)
    {
        using Rented padded = new(before + x.Length + behind);
        padded.Span[..before].Clear();
        x.CopyTo(padded.Span[before..]);
        padded.Span[(before + x.Length)..].Clear();
        Kernels.Slide(padded.Span, h, y);
    }
}
