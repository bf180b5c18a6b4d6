using Spurless.Drawing.Words;
using Spurless.Reports.Studies;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Studies;

/// <summary>What to measure next, whom to ask and what is coming, in words.</summary>
public sealed class AdviceWordsTests
{
    [Theory]
    [InlineData(0, 20, "an isolator at its transmitter: 20.0 dB of isolation against")]
    [InlineData(0, 20.02, "an isolator at its transmitter: 20.1 dB of isolation against")] // 20.0 would leave it over the noise
    [InlineData(25, 20, "a double isolator at its transmitter: 20.0 dB of isolation more than the 25 dB it has against")]
    [InlineData(
        25, 40, "a double isolator and a filter at its output at its transmitter: 40.0 dB of isolation more than the 25 dB it has against")]
    public void AskOwner_names_what_gives_so_much_in_all(double has, double needed, string says)
    {
        ProductFinding made = DemoStudy.WithFilter().Receivers[0].Products.First(static p => p.Mechanism == Mechanism.Transmitter) with
        {
            OverNoiseDb = needed,
            Sum = new TransmitterSum
            {
                Transmitter = "telemetry scanner",
                PowerDbm = 33,
                Incoming = [new IncomingCarrier("gauging station", 171_550_000, 1, 37, 45, 0, has, -8 - has, 2)],
                TurnRoundLossDb = 12,
                TurnRoundSigmaDb = 3,
                OutputFilterDb = 0,
                LeavesDbm = -20,
                PathDb = 64,
                PathSigmaDb = 2,
                AtAntennaDbm = -84,
                ChainGainDb = -1.2,
            },
        };
        Assert.Equal(
            $"Ask whoever keeps telemetry scanner for {says} what comes in there bring this mixture down to the noise.",
            AdviceWords.AskOwner(made));
        Assert.Null(AdviceWords.AskOwner(made with { OverNoiseDb = -0.1 }));
    }

    // 10 dB over the noise, third order, all carriers alike: 10/3 dB; with 3.3 dB 0.1 dB would be left.
    [Fact]
    public void AtReceiver_asks_for_as_much_as_ends_it()
    {
        ReceiverFindings receiver = DemoStudy.Receiver(
            false,
            [
                DemoStudy.Product(-100, -100, Mechanism.Receiver, "repeater input", ("regional paging", 1), ("waterworks base", -2)) with
                {
                    OverNoiseDb = 10,
                    Verdict = Verdict.Harmful,
                },
            ]);
        Assert.Equal(
            "Put a filter in front of your receiver: with its carriers weaker by 3.4 dB each, the mixture made there is down at the noise.",
            AdviceWords.AtReceiver(receiver));
    }

    [Fact]
    public void MeasureNext_of_a_product_without_a_level_is_the_emitter_nobody_knows()
    {
        ReceiverFindings receiver = DemoStudy.Receiver(
            false, [DemoStudy.Product(null, null, Mechanism.Receiver, "repeater input", ("regional paging", 1), ("waterworks base", -2))]);
        receiver = receiver with
        {
            Carriers = [.. receiver.Carriers.Select(static c => c.Emitter == "waterworks base" ? c with { LevelAtAntennaDbm = null } : c)],
        };
        Assert.Equal(
            "Measure next how strong waterworks base arrives: a mixture with it can land here, at a level nobody knows.",
            AdviceWords.MeasureNext(receiver, Typography.Plain));
    }

    [Fact]
    public void LongListText_says_that_it_is_a_forecast_and_what_to_write()
    {
        string says = LongListText.Says(new LongList("input", 234_567, 3000));
        Assert.StartsWith("about 230,000 mixtures are coming on input (a forecast, good to some 10 %)", says, StringComparison.Ordinal);
        Assert.Contains("--top N", says, StringComparison.Ordinal);
    }
}
