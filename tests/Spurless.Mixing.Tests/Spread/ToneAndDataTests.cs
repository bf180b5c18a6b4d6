using System.Numerics;
using MathNet.Numerics.IntegralTransforms;
using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Tests.Spread;

/// <summary>
/// The in-channel share of mixtures with tones and data in them, against simulated FM: how far the law is from what it is not made for.
/// The bounds here are those that docs/method/product-levels.md states; they are no wish, they are what the simulation shows and some 3 dB.
/// </summary>
/// <remarks>
/// Near is where the simulated share is over -35 dB, far down to -60 dB. Bounds are the law less the simulation, in dB. Data go through a
/// Gaussian low-pass of 3.9 kHz as a transmitter's does: unfiltered they would not keep to any channel, and the law does not hold. The
/// modulators are ours; tones stand at 60 % of the peak deviation as usual (common practice), or at all of it, the worst case.
/// </remarks>
public class ToneAndDataTests(ITestOutputHelper output)
{
    private const double Rate = TailTests.Rate;
    private const int Length = TailTests.Length;
    private const double FilterHz = 3_900;
    private const int Seed = 17;
    private const int OtherSeed = 19;
    private const double OtherDrawDb = 3;

    public static readonly TheoryData<string, bool, double, double, double, double> Kinds = new()
    {
        // kind, whether the mixture's other emitters speak (else they are of the same kind), near from, near to, far from, far to
        { "packet tones", true, -10, 7, -10, 14 },
        { "two levels", true, -12, 13, -13, 17 },
        { "two levels", false, -5, 20, -10, 26 },
        { "four levels", true, -18, 20, -9, 23 },
        { "tone at 60 %", true, -9, 13, -9, 22 },
        { "tone at 100 %", true, -18, 8, -17, 5 },
        { "tone at 100 %", false, -30, 29, -24, 43 },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Of_tones_and_data_holds_as_far_as_is_stated(
        string kind, bool speech, double nearFrom, double nearTo, double farFrom, double farTo) =>
        Held(kind, speech, 16_000, [2, -1], Seed, (nearFrom, nearTo), (farFrom, farTo));

    [Theory]
    [Trait("Category", "Long")]
    [MemberData(nameof(Kinds))]
    public void Of_tones_and_data_holds_as_far_as_is_stated_for_orders_2_to_5(
        string kind, bool speech, double nearFrom, double nearTo, double farFrom, double farTo)
    {
        foreach (long bandwidth in (long[])[11_200, 16_000])
        {
            foreach (int[] coefficients in (int[][])[[1, 1], [1, 1, -1], [3, -2], [2, 1, -2]])
            {
                Held(kind, speech, bandwidth, coefficients, Seed, (nearFrom, nearTo), (farFrom, farTo));
            }
        }
    }

    /// <summary>Another draw of speech and data moves the bounds by some decibels: by no more than the docs state.</summary>
    [Theory]
    [Trait("Category", "Long")]
    [MemberData(nameof(Kinds))]
    public void Of_tones_and_data_with_another_draw_holds_as_far_as_is_stated(
        string kind, bool speech, double nearFrom, double nearTo, double farFrom, double farTo)
    {
        foreach (int[] coefficients in (int[][])[[2, -1], [1, 1, -1], [3, -2]])
        {
            Held(
                kind, speech, 16_000, coefficients, OtherSeed, (nearFrom - OtherDrawDb, nearTo + OtherDrawDb),
                (farFrom - OtherDrawDb, farTo + OtherDrawDb));
        }
    }

    private void Held(
        string kind, bool speech, long bandwidth, int[] coefficients, int seed, (double From, double To) near, (double From, double To) far)
    {
        // A sub-carrier is F2D, shift keying of the carrier F1D (ITU Radio Regulations, appendix 1).
        string emission = kind.Contains("levels", StringComparison.Ordinal) ? "F1D" : "F2D";
        EmitterSpread own = EmitterSpread.From(bandwidth, emission), voice = EmitterSpread.From(bandwidth, "F3E");
        EmitterSpread[] spreads = [.. coefficients.Select((_, i) => i == 0 || !speech ? own : voice)];
        Random random = new(seed);
        int spells = speech ? 3 : 1;
        double[] mean = new double[Length];
        for (int spell = 0; spell < spells; spell++)
        {
            double[] power = Product(coefficients, i => i == 0 || !speech
                ? Modulation(kind, bandwidth, voice.SigmaHz / 0.35, random)
                : [.. TailTests.Voice(random, spell % 2 == 0).Select(v => v * voice.SigmaHz / 0.35)]);
            double total = power.Sum();
            for (int bin = 0; bin < Length; bin++)
            {
                mean[bin] += power[bin] / total / spells;
            }
        }

        int compared = 0;
        string worst = "";
        double[] seen = [double.PositiveInfinity, double.NegativeInfinity, double.PositiveInfinity, double.NegativeInfinity];
        for (double offset = 0; offset <= 60_000; offset += 1_250)
        {
            double simulated = 10 * Math.Log10(Inside(mean, offset));
            if (simulated < -60)
            {
                break;
            }

            double difference = (10 * Math.Log10(InChannelShare.Of(offset, 8_000, coefficients, spreads))) - simulated;
            (double from, double to) = simulated < -35 ? far : near;
            int at = simulated < -35 ? 2 : 0;
            (seen[at], seen[at + 1]) = (Math.Min(seen[at], difference), Math.Max(seen[at + 1], difference));
            worst = difference < from || difference > to
                ? $"{kind}, {bandwidth} Hz, {string.Join(',', coefficients)} at {offset} Hz: {difference:0.0} dB over {simulated:0.0} dB"
                : worst;
            compared++;
        }

        output.WriteLine(
            $"{kind}, {(speech ? "speech" : "the same")}, seed {seed}, {bandwidth} Hz, {string.Join(',', coefficients)}: "
                + $"near {seen[0]:0.0} to {seen[1]:0.0}, far {seen[2]:0.0} to {seen[3]:0.0} dB");
        Assert.True(worst.Length == 0, worst);

        Assert.True(compared >= 4, $"only {compared} offsets compared");
    }

    /// <summary>Momentary frequency about the carrier in hertz; speech's peak deviation stands for that of tones.</summary>
    private static double[] Modulation(string kind, long bandwidth, double peakHz, Random random) => kind switch
    {
        "packet tones" => Packet(0.6 * peakHz, random),
        "two levels" => Filtered(Levels(1_200, [-1, 1], random), 0.28 * bandwidth),
        "four levels" => Filtered(Levels(1_600, [-1, -1.0 / 3, 1.0 / 3, 1], random), 0.3 * bandwidth),
        "tone at 60 %" => Tone(1_000, 0.6 * peakHz, random),
        _ => Tone(1_000, peakHz, random),
    };

    private static double[] Tone(double hertz, double deviationHz, Random random)
    {
        double phase = 2 * Math.PI * random.NextDouble();
        return [.. Enumerable.Range(0, Length).Select(t => deviationHz * Math.Sin((2 * Math.PI * hertz * t / Rate) + phase))];
    }

    // 1,200 and 2,200 Hz by turns, 1,200 bits a second, the phase unbroken.
    private static double[] Packet(double deviationHz, Random random)
    {
        double[] bits = Levels(1_200, [1_200, 2_200], random);
        double phase = 0;
        return [.. bits.Select(hertz => deviationHz * Math.Sin(phase += 2 * Math.PI * hertz / Rate))];
    }

    private static double[] Levels(double baud, double[] levels, Random random)
    {
        double[] all = new double[Length];
        double late = random.NextDouble();
        int symbol = -1;
        double level = 0;
        for (int t = 0; t < Length; t++)
        {
            int now = (int)((t * baud / Rate) + late);
            level = now == symbol ? level : levels[random.Next(levels.Length)];
            symbol = now;
            all[t] = level;
        }

        return all;
    }

    private static double[] Filtered(double[] signal, double scale)
    {
        Complex[] bins = [.. signal.Select(v => new Complex(scale * v, 0))];
        Fourier.Forward(bins, FourierOptions.AsymmetricScaling);
        for (int i = 0; i < Length; i++)
        {
            double over = Math.Min(i, Length - i) * Rate / Length / FilterHz;
            bins[i] *= Math.Exp(-Math.Log(2) / 2 * over * over);
        }

        Fourier.Inverse(bins, FourierOptions.AsymmetricScaling);
        return [.. bins.Select(static c => c.Real)];
    }

    private static double[] Product(int[] coefficients, Func<int, double[]> modulation)
    {
        double[][] all = [.. coefficients.Select((_, i) => modulation(i))];
        Complex[] product = new Complex[Length];
        double phase = 0;
        for (int t = 0; t < Length; t++)
        {
            for (int i = 0; i < all.Length; i++)
            {
                phase += 2 * Math.PI * coefficients[i] * all[i][t] / Rate;
            }

            double turn = 2 * Math.PI * t / Length;
            // Blackman-Harris, -92 dB beside: F. J. Harris, Proc. IEEE 66 (1978), from memory.
            double window = 0.35875 - (0.48829 * Math.Cos(turn)) + (0.14128 * Math.Cos(2 * turn)) - (0.01168 * Math.Cos(3 * turn));
            product[t] = Complex.FromPolarCoordinates(window, phase);
        }

        Fourier.Forward(product, FourierOptions.AsymmetricScaling);
        return [.. product.Select(static c => (c.Real * c.Real) + (c.Imaginary * c.Imaginary))];
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
}
