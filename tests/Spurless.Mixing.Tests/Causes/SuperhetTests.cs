using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Tests.Causes;

/// <summary>
/// Responses of a superheterodyne against a brute-force simulation of a mixer: a power series for the signal, an oscillator with all its
/// harmonics.
/// </summary>
public sealed class SuperhetTests
{
    private const int Unit = 840; // divisible by 1 to 8: every response is a whole number of bins
    private const int Samples = 1 << 18;

    private static readonly VictimReceiver Receiver = new()
    {
        Name = "input",
        FrequencyHz = 145_050_000,
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = -127,
        ChainGainDb = 0,
    };

    [Theory]
    [InlineData(Injection.Low)]
    [InlineData(Injection.High)]
    public void Of_first_conversion_answers_exactly_where_the_simulated_mixer_does(Injection injection)
    {
        // Oscillator 5 units, IF 2 units: the channel at 7 (low) or 3 units (high).
        Superhet plan = new() { FrequencyHz = (injection == Injection.Low ? 7 : 3) * Unit, FirstIfHz = 2 * Unit, Injection = injection };
        Assert.Equal(5 * Unit, plan.FirstOscillatorHz);
        HashSet<long> listed =
        [
            .. SuperhetResponses.Of(plan).Where(static r => r.TimesPHz % r.P == 0).Select(static r => r.TimesPHz / r.P),
        ];
        double[] projector = Projector(5 * Unit, 2 * Unit);

        foreach (int bin in Grid(9 * Unit))
        {
            if (bin != plan.FrequencyHz)
            {
                Assert.True(Answers(bin, projector) == listed.Contains(bin), $"bin {bin} of unit {Unit}");
            }
        }
    }

    [Fact]
    public void Of_second_conversion_answers_exactly_where_the_simulated_second_mixer_does()
    {
        // First oscillator 13 units, first IF 7 units (low: channel 20 units), second oscillator 5 units, second IF 2 units.
        Superhet plan = new()
        {
            FrequencyHz = 20 * Unit,
            FirstIfHz = 7 * Unit,
            Injection = Injection.Low,
            SecondIfHz = 2 * Unit,
            SecondInjection = Injection.Low,
        };
        Assert.Equal(5 * Unit, plan.SecondOscillatorHz(Injection.Low));
        HashSet<long> listed =
        [
            .. SuperhetResponses.Of(plan).Where(static r => r.TimesPHz % r.P == 0).Select(static r => r.TimesPHz / r.P),
        ];
        double[] projector = Projector(5 * Unit, 2 * Unit);

        foreach (int bin in Grid(9 * Unit))
        {
            // What the second mixer answers to at its input, brought to the antenna by the first oscillator on both sides.
            if (Answers(bin, projector))
            {
                foreach (long there in (ReadOnlySpan<long>)[(13 * Unit) + bin, Math.Abs((13 * Unit) - bin)])
                {
                    Assert.True(there == plan.FrequencyHz || there == 0 || listed.Contains(there), $"{there} from {bin}");
                }
            }
        }

        // And nothing else is listed of the second conversion in the simulated range.
        foreach (SuperhetResponse response in SuperhetResponses.Of(plan).Where(static r => r.Conversion == 2 && r.TimesPHz % r.P == 0))
        {
            long distance = Math.Abs((response.TimesPHz / response.P) - (13 * Unit));
            long sum = (response.TimesPHz / response.P) + (13 * Unit);
            Assert.True(
                distance > 9 * Unit || Answers((int)distance, projector) || (sum <= 9 * Unit && Answers((int)sum, projector)),
                $"{response}");
        }
    }

    [Fact]
    public void Of_a_2_m_receiver_names_image_and_half_IF()
    {
        Superhet plan = new()
        {
            FrequencyHz = 145_050_000,
            FirstIfHz = 21_400_000,
            Injection = Injection.Low,
            SecondIfHz = 455_000,
            SecondInjection = Injection.Low,
        };
        IReadOnlyList<SuperhetResponse> all = SuperhetResponses.Of(plan);

        // By hand: oscillator 123.65; image 123.65 - 21.4; half-IF 123.65 + 10.7; second oscillator 20.945, its image 20.49, so 144.14;
        // second half-IF 20.945 + 0.2275.
        Assert.Equal(123_650_000, plan.FirstOscillatorHz);
        Assert.Equal([102_250_000.0, 144_140_000], all.Where(static r => r.Cause == CauseKind.Image).Select(static r => r.FrequencyHz));
        Assert.Equal([134_350_000, 144_822_500.0], all.Where(static r => r.Cause == CauseKind.HalfIf).Select(static r => r.FrequencyHz));
        Assert.Contains(all, static r => r is { AtIntermediate: true, Conversion: 1, TimesPHz: 21_400_000 });
        Assert.All(all, static r => Assert.False(r.SideAssumed));
        Assert.Equal(
            [
                (CauseKind.Image, 1, false), (CauseKind.Image, 2, false), (CauseKind.HalfIf, 1, false), (CauseKind.HalfIf, 2, false),
                (CauseKind.SpuriousResponse, 1, true), (CauseKind.SpuriousResponse, 2, true),
            ],
            ResponseCause.ToSearch(plan).Select(static r => (r.Cause, r.Conversion, r.AtIntermediate)).Order());
        // No frequency twice, none on the channel.
        Assert.Equal(all.Count, all.Select(static r => r.FrequencyHz).Distinct().Count());
        Assert.DoesNotContain(all, static r => r.FrequencyHz == 145_050_000);
    }

    // The mixer's arithmetic: with q = 1, p f = f_LO + f_IF (f_LO - f_IF) is p f = the channel, the harmonic that the search of products
    // finds with the level 2 P - IIP2 - 6.02 dB ([checks] 1.1: 2A); q = 2 and the other sideband are other ways, and stay.
    [Theory]
    [InlineData(21_400_000, Injection.Low)]
    [InlineData(21_400_000, Injection.High)]
    [InlineData(10_700_000, Injection.Low)]
    public void OfCarriers_leaves_a_harmonic_on_the_channel_to_the_products(long first, Injection side)
    {
        Superhet plan = new() { FrequencyHz = 145_050_000, FirstIfHz = first, Injection = side };
        IReadOnlyList<SuperhetResponse> all = SuperhetResponses.Of(plan);
        IReadOnlyList<CauseFinding> Told(SuperhetResponse at) => ResponseCause.OfCarriers(
            Receiver, plan, [On(at, -30)], Intercepts.Complete(-2), true, double.NegativeInfinity);
        foreach (int p in (int[])[2, 3])
        {
            SuperhetResponse harmonic = Assert.Single(all, r => r.P == p && r.TimesPHz == plan.FrequencyHz);
            Assert.Equal((1, 1), (harmonic.Conversion, harmonic.Q));
            Assert.Empty(Told(harmonic));
        }

        SuperhetResponse other = all.First(
            r => r is { Conversion: 1, P: 2, Q: 1 } && r.TimesPHz != plan.FrequencyHz && r.TimesPHz % 2 == 0);
        Assert.Equal((2 * -30) - 28 - 6.02, Assert.Single(Told(other)).LevelDbm!.Value, 2); // IIP2 30 dB over IIP3
        SuperhetResponse half = all.First(static r => r.Cause == CauseKind.HalfIf);
        Assert.Equal(CauseKind.HalfIf, Assert.Single(Told(half)).Cause);
    }

    [Fact]
    public void Of_high_injection_and_IF_over_the_channel()
    {
        Superhet high = new() { FrequencyHz = 145_050_000, FirstIfHz = 10_700_000, Injection = Injection.High };
        Superhet up = new() { FrequencyHz = 30_000_000, FirstIfHz = 45_000_000, Injection = Injection.High };

        // By hand: 145.05 + 2 x 10.7; 145.05 + 10.7/2; 75 + 45.
        Assert.Equal(166_450_000, high.ImageHz);
        Assert.Contains(SuperhetResponses.Of(high), static r => r.Cause == CauseKind.HalfIf && r.FrequencyHz == 150_400_000);
        Assert.Equal(120_000_000, up.ImageHz);
    }

    [Fact]
    public void Of_second_side_not_stated_looks_at_both_and_marks()
    {
        Superhet plan = new() { FrequencyHz = 145_050_000, FirstIfHz = 21_400_000, Injection = Injection.Low, SecondIfHz = 455_000 };
        SuperhetResponse[] images = [.. SuperhetResponses.Of(plan).Where(static r => r is { Cause: CauseKind.Image, Conversion: 2 })];

        Assert.Equal([144_140_000.0, 145_960_000], images.Select(static r => r.FrequencyHz));
        Assert.All(images, static r => Assert.True(r.SideAssumed));
    }

    /// <summary>Level on a response against the simulated mixer: cubic and square terms, a square-wave oscillator's 1/q.</summary>
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(2, 3)]
    [InlineData(3, 1)]
    [InlineData(3, 5)]
    [InlineData(5, 3)]
    public void OfCarrier_level_follows_the_simulated_mixer(int p, int q)
    {
        // y = (x + 0.1 x^p) times a square wave's odd harmonics 1/q; relative to the conversion of a signal on the channel.
        const double Amplitude = 0.05;
        const double Coefficient = 0.1;
        const int IntermediateBin = 1_680;
        const int OscillatorBin = 4_200;
        int bin = ((q * OscillatorBin) + IntermediateBin) / p;
        double[] x = Simulated.Tones(Samples, (bin, Amplitude, 0));
        double[] lo = Simulated.Tones(
            Samples, [.. Enumerable.Range(0, 5).Select(static i => ((2 * i) + 1)).Select(static h => (OscillatorBin * h, 1.0 / h, 0.0))]);
        double[] y = [.. x.Zip(lo, (s, o) => (p == 1 ? s : s + (Coefficient * Math.Pow(s, p))) * o)];
        double simulated = Simulated.Db(Simulated.Lines(y)[IntermediateBin] / 0.5);

        // docs/method/product-levels.md: a_n = a_1 2^(n-1) / (C_ref A_IIPn^(n-1)), solved for the intercept, in dB of amplitude.
        double intercept = p == 1 ? 0 : 20 * Math.Log10(Math.Pow(2, p - 1) / (Multinomial.Reference(p) * Coefficient)) / (p - 1);
        Intercepts intercepts = Intercepts.Complete(p == 3 ? intercept : 0, n => n == p ? intercept : null);
        SuperhetResponse response = new()
        {
            Cause = CauseKind.SpuriousResponse,
            Conversion = 1,
            P = p,
            Q = q,
            TimesPHz = (q * OscillatorBin) + IntermediateBin,
        };
        VictimReceiver receiver = Receiver with { FrequencyHz = OscillatorBin - IntermediateBin, ChannelHz = 2, IfBandwidthHz = 2 };
        StageCarrier carrier = new() { Name = "c", FrequencyHz = bin, BandwidthHz = 0, LevelDbm = Simulated.Db(Amplitude) };

        CauseFinding finding = ResponseCause.OfCarrier(receiver, response, carrier, intercepts, true)!;

        // The odd harmonics of the carrier from higher terms are absent here: equality to rounding of the FFT.
        Assert.Equal(simulated, finding.LevelDbm!.Value, 5);
    }

    [Fact]
    public void OfCarrier_image_without_selectivity_or_balance_is_unknown()
    {
        Superhet plan = new() { FrequencyHz = 145_050_000, FirstIfHz = 21_400_000, Injection = Injection.Low, SecondIfHz = 455_000 };
        IReadOnlyList<SuperhetResponse> all = SuperhetResponses.Of(plan);
        SuperhetResponse image = all.First(static r => r is { Cause: CauseKind.Image, Conversion: 1 });
        SuperhetResponse second = all.First(static r => r is { Cause: CauseKind.Image, Conversion: 2 });
        SuperhetResponse intermediate = all.First(static r => r.AtIntermediate);
        Intercepts intercepts = Intercepts.Complete(-2);

        CauseFinding known = ResponseCause.OfCarrier(Receiver, image, On(image, -90), intercepts, true)!;
        CauseFinding unknown = ResponseCause.OfCarrier(Receiver, image, On(image, -90), intercepts, false)!;
        CauseFinding noFilter = ResponseCause.OfCarrier(Receiver, second, On(second, -40), intercepts, true)!;
        CauseFinding filter = ResponseCause.OfCarrier(Receiver, second, On(second, -40), intercepts, true, 60)!;
        CauseFinding balance = ResponseCause.OfCarrier(Receiver, intermediate, On(intermediate, -40), intercepts, true)!;

        Assert.Equal(37, known.OverNoiseDb!.Value, 9);
        Assert.Null(known.AtMostDbm);
        Assert.Null(unknown.LevelDbm);
        Assert.Equal(-90, unknown.AtMostDbm!.Value, 9);
        Assert.Equal(MissingKind.InputSelectivity, Assert.Single(unknown.Missing).Kind);
        Assert.Null(noFilter.LevelDbm);
        Assert.Equal(-100, filter.LevelDbm!.Value, 9);
        Assert.Null(balance.OverNoiseDb);
        Assert.Equal(MissingKind.MixerFeedthrough, Assert.Single(balance.Missing).Kind);
        Assert.Null(ResponseCause.OfCarrier(Receiver, image, On(image, -90) with { FrequencyHz = 102_300_000 }, intercepts, true));
    }

    [Fact]
    public void OfProduct_on_an_image_counts_as_on_the_channel()
    {
        Superhet plan = new() { FrequencyHz = 145_050_000, FirstIfHz = 21_400_000, Injection = Injection.Low };
        SuperhetResponse[] targets = [.. ResponseCause.ToSearch(plan)];
        SuperhetResponse image = targets.Single(static r => r.Cause == CauseKind.Image);
        SuperhetResponse half = targets.Single(static r => r.Cause == CauseKind.HalfIf);

        CauseFinding onImage = ResponseCause.OfProduct(Receiver, image, "A + B", -100, 4, Intercepts.Complete(-2));
        CauseFinding onHalf = ResponseCause.OfProduct(
            Receiver, half, "A + B", -60, 4, Intercepts.Complete(-2, static n => n == 2 ? 30 : null));

        Assert.Equal(CauseKind.ProductOnResponse, onImage.Cause);
        Assert.Equal(27, onImage.OverNoiseDb!.Value, 9);
        // By hand: 2 x -60 - 30 - 6.02 - 6.02.
        Assert.Equal(-162.04, onHalf.LevelDbm!.Value, 2);
        Assert.Null(ResponseCause.OfProduct(Receiver, image, "A + B", null, 4, Intercepts.Complete(-2)).LevelDbm);
    }

    [Fact]
    public void OfCarriers_leaves_out_what_is_surely_under_the_floor()
    {
        Superhet plan = new() { FrequencyHz = 145_050_000, FirstIfHz = 21_400_000, Injection = Injection.Low };
        Intercepts intercepts = Intercepts.Complete(-2, static n => n == 2 ? 30 : null);
        StageCarrier image = new() { Name = "on the image", FrequencyHz = 102_250_000, BandwidthHz = 0, LevelDbm = -90 };
        // Half-IF: 2 x -60 - 30 - 12.04 = -162.04 dBm; the intermediate frequency itself, unknown, at most -60.
        StageCarrier half = new() { Name = "on half-IF", FrequencyHz = 134_350_000, BandwidthHz = 0, LevelDbm = -60 };
        StageCarrier intermediate = new() { Name = "on the IF", FrequencyHz = 21_400_000, BandwidthHz = 0, LevelDbm = -60 };
        StageCarrier nobody = new() { Name = "unknown", FrequencyHz = 102_250_000, BandwidthHz = 0, LevelDbm = null };

        IReadOnlyList<CauseFinding> all = ResponseCause.OfCarriers(
            Receiver, plan, [image, half, intermediate, nobody], intercepts, true, double.NegativeInfinity);
        IReadOnlyList<CauseFinding> strong = ResponseCause.OfCarriers(
            Receiver, plan, [image, half, intermediate, nobody], intercepts, true, -147);

        Assert.Contains(
            all, static f => f is { Cause: CauseKind.HalfIf, Emitter: "on half-IF" } && Math.Abs(f.LevelDbm!.Value + 162.04) < 0.01);
        Assert.Equal(["on the image", "on the IF", "unknown"], strong.Select(static f => f.Emitter!));
        Assert.Equal([-90, null, null], strong.Select(static f => f.LevelDbm));
        Assert.Equal([null, -60, null], strong.Select(static f => f.AtMostDbm));
    }

    private static StageCarrier On(SuperhetResponse response, double level) =>
        new() { Name = "c", FrequencyHz = response.TimesPHz / response.P, BandwidthHz = 0, LevelDbm = level };

    /// <summary>Every bin that a response p &lt;= 8 can have, and others that it can't.</summary>
    private static IEnumerable<int> Grid(int highest)
    {
        for (int bin = 1; bin < highest; bin++)
        {
            bool possible = Enumerable.Range(1, 8).Any(p => bin * p % Unit == 0);
            if (possible || bin % 97 == 0)
            {
                yield return bin;
            }
        }
    }

    /// <summary>
    /// The oscillator with harmonics 0 to 8, times the line at the intermediate frequency that the mixer's output is projected on.
    /// </summary>
    private static double[] Projector(int oscillator, int intermediate)
    {
        double[] harmonics = Simulated.Tones(Samples, [.. Enumerable.Range(0, 9).Select(q => (q * oscillator, 1.0, 0.0))]);
        return [.. harmonics.Zip(Simulated.Tones(Samples, (intermediate, 1.0, 0.0)), static (o, line) => o * line)];
    }

    /// <summary>
    /// Whether the mixer makes its intermediate frequency of a tone: (x + x^2 .. + x^8) times the oscillator has a line there.
    /// </summary>
    private static bool Answers(int bin, double[] projector)
    {
        // The highest line is 8 x 9 + 8 x 5 units = 94,080 bins, under half of the samples: nothing folds back.
        double projected = 0;
        uint at = 0;
        for (int t = 0; t < projector.Length; t++)
        {
            double x = Cosine[at];
            at = (at + (uint)bin) & (Samples - 1);
            double x2 = x * x;
            projected += (x + x2) * (1 + x2) * (1 + (x2 * x2)) * projector[t];
        }

        return Math.Abs(projected / Samples) > 1e-6;
    }

    private static readonly double[] Cosine = [.. Enumerable.Range(0, Samples).Select(static t => Math.Cos(2 * Math.PI * t / Samples))];
}
