using Spurless.Mixing.Causes;

namespace Spurless.Mixing.Tests.Causes;

/// <summary>A carrier on a neighbouring channel.</summary>
public sealed class AdjacentChannelTests
{
    private static readonly VictimReceiver Receiver = new()
    {
        Name = "input",
        FrequencyHz = 145_050_000,
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = -126.5,
        ChainGainDb = 0,
    };

    private static readonly StageCarrier Near =
        new() { Name = "near", FrequencyHz = 145_075_000, BandwidthHz = 11_200, LevelDbm = -40, SigmaDb = 2 };

    [Fact]
    public void OfCarrier_repeats_the_test_that_defines_the_figure()
    {
        // TIA-603 (from memory): sensitivity S = N + CN12 = -119 dBm; the carrier S + 70 dB makes what comes through equal to N, so that a
        // signal of
        // S + 3 dB is back at 12 dB SINAD: 10 lg of (N + N) is 3.01 dB over N.
        CauseFinding finding = AdjacentChannel.OfCarrier(
            Receiver, Near with { LevelDbm = -119 + 70 }, AdjacentSelectivity.FromPoints(new FrequencyResponsePoint(25_000, 70)), 7.5)!;

        Assert.Equal(0, finding.OverNoiseDb!.Value, 9);
        Assert.Equal(3.01, finding.DesenseDb!.Value, 2);
        Assert.Equal("adjacent_channel", finding.Cause.Word());
    }

    [Theory]
    [InlineData(12_500, 60, false)]
    [InlineData(25_000, 60, false)]
    [InlineData(25_001, 0, true)]
    public void Usual_selectivity_is_taken_to_two_rasters_and_marked(long offset, double rejects, bool nothing)
    {
        CauseFinding? finding = AdjacentChannel.OfCarrier(
            Receiver, Near with { FrequencyHz = 145_050_000 + offset }, AdjacentSelectivity.Usual(12_500), 7.5);

        Assert.Equal(nothing, finding is null);
        if (finding is not null)
        {
            // By hand: -40 - 60 - 7.5; sigma of 2 and 6 dB.
            Assert.Equal(-40 - rejects - 7.5, finding.LevelDbm!.Value, 9);
            Assert.Equal(Math.Sqrt(40), finding.SigmaDb!.Value, 9);
            Assert.Equal(AssumptionKind.AdjacentSelectivity, Assert.Single(finding.Assumed).Kind);
        }
    }

    [Fact]
    public void AtDb_is_linear_over_the_logarithm_of_the_offset_and_held_at_the_ends()
    {
        AdjacentSelectivity two = AdjacentSelectivity.FromPoints(
            new FrequencyResponsePoint(50_000, 80), new FrequencyResponsePoint(12_500, 60));

        Assert.Equal(70, two.AtDb(-25_000), 9);
        Assert.Equal(60, two.AtDb(10_000), 9);
        Assert.Equal(80, two.AtDb(90_000), 9);
        Assert.Null(two.AssumedAt(25_000));
        Assert.Equal(AssumptionKind.AdjacentHeld, two.AssumedAt(90_000)!.Kind);
        Assert.False(two.Covers(100_001));
        Assert.Null(AdjacentChannel.OfCarrier(Receiver, Near with { FrequencyHz = 145_060_000 }, two, 7.5)); // on the channel: direct
        Assert.Null(AdjacentChannel.OfCarrier(Receiver, Near with { LevelDbm = null }, two, 7.5)!.LevelDbm);
        Assert.Throws<ArgumentException>(() => AdjacentSelectivity.FromPoints());
        Assert.Throws<ArgumentException>(() => AdjacentSelectivity.FromPoints(new FrequencyResponsePoint(12_500, 0)));
    }
}
