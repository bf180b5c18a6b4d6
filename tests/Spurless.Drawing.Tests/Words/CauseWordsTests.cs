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

    // An upper bound of the level is a least distance under the noise, and a lower bound a greatest: 'at most 3 dB under the noise' would
    // put the level between the two.
    [Theory]
    [InlineData(CauseKind.TransmitterNoise, 7.34, "Sideband noise of taxi on the channel is not known; at most 7.3 dB over the noise.")]
    [InlineData(CauseKind.TransmitterNoise, -7.34, "Sideband noise of taxi on the channel is not known; at least 7.3 dB under the noise.")]
    [InlineData(
        CauseKind.ReciprocalMixing,
        -0.26,
        "Oscillator noise of the receiver, impressed on the carriers, is not known at their offsets; at least 0.3 dB under the noise.")]
    public void Bound_of_an_unknown_level_is_told_from_above(CauseKind kind, double most, string says) =>
        Assert.Equal(says, CauseWords.Says(new OtherCause(Finding(kind, null) with { AtMostOverNoiseDb = most }, Verdict.Unknown)));

    [Theory]
    [InlineData(-13.2, -12.9, "is at most 13.2 dB under the noise", "it is at least 12.9 dB under the noise.")]
    [InlineData(-1.0, 2.0, "is at most 1.0 dB under the noise", "it is at most 2.0 dB over the noise.")]
    [InlineData(3.0, 4.5, "is at least 3.0 dB over the noise", "it is at most 4.5 dB over the noise.")]
    public void Oscillator_noise_lies_between_two_bounds(double least, double most, string known, string bound)
    {
        string says = CauseWords.Says(
            new OtherCause(Finding(CauseKind.ReciprocalMixing, least) with { AtMostOverNoiseDb = most }, Verdict.Unknown));
        Assert.Contains(known, says, StringComparison.Ordinal);
        Assert.EndsWith(bound, says, StringComparison.Ordinal);
    }

    // Harmless is 10 dB under the noise: a density that is rounded up would promise it too early.
    [Theory]
    [InlineData(-180.37, "-181")]
    [InlineData(-151.8, "-152")]
    [InlineData(-140.0, "-140")]
    public void Density_that_is_harmless_is_never_rounded_up(double dbcPerHz, string printed) => Assert.EndsWith(
        $"at most 7.3 dB over the noise; it is harmless below {printed} dBc/Hz at 700 kHz.",
        CauseWords.Says(new OtherCause(
            Finding(CauseKind.TransmitterNoise, null) with { AtMostOverNoiseDb = 7.3, HarmlessDbcPerHz = dbcPerHz, OffsetHz = 700_000 },
            Verdict.Unknown)),
        StringComparison.Ordinal);

    [Fact]
    public void Bound_of_a_response_is_that_of_a_signal()
    {
        SuperhetResponse image = new()
        {
            Cause = CauseKind.Image,
            Conversion = 1,
            P = 1,
            Q = 1,
            TimesPHz = 102_250_000,
            AtIntermediate = false,
        };
        Assert.EndsWith(
            "is not known, like a signal at least 5.0 dB under the noise.",
            CauseWords.Says(new OtherCause(
                Finding(CauseKind.Image, null) with { Response = image, AtMostOverNoiseDb = -5 }, Verdict.Unknown)),
            StringComparison.Ordinal);
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
