using Spurless.Signals.Dsp;

namespace Spurless.Signals.Tests.Dsp;

/// <summary>Sums over spans against plain loops in double precision.</summary>
public sealed class KernelsTests
{
    /// <summary>Every length round the vectors' own, and long ones: eight partial sums leave no value out and take none twice.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    [InlineData(15)]
    [InlineData(16)]
    [InlineData(193)]
    [InlineData(4_097)]
    public void Dot_isTheSumOfProducts(int count)
    {
        float[] a = Plain.Noise(count, 1 + count);
        float[] b = Plain.Noise(count, 2 + count);
        double plain = a.Zip(b).Sum(static p => (double)p.First * p.Second);
        Assert.Equal(plain, Kernels.Dot(a, b), 1e-5 * Math.Sqrt(count + 1.0));
        Assert.Equal(Kernels.Dot(a, b), Kernels.Dot(b, a));
    }

    /// <summary>One place alone counts, wherever it is.</summary>
    [Fact]
    public void Dot_ofAUnit_isTheValueThere()
    {
        float[] a = Plain.Noise(37, 5);
        for (int k = 0; k < a.Length; k++)
        {
            float[] unit = new float[a.Length];
            unit[k] = 1;
            Assert.Equal(a[k], Kernels.Dot(a, unit));
        }
    }

    [Fact]
    public void Power_isTheMeanSquare()
    {
        float[] x = Plain.Noise(1_001, 3, 0.3);
        Assert.Equal(Plain.Power(x), Kernels.Power(x), 1e-6);
        Assert.Equal(0, Kernels.Power([]));
        Assert.Equal(0.5, Kernels.Power(Plain.Sine(1_000, 48_000, 48_000)), 1e-5);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(64)]
    public void MovingMean_isTheMeanOfTheLast(int length)
    {
        float[] x = Plain.Noise(500, 4);
        float[] y = Kernels.MovingMean(x, length);
        for (int n = 0; n < x.Length; n++)
        {
            double sum = 0;
            for (int k = Math.Max(0, n - length + 1); k <= n; k++)
            {
                sum += x[k];
            }

            Assert.Equal(sum / length, y[n], 1e-5);
        }
    }

    /// <summary>A keyed signal between two levels: the middle is half of their sum whatever the share of ones, the spread half of their
    /// distance.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    public void MidLevel_ofTwoLevels_isTheirMiddle(double shareOfOnes)
    {
        Random random = new(6);
        float[] x = [.. Enumerable.Range(0, 5_000).SelectMany(_ => Enumerable.Repeat(random.NextDouble() < shareOfOnes ? 0.7f : -0.1f, 8))];
        float[] spread = new float[x.Length];
        float[] mid = KeyedLevels.MidLevel(x, 1_600, 400, spread);
        Assert.All(mid, static v => Assert.Equal(0.3f, v, 1e-5f));
        Assert.All(spread, static v => Assert.Equal(0.4f, v, 1e-5f));
    }

    /// <summary>Of Gaussian noise the 10th and 90th percentile lie at 1.2816 rms (tables of the normal law).</summary>
    [Fact]
    public void MidLevel_ofNoise_hasThePercentiles()
    {
        float[] x = Plain.Noise(400_000, 7);
        float[] spread = new float[x.Length];
        float[] mid = KeyedLevels.MidLevel(x, 4_000, 1_000, spread);
        Assert.Equal(0, mid.Average(), 0.02);
        Assert.Equal(1.2816, spread.Average(), 0.08);
    }

    /// <summary>Where it is evaluated, it is what sorting the window's samples gives, to the bit.</summary>
    [Theory]
    [InlineData(20_000, 512, 128, 10)]
    [InlineData(20_000, 512, 128, 100)]
    [InlineData(20_000, 1_600, 400, 10)]
    [InlineData(300, 512, 128, 100)]
    [InlineData(3, 512, 128, 10)]
    [InlineData(1, 64, 16, 100)]
    public void MidLevel_isWhatSortingGives(int count, int window, int step, int tail)
    {
        float[] x = [.. Plain.Noise(count, 11 + count).Select(static (v, n) => n % 7 == 0 ? MathF.Round(v) : v)];
        float[] spread = new float[count];
        float[] mid = KeyedLevels.MidLevel(x, window, step, spread, tail);
        int stride = Math.Max(1, Math.Min(window, count) / (tail > 10 ? 400 : 120) | 1);
        for (int n = 0; n < count; n += step)
        {
            int from = Math.Clamp(n - window / 2, 0, Math.Max(0, count - window));
            float[] part = [.. x[from..Math.Min(count, from + window)].Where((_, k) => k % stride == 0).Order()];
            float low = part[part.Length / tail], high = part[Math.Min(part.Length - 1, part.Length * (tail - 1) / tail)];
            Assert.Equal((low + high) / 2, mid[n]);
            Assert.Equal((high - low) / 2, spread[n]);
        }
    }

    /// <summary>A gain and an offset of the signal are those of its middle; of the spread the gain alone.</summary>
    [Fact]
    public void MidLevel_followsGainAndOffset()
    {
        float[] x = Plain.Noise(20_000, 8);
        float[] y = [.. x.Select(static v => 4 * v + 2)];
        (float[] sx, float[] sy) = (new float[x.Length], new float[x.Length]);
        float[] mx = KeyedLevels.MidLevel(x, 512, 128, sx);
        float[] my = KeyedLevels.MidLevel(y, 512, 128, sy);
        for (int n = 0; n < x.Length; n++)
        {
            Assert.Equal(4 * mx[n] + 2, my[n], 1e-4);
            Assert.Equal(4 * sx[n], sy[n], 1e-4);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(5)]
    public void MidLevel_ofLittle_doesNotFail(int count) => Assert.Equal(count, KeyedLevels.MidLevel(new float[count], 512, 128).Length);
}
