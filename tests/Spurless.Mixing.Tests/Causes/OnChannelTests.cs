using Spurless.Mixing.Causes;
using Spurless.Mixing.Spread;
using Spurless.Mixing.Tests.Oracles;

namespace Spurless.Mixing.Tests.Causes;

/// <summary>
/// What arrives on the channel as a signal of its own (direct, noise, harmonics, oscillator noise), and the own transmitter with its
/// duplexer.
/// </summary>
public sealed class OnChannelTests
{
    private static readonly VictimReceiver Receiver = new()
    {
        Name = "repeater input",
        FrequencyHz = 145_050_000,
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = -128.94,
        ChainGainDb = -1.2,
    };

    private static readonly SidebandNoise Flat = SidebandNoise.FromPoints(new NoisePoint(600_000, -145));

    [Fact]
    public void TransmitterNoise_without_and_with_a_duplexer()
    {
        // Our own 25 W (43.98 dBm) 600 kHz away, 50 dB to the receiver without a duplexer; 90 dB more on the channel with one.
        RadiatedSource bare = Source(145_650_000, Made.Reach("repeater output", 43.9794, 50, 2, 0));
        RadiatedSource duplexed = Source(145_650_000, Made.Reach("repeater output", 43.9794, 50, 2, 90));

        CauseFinding harmful = TransmitterNoise.OnChannel(Receiver, bare, Flat)!;
        CauseFinding harmless = TransmitterNoise.OnChannel(Receiver, duplexed, Flat)!;

        // By hand: 43.9794 - 50 - 145 + 39.0309 - 1.2 = -113.19; over -128.94: 15.75.
        Assert.Equal(-113.19, harmful.LevelDbm!.Value, 2);
        Assert.Equal(15.75, harmful.OverNoiseDb!.Value, 2);
        Assert.Equal(15.86, harmful.DesenseDb!.Value, 2); // 10 lg(1 + 10^1.575)
        Assert.Equal(-74.25, harmless.OverNoiseDb!.Value, 2);
        Assert.Empty(harmful.Assumed);
        Assert.Equal(CurePlace.Transmitter, harmful.Cause.CuredAt());
        Assert.Equal("transmitter_noise", harmful.Cause.Word());
    }

    [Fact]
    public void TransmitterNoise_without_figure_is_unknown_and_says_what_would_be_harmless()
    {
        RadiatedSource source = Source(145_650_000, TransmitterReach.FromMeasured("own", -44, 2, 145_650_000, 145_050_000, 0, 0));

        CauseFinding finding = TransmitterNoise.OnChannel(Receiver, source, null)!;
        double harmless = TransmitterNoise.HarmlessDbcPerHz(Receiver, source, -10)!.Value;

        Assert.Null(finding.LevelDbm);
        Assert.Null(finding.DesenseDb);
        Assert.Single(finding.Missing);
        // Round trip: with just that density it lies 10 dB under the noise.
        CauseFinding at = TransmitterNoise.OnChannel(Receiver, source, SidebandNoise.FromPoints(new NoisePoint(600_000, harmless)))!;
        Assert.Equal(-10, at.OverNoiseDb!.Value, 9);
        Assert.Empty(at.Assumed);
    }

    [Fact]
    public void TransmitterNoise_on_the_channel_itself_is_direct()
    {
        RadiatedSource source = Source(145_055_000, Made.Reach("x", 40, 100, 2, 0));
        StageCarrier carrier = new()
        {
            Name = "x",
            FrequencyHz = 145_055_000,
            BandwidthHz = 11_200,
            LevelDbm = -61.2,
            Spread = EmitterSpread.Line,
        };

        Assert.Null(TransmitterNoise.OnChannel(Receiver, source, Flat));
        CauseFinding direct = DirectCause.OnChannel(Receiver, carrier)!;
        // A line 5 kHz beside: outside +-4 kHz, the share counts as 1e-7 (docs/method/product-levels.md).
        Assert.Equal(-131.2, direct.LevelDbm!.Value, 9);
        Assert.Equal(-61.2, DirectCause.OnChannel(Receiver, carrier with { FrequencyHz = 145_050_000 })!.LevelDbm!.Value, 9);
        Assert.Null(DirectCause.OnChannel(Receiver, carrier with { FrequencyHz = 145_100_000 }));
        Assert.Null(DirectCause.OnChannel(Receiver, carrier with { LevelDbm = null })!.LevelDbm);
    }

    [Fact]
    public void Harmonic_on_the_channel_has_its_level_or_says_what_is_missing()
    {
        // 48.35 MHz x 3 = 145.05 MHz.
        RadiatedSource source = Source(48_350_000, Made.Reach("taxi", 44, 80, 8, 30)) with { BandwidthHz = 0 };

        CauseFinding known = HarmonicCause.OnChannel(Receiver, source, [new HarmonicLevel(2, -50), new HarmonicLevel(3, -70)])!;
        CauseFinding unknown = HarmonicCause.OnChannel(Receiver, source, [new HarmonicLevel(2, -50)])!;

        // By hand: 44 - 70 - 30 - 80 - 1.2; a line in the middle of the channel.
        Assert.Equal(-137.2, known.LevelDbm!.Value, 9);
        Assert.Equal(-8.26, known.OverNoiseDb!.Value, 2);
        Assert.Null(unknown.LevelDbm);
        Assert.Equal(
            new MissingInput(MissingKind.Harmonic, "taxi") { Times = 3, FrequencyHz = 145_050_000 }, Assert.Single(unknown.Missing));
        Assert.Null(HarmonicCause.OnChannel(Receiver, source with { FrequencyHz = 48_400_000 }, []));
    }

    [Fact]
    public void ReciprocalMixing_adds_what_each_carrier_brings()
    {
        SidebandNoise oscillator = SidebandNoise.FromPoints(
            new NoisePoint(1e4, -110), new NoisePoint(1e6, -150), new NoisePoint(2e7, -150));
        StageCarrier near = new() { Name = "near", FrequencyHz = 145_150_000, BandwidthHz = 11_200, LevelDbm = -40, SigmaDb = 2 };
        StageCarrier far = new() { Name = "far", FrequencyHz = 158_300_000, BandwidthHz = 11_200, LevelDbm = -20, SigmaDb = 2 };

        CauseFinding finding =
            ReciprocalMixing.OfCarriers(Receiver, [near, far, near with { Name = "on", FrequencyHz = 145_050_000 }], oscillator)!;

        // By hand: slope -20 dB per decade: -130 dBc/Hz at 100 kHz, over +-4 kHz flat to 0.01 dB: -40 - 130 + 39.03 = -130.97; far: -20 -
        // 150 + 39.03 = -130.97. Sum -127.96.
        Assert.Equal(-127.96, finding.LevelDbm!.Value, 0.02);
        Assert.Equal(0.98, finding.OverNoiseDb!.Value, 0.02);
        Assert.Equal(Math.Sqrt(2), finding.SigmaDb!.Value, 2); // two equal shares of 2 dB each
        Assert.Null(ReciprocalMixing.OfCarriers(Receiver, [], oscillator));
        Assert.Null(ReciprocalMixing.OfCarriers(Receiver, [far with { LevelDbm = null }], oscillator)!.LevelDbm);
    }

    [Fact]
    public void Own_transmitter_needs_isolation_at_both_frequencies()
    {
        VictimReceiver receiver = Receiver with { NoiseFloorDbm = -127 };
        SidebandNoise oscillator = SidebandNoise.FromPoints(new NoisePoint(1e6, -140));
        OwnCarrierLimit[] limits =
        [
            OwnTransmitter.ForBlocking(BlockingPoint.FromRatio(84, -107)),
            OwnTransmitter.ForOscillator(receiver, 145_650_000, oscillator),
            OwnTransmitter.ForProduct("145.6500 + 160.5250 - 161.1250", 1, -45.2, 22.2),
        ];

        DuplexerNeeds needs = OwnTransmitter.Needs(receiver, "repeater output", 145_650_000, 44, Flat, limits, 95, 90);

        // By hand. Blocking: -23 - 10 = -33. Oscillator: -137 + 140 - 39.03 = -36.03. Product: 32.2 dB less: -77.4, the lowest: 44 + 77.4.
        Assert.Equal([-33, -36.03, -77.4], limits.Select(static l => Math.Round(l.CarrierDbm, 2)));
        Assert.Equal(121.4, needs.NeededAtTransmitDb!.Value, 9);
        Assert.Same(limits[2], needs.SetBy);
        // 44 - 105.97 + 137 = 75.03.
        Assert.Equal(75.03, needs.NeededAtReceiveDb!.Value, 2);
        Assert.Equal((95, 90), (needs.HasAtTransmitDb, needs.HasAtReceiveDb));
        Assert.Empty(needs.Assumed);
        DuplexerNeeds unknown = OwnTransmitter.Needs(receiver, "repeater output", 145_650_000, null, null, [], null, null);
        Assert.Null(unknown.NeededAtTransmitDb);
        Assert.Null(unknown.NeededAtReceiveDb);
        Assert.Equal(2, unknown.Missing.Count);
    }

    [Fact]
    public void Needs_met_exactly_leave_each_cause_10_dB_down()
    {
        // Consistency of needs and findings: with just the isolation needed, noise lies at -10 dB, blocking too.
        VictimReceiver receiver = Receiver with { ChainGainDb = 0 };
        BlockingPoint point = BlockingPoint.FromRatio(84, -107);
        DuplexerNeeds needs = OwnTransmitter.Needs(receiver, "own", 145_650_000, 44, Flat, [OwnTransmitter.ForBlocking(point)], null, null);
        StageCarrier carrier = new()
        {
            Name = "own",
            FrequencyHz = 145_650_000,
            BandwidthHz = 11_200,
            LevelDbm = 44 - needs.NeededAtTransmitDb,
        };

        CauseFinding noise = TransmitterNoise.OnChannel(
            receiver, Source(145_650_000, Made.Reach("own", 44, needs.NeededAtReceiveDb, 0, 0)), Flat)!;

        Assert.Equal(-10, noise.OverNoiseDb!.Value, 9);
        Assert.Equal(-10, Blocking.OfCarriers(receiver, [carrier], point)!.OverNoiseDb!.Value, 9);
    }

    [Fact]
    public void Outside_is_one_line_without_a_level()
    {
        CauseFinding finding = OutsideMixing.Possible(6)!;

        Assert.Null(finding.LevelDbm);
        Assert.Equal(CurePlace.StructureOwner, finding.Cause.CuredAt());
        Assert.Single(finding.Missing);
        Assert.Null(OutsideMixing.Possible(0));
    }

    [Fact]
    public void Word_is_one_of_the_fixed_words()
    {
        // docs/formats/results.md.
        const string Fixed =
            "direct transmitter_noise blocking cross_modulation image half_if spurious_response "
                + "harmonic reciprocal_mixing product_on_response outside adjacent_channel";

        Assert.Equal(Fixed.Split(' '), Enum.GetValues<CauseKind>().Select(static k => k.Word()));
        Assert.Throws<ArgumentOutOfRangeException>(() => ((CauseKind)99).Word());
    }

    private static RadiatedSource Source(long hertz, TransmitterReach reach) =>
        new()
        {
            Name = reach.Missing.Count == 0 && hertz == 48_350_000 ? "taxi" : "own",
            FrequencyHz = hertz,
            BandwidthHz = 11_200,
            Reach = reach,
        };
}
