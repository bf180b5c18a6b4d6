using Spurless.Mixing.Causes;

namespace Spurless.Mixing.Tests.Causes;

public sealed class BlockingTests
{
    private const int Samples = 1 << 13;

    private static readonly VictimReceiver Receiver = new()
    {
        Name = "input",
        FrequencyHz = 145_050_000,
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = -127,
        ChainGainDb = 0,
    };

    private static double DesenseDb(double sumDbm, BlockingPoint point) =>
        Blocking.OfCarriers(Receiver, [Carrier("one", 146_000_000, sumDbm)], point)!.DesenseDb!.Value;

    /// <summary>Cubic stage in the time domain: gain of a weak tone beside one, two or three strong ones of the same total power.</summary>
    [Theory]
    [InlineData(-20)]
    [InlineData(-10)]
    [InlineData(-6)]
    [InlineData(-3)]
    [InlineData(0)]
    public void DesenseDb_agrees_with_the_compression_of_a_cubic_up_to_the_point(double overPointDb)
    {
        // y = x - x^3: A_IIP3^2 = 4/3 (docs/method/product-levels.md), in the same units as amplitudes squared.
        double iip3 = 10 * Math.Log10(4.0 / 3);
        BlockingPoint point = BlockingPoint.FromIntercept(iip3, 3);
        double sum = point.LevelDbm + overPointDb;
        double strong = Math.Pow(10, sum / 20);

        double one = Compression([(700, strong)]);
        double three = Compression([(700, strong / Math.Sqrt(3)), (811, strong / Math.Sqrt(3)), (1_013, strong / Math.Sqrt(3))]);

        // Whatever the number of carriers, their power sum decides (the weak tone is 100 dB down).
        Assert.Equal(one, three, 6);
        // 0.5 dB: the law is that of added noise, not the cubic's own; at the point both are 3 dB (3.00 and 3.01).
        Assert.InRange(DesenseDb(sum, point), one - 0.001, one + 0.5);
    }

    [Fact]
    public void DesenseDb_agrees_with_a_limiter_far_beyond_the_point()
    {
        // tanh with a large amplitude is a limiter: doubling the carrier costs the weak tone 6.02 dB.
        double at = LimiterGain(10) - LimiterGain(20);
        BlockingPoint point = new(0, 0, null);

        Assert.Equal(at, DesenseDb(46.02, point) - DesenseDb(40, point), 0.1);
    }

    [Fact]
    public void FromRatio_is_relative_to_the_reference()
    {
        BlockingPoint point = BlockingPoint.FromRatio(84, -107);

        // By hand. 84 dB is a usual figure of base receivers (from memory).
        Assert.Equal(-23, point.LevelDbm);
        Assert.Null(point.Assumed);
        Assert.Equal(3.0103, DesenseDb(-23, point), 4);
    }

    [Fact]
    public void OfCarriers_adds_powers_and_leaves_the_channel_out()
    {
        StageCarrier[] carriers =
        [
            Carrier("one", 146_000_000, -90),
            Carrier("two", 147_000_000, -90),
            Carrier("three", 148_000_000, -93),
            Carrier("ours", 145_050_000, -20),
        ];

        CauseFinding finding = Blocking.OfCarriers(Receiver, carriers, new BlockingPoint(-76, 3, null))!;

        // docs/checks.md 1.2: the power sum of -90, -90, -93 dBm is -86.02.
        Assert.Equal(-86.02, finding.LevelDbm!.Value, 2);
        Assert.Equal(-10.02, finding.OverNoiseDb!.Value, 2);
        Assert.Equal(0.412, finding.DesenseDb!.Value, 2);
        Assert.Equal("one", finding.Emitter);
        Assert.Empty(finding.Missing);
    }

    [Fact]
    public void OfCarriers_unknown_level_or_point_is_said()
    {
        StageCarrier[] carriers = [Carrier("one", 146_000_000, -30), Carrier("two", 147_000_000, null)];

        CauseFinding bound = Blocking.OfCarriers(Receiver, carriers, new BlockingPoint(-20, 3, null))!;
        CauseFinding unknown = Blocking.OfCarriers(Receiver, carriers, null)!;

        Assert.Equal(-30, bound.LevelDbm);
        Assert.Equal([new Assumption(AssumptionKind.UnknownLevelLeftOut) { Of = "two" }], bound.Assumed);
        Assert.Equal([new MissingInput(MissingKind.LevelHere, "two")], bound.Missing);
        Assert.Null(unknown.OverNoiseDb);
        Assert.Null(unknown.DesenseDb);
        Assert.Contains(unknown.Missing, static m => m.Kind == MissingKind.Blocking);
        Assert.Null(Blocking.OfCarriers(Receiver, [], null));
    }

    private static StageCarrier Carrier(string name, long hertz, double? level) =>
        new() { Name = name, FrequencyHz = hertz, BandwidthHz = 11_200, LevelDbm = level, SigmaDb = 2 };

    /// <summary>Loss of gain of y = x - x^3 for a weak tone, in dB.</summary>
    private static double Compression(ReadOnlySpan<(int Bin, double Amplitude)> strong)
    {
        const double Weak = 1e-6;
        List<(int, double, double)> tones = [(301, Weak, 0.4)];
        foreach ((int bin, double amplitude) in strong)
        {
            tones.Add((bin, amplitude, bin));
        }

        double[] lines = Simulated.Lines([.. Simulated.Tones(Samples, tones.ToArray()).Select(static x => x - (x * x * x))]);
        return -Simulated.Db(lines[301] / Weak);
    }

    private static double LimiterGain(double amplitude)
    {
        const double Weak = 1e-6;
        double[] x = Simulated.Tones(1 << 16, (301, Weak, 0.4), (700, amplitude, 0));
        return Simulated.Db(Simulated.Lines([.. x.Select(Math.Tanh)])[301] / Weak);
    }
}
