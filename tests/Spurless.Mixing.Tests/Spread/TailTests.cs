using System.Numerics;
using MathNet.Numerics.IntegralTransforms;
using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Tests.Spread;

/// <summary>
/// The in-channel share far out against simulated FM of gated speech: coloured noise of 300 to 3,000 Hz with syllables and pauses, clipped
/// at the peak deviation, with and without the low-pass that follows a transmitter's clipper; products of order 2 to 5 by adding phases,
/// spectrum by an FFT of a numerics library. The modulators are ours.
/// </summary>
/// <remarks>
/// Spells of a second scatter by tens of decibels (a pause in one of two voices), so the law is held to the mean power of six, which itself
/// moves by several. To -60 dB it is at most 3 dB under and 18 dB over them with this seed, up to 16 dB under and 17 dB over with two
/// others (one loud spell decides); the Gaussian alone is 20 dB and more too low there. Tones and data: <see cref="ToneAndDataTests"/>.
/// </remarks>
public class TailTests(ITestOutputHelper output)
{
    internal const double Rate = 192_000;
    internal const int Length = 1 << 18;
    private const int Spells = 6;
    private const int Seed = 11;

    [Theory]
    [InlineData(11_200, new[] { 1, 1, -1 })]
    [InlineData(11_200, new[] { 2, -1 })]
    public void Of_gated_speech_holds_to_minus_60_dB(long bandwidth, int[] coefficients) => Held(bandwidth, coefficients, Seed, -3, 18);

    [Theory]
    [Trait("Category", "Long")]
    [InlineData(11_200, new[] { 1, 1 })]
    [InlineData(11_200, new[] { 2, 1, -1 })]
    [InlineData(11_200, new[] { 2, 1, -2 })]
    [InlineData(11_200, new[] { 1, 1, 1, -1, -1 })]
    [InlineData(16_000, new[] { 2, -1 })]
    [InlineData(16_000, new[] { 1, 1, -1 })]
    [InlineData(16_000, new[] { 2, 1, -1 })]
    [InlineData(16_000, new[] { 3, -2 })]
    [InlineData(16_000, new[] { 2, 1, -2 })]
    [InlineData(16_000, new[] { 1, 1, 1, -1, -1 })]
    public void Of_gated_speech_holds_for_orders_2_to_5(long bandwidth, int[] coefficients) =>
        Held(bandwidth, coefficients, Seed, -3, 18);

    /// <summary>
    /// No law holds closer than speech comes out the same twice: of two other draws of all these products the ones that are furthest off.
    /// </summary>
    [Theory]
    [Trait("Category", "Long")]
    [InlineData(12, 16_000, new[] { 2, -1 })]
    [InlineData(12, 16_000, new[] { 2, 1, -2 })]
    [InlineData(13, 11_200, new[] { 3, -2 })]
    [InlineData(13, 16_000, new[] { 2, -1 })]
    public void Of_gated_speech_holds_with_other_draws_as_far_as_is_stated(int seed, long bandwidth, int[] coefficients) =>
        Held(bandwidth, coefficients, seed, -16, 17);

    private void Held(long bandwidth, int[] coefficients, int seed, double from, double to)
    {
        EmitterSpread spread = EmitterSpread.From(bandwidth, "F3E");
        EmitterSpread[] spreads = [.. coefficients.Select(_ => spread)];
        double[] mean = new double[Length];
        Random random = new(seed);
        for (int spell = 0; spell < Spells; spell++)
        {
            Add(mean, Product(coefficients, spread.SigmaHz / 0.35, random, filtered: spell % 2 == 0));
        }

        int far = 0;
        (double least, double most) = (double.PositiveInfinity, double.NegativeInfinity);
        string worst = "";
        for (double offset = 0; offset <= 60_000; offset += 1_250)
        {
            double simulated = 10 * Math.Log10(Inside(mean, offset));
            if (simulated < -60)
            {
                break;
            }

            double law = 10 * Math.Log10(InChannelShare.Of(offset, 8_000, coefficients, spreads));
            double over = law - simulated;
            worst = over < from || over > to ? $"at {offset} Hz: {law:0.0} dB, simulated {simulated:0.0} dB" : worst;
            (least, most) = (Math.Min(least, over), Math.Max(most, over));
            far += simulated < -35 ? 1 : 0;
        }

        output.WriteLine(
            $"seed {seed}, {bandwidth} Hz, {string.Join(',', coefficients)}: law less simulation {least:0.0} to {most:0.0} dB");
        Assert.True(worst.Length == 0, worst);

        Assert.True(far >= 3, $"only {far} offsets under -35 dB compared");
    }

    private static double Inside(double[] power, double offset)
    {
        double inside = 0;
        for (int bin = (int)((offset - 4_000) * Length / Rate); bin <= (int)((offset + 4_000) * Length / Rate); bin++)
        {
            inside += power[(bin + Length) % Length];
        }

        return inside;
    }

    private static void Add(double[] mean, double[] power)
    {
        double total = power.Sum();
        for (int i = 0; i < mean.Length; i++)
        {
            mean[i] += power[i] / total / Spells;
        }
    }

    private static double[] Product(int[] coefficients, double deviation, Random random, bool filtered)
    {
        double[][] voices = [.. coefficients.Select(_ => Voice(random, filtered))];
        Complex[] product = new Complex[Length];
        double phase = 0;
        for (int t = 0; t < Length; t++)
        {
            double together = 0;
            for (int i = 0; i < voices.Length; i++)
            {
                together += coefficients[i] * voices[i][t];
            }

            phase += 2 * Math.PI * deviation * together / Rate;
            double turn = 2 * Math.PI * t / Length;
            // Blackman-Harris, -92 dB beside: F. J. Harris, Proc. IEEE 66 (1978), from memory.
            double window = 0.35875 - (0.48829 * Math.Cos(turn)) + (0.14128 * Math.Cos(2 * turn)) - (0.01168 * Math.Cos(3 * turn));
            product[t] = Complex.FromPolarCoordinates(window, phase);
        }

        Fourier.Forward(product, FourierOptions.AsymmetricScaling);
        return [.. product.Select(static c => (c.Real * c.Real) + (c.Imaginary * c.Imaginary))];
    }

    internal static double[] Voice(Random random, bool filtered)
    {
        double[] voice = Noise(random, static f => f is >= 300 and <= 3_000 ? Math.Sqrt(500 / Math.Max(500, f)) : 0);
        double[] syllables = Noise(random, static f => f <= 6 ? 1 : 0);
        double spoken = 0;
        int count = 0;
        bool on = true;
        for (int from = 0; from < Length;)
        {
            int to = Math.Min(Length, from + (int)(Rate * (0.15 + (0.35 * random.NextDouble()))));
            for (int t = from; t < to; t++)
            {
                voice[t] *= on ? Math.Exp(0.9 * syllables[t]) : 0.001;
                spoken += on ? voice[t] * voice[t] : 0;
                count += on ? 1 : 0;
            }

            from = to;
            on = random.NextDouble() < 0.6;
        }

        double rms = Math.Sqrt(spoken / count);
        Complex[] clipped = [.. voice.Select(v => new Complex(Math.Clamp(0.35 * v / rms, -1, 1), 0))];
        if (filtered)
        {
            Fourier.Forward(clipped, FourierOptions.AsymmetricScaling);
            for (int i = 0; i < Length; i++)
            {
                double f = Math.Min(i, Length - i) * Rate / Length;
                clipped[i] /= Math.Sqrt(1 + Math.Pow(f / 3_200, 12));
            }

            Fourier.Inverse(clipped, FourierOptions.AsymmetricScaling);
        }

        return [.. clipped.Select(static c => c.Real)];
    }

    /// <summary>Noise of rms 1 with the given weight of amplitude over frequency.</summary>
    private static double[] Noise(Random random, Func<double, double> weight)
    {
        Complex[] bins = new Complex[Length];
        for (int i = 1; i < Length / 2; i++)
        {
            double amplitude = weight(i * Rate / Length);
            bins[i] = amplitude == 0
                ? Complex.Zero
                : Complex.FromPolarCoordinates(
                    amplitude * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())), 2 * Math.PI * random.NextDouble());
        }

        Fourier.Inverse(bins, FourierOptions.AsymmetricScaling);
        double rms = Math.Sqrt(bins.Sum(static c => c.Real * c.Real) / Length);
        return [.. bins.Select(c => c.Real / rms)];
    }
}
