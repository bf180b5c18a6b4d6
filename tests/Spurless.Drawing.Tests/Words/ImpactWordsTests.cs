using Spurless.Drawing.Words;
using Spurless.Sites.Levels;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Words;

/// <summary>What a mixture does, as a person reads it, and what is listed before what.</summary>
public sealed class ImpactWordsTests
{
    private static ProductFinding Paging(double? over) => DemoStudy.Product(
        over + DemoStudy.NoiseDbm, over + DemoStudy.NoiseDbm, Mechanism.Receiver, "repeater input", ("regional paging", 1),
            ("waterworks base", -2));

    private static ProductFinding Masts(double over) => DemoStudy.Product(
        over + DemoStudy.NoiseDbm, over + DemoStudy.NoiseDbm, Mechanism.Receiver, "repeater input", ("broadcast", 1), ("six-metre repeater",
            1));

    [Theory]
    [InlineData(7.5, "opens squelch")] // the fixture's squelch: 7.5 dB, the default on a raster of 12.5 kHz
    [InlineData(7.4, "costs 8.1 dB")] // 10 lg(1 + 10^0.74)
    [InlineData(0, "costs 3.0 dB")]
    [InlineData(-10, "costs 0.4 dB")]
    [InlineData(-10.1, "not heard")]
    public void Of_says_what_it_does(double over, string says) => Assert.Equal(says, ImpactWords.Of(Paging(over)));

    [Fact]
    public void Of_a_mixture_that_spoils_or_is_not_known_says_so()
    {
        Assert.Equal("spoils wanted", ImpactWords.Of(Paging(-3) with { Effects = new Effects(false, 1.8, true) }));
        Assert.Equal("level unknown", ImpactWords.Of(Paging(null)));
        Assert.Equal("not heard", ImpactWords.Of((ProductFinding?)null));
        Assert.Null(ImpactWords.Fixed(Impact.NotKnown));
    }

    [Fact]
    public void Numbered_findings_go_by_what_they_do_then_by_chance_and_time_then_by_level()
    {
        // The stronger one is on 1 % of the time, the weaker always; both open the squelch.
        ProductFinding seldom = Paging(30) with { OnTogether = 0.01 };
        Assert.Equal(["broadcast", "waterworks base"], Order(seldom, Masts(20)));
        // However often: what only costs sensitivity comes after what opens the squelch.
        Assert.Equal(["waterworks base", "broadcast"], Order(seldom, Masts(5)));
        // Alike in all else, the stronger first.
        Assert.Equal(["broadcast", "waterworks base"], Order(Paging(20), Masts(30)));
    }

    [Fact]
    public void Limits_say_what_stands_right_behind_them()
    {
        ReceiverFindings receiver = DemoStudy.Receiver(false, []);
        SearchLimits limits = new()
        {
            Orders = (2, 7),
            Signals = 3,
            FloorDbm = -148.9,
            SelectivityStated = false,
            More = new MoreSignals(4,
            5, 12, 23.04)
        };
        Assert.Equal(
            [
                "Looked for: orders 2 to 7, up to three emitters in one mixture, down to -148.9 dBm in the channel.",
                "No selectivity of the receiver is stated: every carrier counts as it arrives at its input.",
                "Four emitters in one mixture, orders up to 5, would add 12 harmful ones, "
                    + "the worst 23.0 dB over the noise: --signals 4 lists them.",
            ],
            LimitWords.Of(receiver with { Limits = limits }, Typography.Plain));
        Assert.Contains("would add no harmful one", Last(limits with { More = new MoreSignals(4, 5, 0, null) }), StringComparison.Ordinal);
        Assert.Contains("was not looked at", Last(limits with { More = null }), StringComparison.Ordinal);

        string Last(SearchLimits of) => LimitWords.Of(receiver with { Limits = of }, Typography.Plain).Last();
    }

    [Fact]
    public void Limits_say_how_rough_a_share_far_beside_the_channel_is()
    {
        // The spread is that which ToneAndDataTests and TailTests hold: law less simulation -16 to 26 dB for speech and data.
        SearchLimits limits = new() { Orders = (2, 7), Signals = 3, FloorDbm = -148.9, SelectivityStated = true, More = null };
        ProductFinding far = DemoStudy.Product(
            -90, -125.1, Mechanism.Receiver, "repeater input", ("regional paging", 1), ("waterworks base", -2));
        Assert.Contains(
            "Where over 35.0 dB of a mixture miss the channel, what falls in is a rough figure: with speech and data it may be some 15 dB "
                + "more or 25 dB less, with a steady tone further off still.",
            LimitWords.Of(DemoStudy.Receiver(false, [far]) with { Limits = limits }, Typography.Plain));
        Assert.DoesNotContain(
            LimitWords.Of(DemoStudy.Receiver(false, [far with { InChannelLevelDbm = -124.9 }]) with { Limits = limits }, Typography.Plain),
            static s => s.Contains("miss the channel", StringComparison.Ordinal));
    }

    [Fact]
    public void Turn_round_loss_that_is_not_stated_is_bounded_in_words()
    {
        NotComputed gap = new(NotComputedKind.TurnRoundLoss, ["a", "b"], []) { AtMostOverNoiseDb = [-3.04, 12.34] };
        Assert.Contains("usual base stations (6 to 20 dB) would make at most 12.3 dB over the noise", NotComputedWords.Of(gap),
            StringComparison.Ordinal);
        Assert.DoesNotContain("usual", NotComputedWords.Of(gap with { AtMostOverNoiseDb = [-3, null] }), StringComparison.Ordinal);
        Assert.Contains(
            "; what usual base stations (6 to 20 dB) would make lies at least 3.0 dB under the noise. To know it,",
            NotComputedWords.Of(gap with { AtMostOverNoiseDb = [-3.04, -8] }),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Arrivals_at_one_transmitter_and_at_several_are_told_as_such()
    {
        NotComputed gap = new(NotComputedKind.Arrivals, ["a"], ["b", "c"]);
        Assert.Contains("how strongly they arrive at its output is not stated", NotComputedWords.Of(gap), StringComparison.Ordinal);
        Assert.Contains(
            "how strongly it arrives at their outputs is not stated",
            NotComputedWords.Of(gap with { Transmitters = ["a", "d"], Others = ["b"] }),
            StringComparison.Ordinal);
    }

    private static string[] Order(params ProductFinding[] products) =>
        [.. NumberedFinding.Of(DemoStudy.Receiver(false, products)).Select(static f => f.Either.Terms[0].Name)];
}
