using System.Numerics;
using Spurless.Signals.Dsp;

namespace Spurless.Signals.Tests.Dsp;

/// <summary>The transform against the discrete Fourier transform by its sum, and by what is known of single values.</summary>
public sealed class FastTransformTests
{
    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(64)]
    [InlineData(128)]
    [InlineData(512)]
    [InlineData(1_024)]
    public void Forward_isThePlainTransform(int size)
    {
        float[] re = Plain.Noise(size, size);
        float[] im = Plain.Noise(size, size + 1);
        Complex[] plain = Plain.Dft([.. re.Zip(im, static (a, b) => new Complex(a, b))], size);
        FastTransform transform = new(size);
        transform.Forward(re, im);
        for (int k = 0; k < size; k++)
        {
            Assert.Equal(plain[k].Real, re[k], 3e-6 * size);
            Assert.Equal(plain[k].Imaginary, im[k], 3e-6 * size);
        }
    }

    /// <summary>
    /// One value alone turns by its place from bin to bin, <c>e^{-j 2 pi m t / M}</c>: at lengths that no plain sum could be asked of.
    /// </summary>
    [Theory]
    [InlineData(65_536, 1)]
    [InlineData(65_536, 40_001)]
    [InlineData(131_072, 77_777)]
    [InlineData(262_144, 3)]
    public void Forward_ofOneValue_isARotation(int size, int at)
    {
        float[] re = new float[size];
        float[] im = new float[size];
        re[at] = 1;
        new FastTransform(size).Forward(re, im);
        for (int m = 0; m < size; m += 97)
        {
            (double sin, double cos) = Math.SinCos(-2 * Math.PI * ((long)m * at % size) / size);
            Assert.Equal(cos, re[m], 1e-6);
            Assert.Equal(sin, im[m], 1e-6);
        }
    }

    /// <summary>Values taken apart are those that were put side by side, whatever their number.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(29)]
    public void Split_isEachSecondValue(int count)
    {
        float[] pairs = Plain.Noise(2 * count, count);
        float[] re = new float[count];
        float[] im = new float[count];
        Pairs.Split(pairs, re, im);
        Assert.Equal(pairs.Where(static (_, n) => n % 2 == 0), re);
        Assert.Equal(pairs.Where(static (_, n) => n % 2 == 1), im);
    }

    /// <summary>Moments of parts put together are those of the whole, by the definition in double precision.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(300)]
    public void Moments_ofParts_areThoseOfTheWhole(double offset)
    {
        float[] x = [.. Plain.Noise(1_003, 9).Select((v, n) => (float)(offset + v * (n % 5)))];
        double mean = x.Average(static v => (double)v);
        double second = x.Sum(v => Math.Pow(v - mean, 2)), fourth = x.Sum(v => Math.Pow(v - mean, 4));
        foreach (int cut in (int[])[0, 1, 17, 500, 1_003])
        {
            Moments both = Moments.Of(x.AsSpan(0, cut)) + Moments.Of(x.AsSpan(cut));
            Assert.Equal(x.Length, both.Count);
            Assert.Equal(x.Length * fourth / (second * second), both.Kurtosis, 1e-9);
        }
    }

    /// <summary>What stands at a place is what sorting puts there, with equal values too.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(32)]
    [InlineData(513)]
    public void Nth_isWhatSortingGives(int count)
    {
        float[] x = [.. Plain.Noise(count, 3 + count).Select(static (v, n) => n % 3 == 0 ? MathF.Round(v) : v)];
        float[] sorted = [.. x.Order()];
        for (int place = 0; place < count; place += 1 + count / 40)
        {
            Assert.Equal(sorted[place], Kernels.Nth([.. x], place));
        }
    }
}
