using System.Numerics;
using Spurless.Signals.Listening;
using Spurless.Signals.Tests.Dsp;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// The filter bank against what it stands for: a mixer, a filter and a lower rate. What a rotation becomes is known exactly; what noise
/// becomes follows from the filter's width.
/// </summary>
public sealed class ChanneliserTests
{
    private const double Rate = 240_000;

    /// <summary>A carrier in the pass band: its size, its frequency from the channel's centre, and its phase, without a jump from block
    /// to block.</summary>
    [Theory]
    [InlineData(30_000, 0)]
    [InlineData(30_011.3, 1_234.5)]
    [InlineData(-61_000.7, -4_000)]
    [InlineData(118_000, 700)]
    [InlineData(0, 0.25)]
    public void Take_aCarrierInItsChannel_isAsItWas(double centre, double off)
    {
        (Complex[] y, double rate) = Channel(Rotation(centre + off, 1, 0.5), centre, 5_000, 1_500);
        int skip = 200;
        Complex first = y[skip];
        for (int n = skip; n < y.Length - skip; n++)
        {
            Complex expected = first * Complex.FromPolarCoordinates(1, 2 * Math.PI * off * (n - skip) / rate);
            Assert.True((y[n] - expected).Magnitude < 0.004, $"sample {n}: {y[n]}, not {expected}");
        }

        Assert.Equal(0.5, first.Magnitude, 0.003);
    }

    /// <summary>What begins and ends at a moment of the band does so at that moment of the channel, to half of a sample.</summary>
    [Theory]
    [InlineData(24_000, 900)]
    [InlineData(-50_123, -1_700)]
    public void Take_keepsTheMoment(double centre, double off)
    {
        float[] x = Rotation(centre + off, 1, 1);
        (double fromS, double toS) = (0.2371, 0.7419);
        x.AsSpan(0, 2 * (int)(fromS * Rate)).Clear();
        x.AsSpan(2 * (int)(toS * Rate)).Clear();
        (Complex[] y, double rate) = Channel(x, centre, 5_000, 1_500);
        Assert.Equal(fromS * rate, Array.FindIndex(y, static v => v.Magnitude > 0.5) - 0.5, 0.6);
        Assert.Equal(toS * rate, Array.FindLastIndex(y, static v => v.Magnitude > 0.5) + 0.5, 0.6);
    }

    [Theory]
    [InlineData(9_000)]
    [InlineData(-9_000)]
    [InlineData(40_000)]
    [InlineData(-90_000)]
    public void Take_aCarrierOutsideIt_isStopped(double off)
    {
        (Complex[] y, _) = Channel(Rotation(20_000 + off, 1, 1), 20_000, 5_000, 1_500);
        Assert.True(Plain.Db(y[200..^200].Average(static v => v.Magnitude * v.Magnitude)) < -55);
    }

    /// <summary>White noise of power p a hertz: p times the filter's noise width, pass band and three quarters of both edges (the mean of
    /// the raised cosine's square is 3/8).</summary>
    [Fact]
    public void Take_noise_hasThePowerOfItsWidth()
    {
        const double Half = 6_000;
        const double Edge = 2_000;
        float[] pairs = Plain.Noise(2 * 480_000, 3, Math.Sqrt(0.5));
        (Complex[] y, _) = Channel(pairs, -33_000, Half, Edge);
        double width = 2 * Half + 2 * Edge * 3 / 8;
        Assert.Equal(width / Rate, y[200..^200].Average(static v => v.Magnitude * v.Magnitude), 0.04 * width / Rate);
    }

    /// <summary>Two emitters in one channel are the sum of what each is alone.</summary>
    [Fact]
    public void Take_isLinear()
    {
        float[] a = Rotation(10_500, 0.5, 0.3);
        float[] b = Plain.Noise(a.Length, 4, 0.1);
        (Complex[] ya, _) = Channel(a, 10_000, 5_000, 1_500);
        (Complex[] yb, _) = Channel(b, 10_000, 5_000, 1_500);
        (Complex[] both, _) = Channel([.. a.Zip(b, static (u, v) => u + v)], 10_000, 5_000, 1_500);
        for (int n = 0; n < both.Length; n++)
        {
            Assert.True((both[n] - ya[n] - yb[n]).Magnitude < 1e-4);
        }
    }

    /// <summary>Blocks that nothing wants are passed without changing what comes behind them.</summary>
    [Fact]
    public void Pass_goesOnAsTransformDoes()
    {
        float[] x = Plain.Noise(2 * 60_000, 5);
        (Complex[] all, _) = Channel(x, 12_000, 5_000, 1_500);
        Channeliser band = new(Rate);
        Channeliser.Channel channel = new(band, 12_000, 5_000, 1_500);
        int at = 0;
        List<Complex> late = [];
        float[] pairs = new float[2 * channel.PerBlock];
        for (int block = 0; at < x.Length; block++)
        {
            int count = Math.Min(2 * band.Wanted, x.Length - at);
            x.AsSpan(at, count).CopyTo(band.Space);
            at += count;
            if (block < 4)
            {
                band.Pass(count / 2);
                continue;
            }

            band.Transform(count / 2);
            channel.Take(pairs);
            late.AddRange(Enumerable.Range(0, channel.PerBlock).Select(n => new Complex(pairs[2 * n], pairs[2 * n + 1])));
            band.Advance();
        }

        // The late channel's own count began later: equal up to one turn.
        Complex turn = all[4 * channel.PerBlock + 50] / late[50];
        Assert.Equal(1, turn.Magnitude, 1e-3);
        for (int n = 0; n < late.Count - channel.PerBlock; n++)
        {
            Assert.True((late[n] * turn - all[4 * channel.PerBlock + n]).Magnitude < 1e-3);
        }
    }

    private static float[] Rotation(double hz, double seconds, double size) =>
        [.. Enumerable.Range(0, (int)(seconds * Rate)).SelectMany(n =>
        {
            (double s, double c) = Math.SinCos(2 * Math.PI * hz * n / Rate % (2 * Math.PI));
            return new[] { (float)(size * c), (float)(size * s) };
        })];

    private static (Complex[] Samples, double Rate) Channel(float[] x, double centre, double half, double edge)
    {
        Channeliser band = new(Rate);
        Channeliser.Channel channel = new(band, centre, half, edge);
        List<Complex> y = [];
        float[] pairs = new float[2 * channel.PerBlock];
        for (int at = 0; at < x.Length;)
        {
            int count = Math.Min(2 * band.Wanted, x.Length - at);
            x.AsSpan(at, count).CopyTo(band.Space);
            at += count;
            band.Transform(count / 2);
            channel.Take(pairs);
            y.AddRange(Enumerable.Range(0, channel.PerBlock).Select(n => new Complex(pairs[2 * n], pairs[2 * n + 1])));
            band.Advance();
        }

        return ([.. y], channel.RateHz);
    }
}
