using Spurless.Mixing.Causes;

namespace Spurless.Mixing.Tests.Causes;

/// <summary>A figure is not stretched: over a tenth of its offset or frequency away it only bounds what is there.</summary>
public sealed class BoundTests
{
    private static readonly VictimReceiver Receiver = new()
    {
        Name = "input",
        FrequencyHz = 145_050_000,
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = -128.94,
        ChainGainDb = 0,
    };

    private static readonly SidebandNoise AtOneMegahertz = SidebandNoise.FromPoints(new NoisePoint(1e6, -145));

    [Theory]
    [InlineData(900_000, true)]
    [InlineData(1_100_000, true)]
    [InlineData(899_000, false)]
    [InlineData(1_101_000, false)]
    [InlineData(-293_000_000, false)]
    public void Covers_holds_within_a_tenth_of_the_offset(double offset, bool covered) =>
        Assert.Equal(covered, AtOneMegahertz.Covers(offset));

    [Fact]
    public void AtMostDbc_holds_outwards_and_rises_30_dB_a_decade_inwards()
    {
        // By hand: -145 + 10 lg 8000 = -105.97; a tenth of the offset is one decade nearer.
        Assert.Equal(-105.97, AtOneMegahertz.AtMostDbc(-293e6, 8_000), 0.01);
        Assert.Equal(-75.97, AtOneMegahertz.AtMostDbc(100_000, 8_000), 0.01);
    }

    [Fact]
    public void AtMostDbc_bounds_an_oscillator_by_the_law_of_Leeson_in_all_its_regions()
    {
        // D. B. Leeson, Proc. IEEE 54 (1966) 329: S(f) = F (1 + (f_L/f)^2)(1 + f_c/f). Whatever the corners are, one figure bounds both
        // sides.
        foreach (double half in (double[])[1e3, 3e4, 1e6])
        {
            foreach (double flicker in (double[])[1e2, 1e4, 1e6])
            {
                double Law(double f) => -165 + (10 * Math.Log10((1 + (half / f * half / f)) * (1 + (flicker / f))));
                SidebandNoise one = SidebandNoise.FromPoints(new NoisePoint(1e5, Law(1e5)));
                for (double f = 1e4; f < 1e8; f *= 1.7)
                {
                    Assert.True(one.AtMostDbc(f, 1) >= Law(f) - 1e-9, $"at {f} Hz");
                }
            }
        }
    }

    [Fact]
    public void TransmitterNoise_far_from_the_offset_stated_is_bounded_not_known()
    {
        RadiatedSource source = Source("a", 438_000_000, 438_000_000);
        CauseFinding finding = TransmitterNoise.OnChannel(
            Receiver, source with { Reach = source.Reach with { AtMostDbm = null } }, AtOneMegahertz)!;

        Assert.Null(finding.LevelDbm);
        Assert.Null(finding.OverNoiseDb);
        // By hand: -20 - 145 + 39.03.
        Assert.Equal(-125.97, finding.AtMostDbm!.Value, 0.01);
        Assert.Equal(2.97, finding.AtMostOverNoiseDb!.Value, 0.01);
        Assert.Equal(MissingKind.SidebandNoise, Assert.Single(finding.Missing).Kind);
        Assert.False(finding.BoundByUsual);
    }

    [Fact]
    public void TransmitterNoise_over_a_path_of_another_band_is_bounded_by_free_space()
    {
        SidebandNoise there = SidebandNoise.FromPoints(new NoisePoint(293e6, -160));
        CauseFinding finding = TransmitterNoise.OnChannel(Receiver, Source("a", 438_000_000, 438_000_000), there)!;

        Assert.Null(finding.LevelDbm);
        // By hand: -20 + 20 lg(438/145.05) - 160 + 39.03 = -20 + 9.60 - 120.97.
        Assert.Equal(-131.37, finding.AtMostDbm!.Value, 0.01);
        Assert.Equal(MissingKind.PathOnChannel, Assert.Single(finding.Missing).Kind);
        // Under the channel's frequency nothing is added: the same path loses more there.
        Assert.Equal(-20, Source("b", 94_000_000, 94_000_000).Reach.AtMostDbm);
        Assert.Null(Source("c", 158_300_000, 158_300_000).Reach.AtMostDbm);
        // Sigma: 2 dB and 10 dB in squares.
        Assert.Equal(Math.Sqrt(104), Source("a", 438_000_000, 438_000_000).Reach.SigmaDb, 9);
    }

    [Fact]
    public void TransmitterNoise_without_any_figure_is_bounded_by_a_usual_base_station()
    {
        CauseFinding finding = TransmitterNoise.OnChannel(Receiver, Source("a", 147_000_000, 147_000_000), null)!;

        Assert.Null(finding.LevelDbm);
        Assert.True(finding.BoundByUsual);
        // Common practice: -140 dBc/Hz from 1 MHz on. By hand: -20 - 140 + 39.03.
        Assert.Equal(-120.97, finding.AtMostDbm!.Value, 0.01);
        // 600 kHz away 20 dB a decade more: 4.44 dB.
        CauseFinding near = TransmitterNoise.OnChannel(Receiver, Source("a", 145_650_000, 145_650_000), null)!;
        Assert.Equal(-120.97 + 4.44, near.AtMostDbm!.Value, 0.01);
    }

    [Fact]
    public void Harmonic_over_a_path_of_another_band_is_bounded()
    {
        RadiatedSource source = Source("a", 48_350_000, 48_350_000) with { BandwidthHz = 0 };
        CauseFinding finding = HarmonicCause.OnChannel(Receiver, source, [new HarmonicLevel(3, -70)])!;

        Assert.Null(finding.LevelDbm);
        Assert.Equal(-90, finding.AtMostDbm!.Value, 9);
        Assert.Contains(finding.Missing, static m => m.Kind == MissingKind.PathOnChannel);
    }

    [Fact]
    public void ReciprocalMixing_adds_what_is_stated_and_bounds_the_rest()
    {
        StageCarrier near = new() { Name = "near", FrequencyHz = 146_050_000, BandwidthHz = 11_200, LevelDbm = -30, SigmaDb = 2 };
        StageCarrier far = new() { Name = "far", FrequencyHz = 438_000_000, BandwidthHz = 11_200, LevelDbm = -20, SigmaDb = 2 };

        CauseFinding both = ReciprocalMixing.OfCarriers(Receiver, [near, far], AtOneMegahertz)!;
        CauseFinding alone = ReciprocalMixing.OfCarriers(Receiver, [far], AtOneMegahertz)!;

        // By hand: -30 - 105.97; the sum with -20 - 105.97 is 10.41 dB more.
        Assert.Equal(-135.97, both.LevelDbm!.Value, 0.01);
        Assert.Equal(-125.55, both.AtMostDbm!.Value, 0.01);
        Assert.Equal("near", both.Emitter);
        Assert.Null(alone.LevelDbm);
        Assert.Equal(-125.97, alone.AtMostDbm!.Value, 0.01);
    }

    private static RadiatedSource Source(string name, long hertz, long measuredHz) => new()
    {
        Name = name,
        FrequencyHz = hertz,
        BandwidthHz = 11_200,
        Reach = TransmitterReach.FromMeasured(name, -20, 2, measuredHz, Receiver.FrequencyHz, 0, 0),
    };
}
