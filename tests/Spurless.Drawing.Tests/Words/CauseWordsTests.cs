using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Tests.Words;

/// <summary>Sentences about causes and modulations say what their figures say, and a missing figure is never a number.</summary>
public sealed class CauseWordsTests
{
    [Theory]
    [InlineData(0.80, "likely")]
    [InlineData(0.79, "possible")]
    [InlineData(0.20, "possible")]
    [InlineData(0.19, "unlikely")]
    public void Chance_has_its_word(double chance, string word) => Assert.Equal(word, HeardWords.Chance(chance));

    [Fact]
    public void Chance_that_is_not_known_has_none() => Assert.Null(HeardWords.Chance(null));

    [Theory]
    [InlineData(3.14, "on the channel, 3.1 dB over the noise in it.")]
    [InlineData(-3.14, "on the channel, 3.1 dB under the noise in it.")]
    [InlineData(null, "on the channel; its level is not known.")]
    public void Direct_emitter_is_told_by_its_level(double? over, string says) =>
        Assert.Equal("taxi stands " + says, CauseWords.Says(Cause(CauseKind.Direct, over)));

    [Fact]
    public void Emitter_beside_the_centre_is_told_by_how_far() => Assert.Equal(
        "taxi stands 2.5 kHz beside the channel's centre; its level is not known.",
        CauseWords.Says(new OtherCause(Finding(CauseKind.Direct, null) with { OffsetHz = -2500 }, Verdict.Unknown)));

    [Fact]
    public void Blocking_of_an_amplifier_names_it_and_which_side_of_its_point_it_is() => Assert.Equal(
        "In amplifier 1: All carriers together bring -30.0 dBm, 2.0 dB under the blocking point: "
            + "2.1 dB of sensitivity lost; taxi is the strongest.",
        // 10 lg(1 + 10^-0.2) = 2.12 dB
        CauseWords.Says(new OtherCause(Finding(CauseKind.Blocking, -2), Verdict.Marginal) { Stage = "amplifier 1" }));

    [Theory]
    [InlineData(
        CauseKind.Image,
        1,
        false,
        "taxi stands on the image of the first conversion (102.2500 MHz); how strong that comes through is not known.")]
    [InlineData(
        CauseKind.SpuriousResponse,
        2,
        true,
        "taxi stands on the second intermediate frequency (102.2500 MHz); how strong that comes through is not known.")]
    public void Response_is_named_by_its_conversion(CauseKind kind, int conversion, bool intermediate, string says)
    {
        SuperhetResponse response = new()
        {
            Cause = kind,
            Conversion = conversion,
            P = 1,
            Q = 1,
            TimesPHz = 102_250_000,
            AtIntermediate = intermediate,
        };
        Assert.Equal(says, CauseWords.Says(new OtherCause(Finding(kind, null) with { Response = response }, Verdict.Unknown)));
    }

    private static OtherCause Cause(CauseKind kind, double? over) => new(Finding(kind, over), Verdict.Unknown);

    private static CauseFinding Finding(CauseKind kind, double? over) => new()
    {
        Cause = kind,
        Emitter = "taxi",
        LevelDbm = over is null ? null : -30,
        OverNoiseDb = over,
        SigmaDb = null,
    };
}
