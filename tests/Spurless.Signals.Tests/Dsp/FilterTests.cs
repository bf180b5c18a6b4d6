using Spurless.Signals.Dsp;

namespace Spurless.Signals.Tests.Dsp;

/// <summary>Filters and changes of rate against sums by the definition and sines at the moments where they are.</summary>
public sealed class FilterTests
{
    /// <summary>Flat in the pass band, down outside, as the sum of its taps gives it; symmetric, so that it delays nothing.</summary>
    [Theory]
    [InlineData(300, 3_400, 12_000, 96)]
    [InlineData(0, 5_000, 48_000, 40)]
    [InlineData(4_500, 12_000, 48_000, 24)]
    public void Design_passesItsBand(double low, double high, double rate, int half)
    {
        float[] taps = BandPass.Design(low, high, rate, half);
        Assert.Equal(2 * half + 1, taps.Length);
        Assert.Equal(taps, taps.Reverse());

        // A Hamming window's edge is 3.3 bins of its length wide (Harris 1978, from memory): 1.65 to either side.
        double edge = 1.75 * rate / (2 * half + 1);
        for (double hz = 0; hz < rate / 2; hz += rate / 400)
        {
            double db = 2 * Plain.Db(Plain.Response(taps, hz, rate).Magnitude + 1e-9);
            if (hz > low + edge && hz < high - edge || low == 0 && hz < high - edge)
            {
                Assert.InRange(db, -0.1, 0.1);
            }
            else if (hz < low - edge || hz > high + edge)
            {
                Assert.True(db < -48, $"{hz} Hz: {db} dB");
            }
        }
    }

    [Fact]
    public void Apply_isThePlainConvolution()
    {
        float[] x = Plain.Noise(600, 1);
        float[] taps = BandPass.Design(300, 3_400, 12_000, 30);
        double[] plain = Plain.Convolved(x, taps);
        float[] y = BandPass.Apply(x, taps);
        for (int n = 0; n < x.Length; n++)
        {
            Assert.Equal(plain[n], y[n], 1e-5);
        }
    }

    /// <summary>A sine under 0.40 of the lower rate is the same sine at the same moments at the other rate, within -50 dB.</summary>
    [Theory]
    [InlineData(48_000, 12_000)]
    [InlineData(12_000, 1_000)]
    [InlineData(8_000, 48_000)]
    [InlineData(11_025, 48_000)]
    [InlineData(44_100, 48_000)]
    [InlineData(48_000, 1_075.2)]
    [InlineData(37_499.5, 48_000)]
    public void Convert_aSine_keepsItsMoments(double from, double to)
    {
        double lower = Math.Min(from, to);
        foreach (double share in (double[])[0.05, 0.21, 0.38])
        {
            double hz = share * lower;
            float[] y = Resampler.Convert(Plain.Sine(hz, from, (int)from, 0.8, 0.3), from, to);
            Assert.InRange(y.Length, to - 2, to + 2);
            int edge = (int)(20 * to / lower) + 20;
            double off = 0;
            for (int n = edge; n < y.Length - edge; n++)
            {
                off = Math.Max(off, Math.Abs(y[n] - 0.8 * Math.Sin(0.3 + 2 * Math.PI * hz * n / to)));
            }

            Assert.True(off < 0.8 * 0.012, $"{hz} Hz from {from} to {to}: off by {off}");
        }
    }

    /// <summary>From 0.52 of the lower rate on what would fold back is 60 dB down.</summary>
    [Theory]
    [InlineData(48_000, 12_000)]
    [InlineData(12_000, 1_000)]
    public void Convert_beyondTheLowerRate_isStopped(double from, double to)
    {
        foreach (double share in (double[])[0.53, 0.7, 0.95, 1.3])
        {
            float[] y = Resampler.Convert(Plain.Sine(share * to, from, (int)from), from, to);
            int edge = y.Length / 8;
            Assert.True(Plain.Db(Plain.Power(y[edge..^edge]) / 0.5) < -58, $"{share}: {Plain.Db(Plain.Power(y[edge..^edge]) / 0.5)} dB");
        }
    }

    /// <summary>A sum of signals becomes the sum of what each becomes, and a gain stays the gain.</summary>
    [Fact]
    public void Convert_isLinear()
    {
        float[] a = Plain.Noise(4_000, 2);
        float[] b = Plain.Noise(4_000, 3);
        float[] both = Resampler.Convert([.. a.Zip(b, static (u, v) => 2 * u - 0.5f * v)], 44_100, 12_000);
        float[] ra = Resampler.Convert(a, 44_100, 12_000);
        float[] rb = Resampler.Convert(b, 44_100, 12_000);
        for (int n = 0; n < both.Length; n++)
        {
            Assert.Equal(2 * ra[n] - 0.5f * rb[n], both[n], 1e-4);
        }
    }

    /// <summary>A shift by the period of the ratio is a shift of the result: nothing depends on where a signal stands.</summary>
    [Fact]
    public void Convert_shifted_isTheShiftedResult()
    {
        float[] x = Plain.Noise(6_000, 4);
        float[] plain = Resampler.Convert(x, 44_100, 48_000);
        float[] shifted = Resampler.Convert([.. new float[147], .. x], 44_100, 48_000);
        for (int n = 200; n < 5_000; n++)
        {
            Assert.Equal(plain[n], shifted[n + 160], 1e-6);
        }
    }

    [Fact]
    public void Convert_toTheSameRate_isTheSame()
    {
        float[] x = Plain.Noise(100, 5);
        Assert.Equal(x, Resampler.Convert(x, 48_000, 48_000));
        Assert.Empty(Resampler.Convert([], 48_000, 12_000));
    }
}
