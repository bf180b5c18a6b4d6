using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Words;

public class StudyWordsTests
{
    private static ProductFinding Paging(double? over) => DemoStudy.Product(
        over + DemoStudy.NoiseDbm, over + DemoStudy.NoiseDbm, Mechanism.Receiver, "repeater input", ("regional paging", 1),
        ("waterworks base", -2));

    [Fact]
    public void Mixture_begins_with_what_is_added() =>
        Assert.Equal("466.1000 - 2 x 160.5250 = 145.0500", StudyWords.Mixture(Paging(20), Typography.Plain));

    [Fact]
    public void Mixture_fine_typography_uses_proper_signs() =>
        Assert.Equal("466.1000 \u2212 2\u00A0\u00D7\u00A0160.5250 = 145.0500", StudyWords.Mixture(Paging(20), Typography.Fine));

    [Fact]
    public void Mixture_three_signals_and_five_decimals() => Assert.Equal(
        "145.6500 + 160.5250 - 161.1250 = 145.0500",
        StudyWords.Mixture(
            DemoStudy.Product(-100, -100, Mechanism.Receiver, "x", ("repeater output", 1), ("waterworks base", 1), ("highways base", -1)),
            Typography.Plain));

    [Fact]
    public void Answer_nothing_can_land_says_so() =>
        Assert.Equal("Nothing lands on 145.0500 MHz.", StudyWords.Answer(DemoStudy.Receiver(false, []), Typography.Plain));

    [Fact]
    public void Answer_only_weak_mixtures_names_the_nearest() => Assert.Equal(
        "Nothing lands on 145.0500 MHz above the noise; the nearest is 12.4 dB under it.",
        StudyWords.Answer(DemoStudy.Receiver(false, [Paging(-12.4)]), Typography.Plain));

    [Fact]
    public void Answer_one_marginal_says_so() => Assert.Equal(
        "Nothing lands on 145.0500 MHz above the noise; the nearest is 2.0 dB under it. One costs 2.1 dB of sensitivity.",
        StudyWords.Answer(DemoStudy.Receiver(false, [Paging(-2)]), Typography.Plain));

    [Fact]
    public void Answer_one_harmful_says_by_how_much() => Assert.Equal(
        "One mixture lands on 145.0500 MHz over the noise; it is 23.3 dB over it. It opens the squelch.",
        StudyWords.Answer(DemoStudy.Receiver(false, [Paging(23.3)]), Typography.Plain));

    [Fact]
    public void Answer_unknown_level_is_not_hidden() => Assert.Equal(
        "No mixture of known level lands on 145.0500 MHz. One mixture that can land there has no "
            + "level: the level of an emitter in it is not known.",
        StudyWords.Answer(DemoStudy.Receiver(false, [Paging(null)]), Typography.Plain));

    [Fact]
    public void Answer_demo_with_filter_says_what_sinks_and_what_stays() => Assert.Equal(
        "With the filter in, five of the six harmful mixtures on 145.0500 MHz sink under the noise. The "
            + "sixth is still 40.6 dB over it: 2 x 158.3000 - 171.5500. "
            + "It arrives already mixed, from the transmitter of the telemetry scanner: no filter here will cure it.",
        StudyWords.Answer(DemoStudy.WithFilter().Receivers[0], Typography.Plain));

    [Fact]
    public void Answer_all_sunk_says_all() => Assert.Equal(
        "With the filter in, the one harmful mixture on 145.0500 MHz sinks under the noise.",
        StudyWords.Answer(DemoStudy.Receiver(true, []) with { WithoutFilter = DemoStudy.Receiver(false, [Paging(5)]) }, Typography.Plain));

    [Fact]
    public void Answer_other_harmful_cause_is_named() => Assert.EndsWith(
        "Another cause, not a mixture, is harmful too: sideband noise of haulage base on the channel is "
            + "3.1 dB over the noise; no filter at the receiver removes it.",
        StudyWords.Answer(
            DemoStudy.Receiver(false, []) with
            {
                OtherCauses =
                [
                    new OtherCause(
                        new CauseFinding
                        {
                            Cause = CauseKind.TransmitterNoise,
                            Emitter = "haulage base",
                            LevelDbm = -125.8,
                            OverNoiseDb = 3.1,
                            SigmaDb = 2,
                        },
                        Verdict.Harmful),
                ],
            },
            Typography.Plain),
        StringComparison.Ordinal);

    [Fact]
    public void Numbered_findings_keep_their_numbers_when_the_filter_goes_in()
    {
        IReadOnlyList<NumberedFinding> with = NumberedFinding.Of(DemoStudy.WithFilter().Receivers[0]);
        Assert.Equal([1, 2, 3, 4, 5, 6, 7], with.Select(static f => f.Number));
        Assert.Equal(
            [
                FindingOutcome.StillThere, FindingOutcome.Cured, FindingOutcome.Cured, FindingOutcome.Cured, FindingOutcome.Cured,
                FindingOutcome.Cured, FindingOutcome.OnlyMarginalBefore,
            ],
            with.Select(static f => f.Outcome));
        Assert.Equal(Mechanism.Transmitter, with[0].Either.Mechanism);
        // The same terms mixed in the receiver are another finding.
        Assert.Equal(Mechanism.Receiver, with[1].Either.Mechanism);
    }
}
