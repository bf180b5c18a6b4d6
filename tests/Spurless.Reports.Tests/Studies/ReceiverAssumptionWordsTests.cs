using Spurless.Circuits.Measured;
using Spurless.Radio.Feedlines;
using Spurless.Radio.Quantities;
using Spurless.Reports.Studies;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;

namespace Spurless.Reports.Tests.Studies;

/// <summary>The sentences are those that the results of every release so far have had.</summary>
public sealed class ReceiverAssumptionWordsTests
{
    public static TheoryData<ReceiverAssumption, string> All => new()
    {
        { new ReceiverAssumption.NoExternalNoise(), "no external noise was stated, so none is counted" },
        { new ReceiverAssumption.BandwidthByRaster(8_000), "noise bandwidth 8 kHz by the channel's raster" },
        {
            new ReceiverAssumption.NoiseFromSensitivity(-119, 8.18),
            "noise derived from the 12 dB SINAD sensitivity of -119.0 dBm, 8.2 dB of carrier to noise there"
        },
        {
            new ReceiverAssumption.ImpossibleNoiseFigure(-2.54),
            "that sensitivity asks for a noise figure of -2.5 dB, which no receiver has: is it pd or emf, and the bandwidth right?"
        },
        {
            new ReceiverAssumption.InterceptMeasured(3, Level.FromDbm(-2.8), InterceptOrigin.Bench, 1.6),
            "IIP3 of -2.8 dBm measured on a bench, one sigma 1.6 dB"
        },
        {
            new ReceiverAssumption.InterceptMeasured(5, Level.FromDbm(-8), InterceptOrigin.OnTheAir, null),
            "IIP5 of -8 dBm calibrated on the air"
        },
        {
            new ReceiverAssumption.InterceptByTia603(-7.96, 70, -119, 5.5),
            "IIP3 -8.0 dBm from 70 dB of intermodulation rejection (tia603) over -119.0 dBm, with 5.5 dB carrier to noise"
        },
        {
            new ReceiverAssumption.InterceptByEn300086(-5.04, 65.5, -107, 8),
            "IIP3 -5.0 dBm from 65.5 dB of intermodulation rejection (en300086) over -107.0 dBm, "
                + "with a co-channel rejection of 8 dB"
        },
        { new ReceiverAssumption.TypicalFeedline(Rg213), "attenuation of rg213 is a typical value from memory" },
        {
            new ReceiverAssumption.ReflectionTaken(0.5, AtAntenna: true, AtReceiver: true),
            "a reflection coefficient of 0.5 out of band at the antenna and the receiver, for the band of rejection"
        },
        {
            new ReceiverAssumption.ReflectionTaken(0.5, AtAntenna: true, AtReceiver: false),
            "a reflection coefficient of 0.5 out of band at the antenna, for the band of rejection"
        },
        {
            new ReceiverAssumption.ReflectionTaken(0.5, AtAntenna: false, AtReceiver: true),
            "a reflection coefficient of 0.5 out of band at the receiver, for the band of rejection"
        },
        {
            new ReceiverAssumption.LeakageNotStated("hardly a path", 100.9, 70),
            "hardly a path is computed to reject up to 101 dB; beyond 70 dB leakage round an unscreened circuit decides, and none is "
                + "stated (leakage: 80 dB in its file caps it)"
        },
    };

    private static FeedlineType Rg213 => FeedlineType.All.Single(static t => t.Name == "rg213");

    [Theory]
    [MemberData(nameof(All))]
    public void Assumption_in_words(ReceiverAssumption assumption, string expected) =>
        Assert.Equal(expected, ReceiverAssumptionWords.Of(assumption));

    [Fact]
    public void Remark_on_a_sweep_names_its_file() =>
        Assert.StartsWith(
            "half.s2p: ",
            ReceiverAssumptionWords.Of(new ReceiverAssumption.OfSweep("half.s2p", new NetworkRemark.TurnsTooOften())),
            StringComparison.Ordinal);

    /// <summary>Whoever adds one and forgets its words finds out here.</summary>
    [Fact]
    public void Every_kind_of_assumption_stands_above() =>
        Assert.Equal(
            typeof(ReceiverAssumption).GetNestedTypes().Select(static t => t.Name).Order(StringComparer.Ordinal),
            All.Select(static row => row.Data.Item1.GetType().Name).Append(nameof(ReceiverAssumption.OfSweep)).Distinct()
                .Order(StringComparer.Ordinal));
}
