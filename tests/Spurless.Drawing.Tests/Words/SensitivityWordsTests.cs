using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Words;

/// <summary>What 12 dB SINAD takes at the antenna, before and after a change, and whether the change costs more than it cures.</summary>
public sealed class SensitivityWordsTests
{
    // The fixture: noise -128.94 dBm, 7.5 dB to 12 dB SINAD, 1.2 dB of feedline: -120.24 dBm; the filter's 2.92 dB more: -117.32 dBm.
    private const string Both = "12 dB SINAD takes -117.3 dBm at the antenna connector; without the filter -120.2 dBm.";

    [Fact]
    public void Of_a_chain_without_a_filter_tells_one_figure() => Assert.Equal(
        "Where no mixture is on the air, 12 dB SINAD takes -120.2 dBm at the antenna connector.",
        SensitivityWords.Of(DemoStudy.Receiver(false, []), Typography.Plain));

    [Fact]
    public void Of_a_filter_with_nothing_to_cure_says_that_it_costs_more_than_it_cures()
    {
        string says = SensitivityWords.Of(Filtered([]), Typography.Plain);
        Assert.Contains(Both, says, StringComparison.Ordinal);
        Assert.Contains("costs more than it cures: with all that is known on the air a signal has to be 2.9 dB stronger", says,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Of_a_filter_that_cures_a_mixture_says_by_how_much_weaker_a_signal_may_be()
    {
        // 20 dB over the noise: 10 lg(1 + 100) = 20.04 dB of burden gone for 2.92 dB of loss.
        string says = SensitivityWords.Of(Filtered([Mixture(20)]), Typography.Plain);
        Assert.Contains(Both, says, StringComparison.Ordinal);
        Assert.Contains("a signal may be 17.1 dB weaker than before", says, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_what_is_not_known_claims_nothing()
    {
        ReceiverFindings cut = Filtered([Mixture(20)]) with { ProductsLeftOut = 3 };
        Assert.Contains("cannot be told here: the list was cut", SensitivityWords.Of(cut, Typography.Plain), StringComparison.Ordinal);
        ReceiverFindings unknown = Filtered([]) with
        {
            OtherCauses =
            [
                new OtherCause(
                    new CauseFinding
                    {
                        Cause = CauseKind.Blocking,
                        Emitter = null,
                        LevelDbm = null,
                        OverNoiseDb = null,
                        SigmaDb = null,
                        Missing = [new(MissingKind.Blocking)],
                    },
                    Verdict.Unknown),
            ],
        };
        Assert.Contains("is not known, as a level at this receiver is not", SensitivityWords.Of(unknown, Typography.Plain),
            StringComparison.Ordinal);
    }

    private static ReceiverFindings Filtered(IReadOnlyList<ProductFinding> without) =>
        DemoStudy.Receiver(true, []) with { WithoutFilter = DemoStudy.Receiver(false, without) };

    private static ProductFinding Mixture(double over) => DemoStudy.Product(
        DemoStudy.NoiseDbm + over, DemoStudy.NoiseDbm + over, Mechanism.Receiver, "repeater input", ("regional paging", 1),
            ("waterworks base", -2));
}
