using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Levels;

namespace Spurless.Drawing.Tests.Words;

/// <summary>Every kind of assumption, of missing figure and of gap has words of its own, and no figure of it is lost.</summary>
public sealed class AssumptionWordsTests
{
    public static TheoryData<AssumptionKind> Assumptions => [.. Enum.GetValues<AssumptionKind>()];

    public static TheoryData<MissingKind> MissingFigures => [.. Enum.GetValues<MissingKind>()];

    public static TheoryData<NotComputedKind> Gaps => [.. Enum.GetValues<NotComputedKind>()];

    [Theory]
    [MemberData(nameof(Assumptions))]
    public void Assumption_has_words_of_its_own(AssumptionKind kind)
    {
        string says = AssumptionWords.Of(Made(kind));
        Assert.NotEmpty(says);
        Assert.DoesNotContain(Enum.GetValues<AssumptionKind>().Where(k => k != kind), k => AssumptionWords.Of(Made(k)) == says);

        static Assumption Made(AssumptionKind kind) => new(kind)
        {
            Of = "one",
            FromHz = 1e6,
            ToHz = 2e6,
            FromOrder = 3,
            Order = 5,
            Value = 10,
            Note = new LevelNote.FilterEnds("told"),
        };
    }

    [Theory]
    [MemberData(nameof(MissingFigures))]
    public void Missing_figure_has_words_and_a_measurement(MissingKind kind)
    {
        MissingInput missing = new(kind, "one") { At = "other", FrequencyHz = 171_550_000, Times = 3 };
        Assert.NotEmpty(AssumptionWords.What(missing));
        Assert.DoesNotContain(
            Enum.GetValues<MissingKind>().Where(k => k != kind),
            k => AssumptionWords.What(missing with { Kind = k }) == AssumptionWords.What(missing));
        Assert.Equal($"{AssumptionWords.What(missing)}: {AssumptionWords.Measurement(missing)}", AssumptionWords.Missing(missing));
    }

    [Theory]
    [MemberData(nameof(Gaps))]
    public void Gap_names_its_transmitters_and_what_would_tell(NotComputedKind kind)
    {
        string says = NotComputedWords.Of(new NotComputed(kind, ["one", "two"], ["other"]));
        Assert.Contains("one and two", says, StringComparison.Ordinal);
        Assert.EndsWith(".", says, StringComparison.Ordinal);
        Assert.Matches("easure|read|feed", says);
    }

    [Theory]
    [InlineData(AssumptionKind.PathElsewhere, "path of one, measured at 158.3000 MHz, taken at 145.0500 MHz too")]
    [InlineData(AssumptionKind.IsolatorElsewhere, "isolator of one: the figure at 158.3000 MHz taken at 145.0500 MHz too")]
    public void Frequencies_are_told_to_the_hertz_where_they_need_it(AssumptionKind kind, string says) =>
        Assert.Equal(says, AssumptionWords.Of(new Assumption(kind) { Of = "one", FromHz = 158_300_000, ToHz = 145_050_000 }));

    [Fact]
    public void Oscillator_noise_is_not_a_transmitters()
    {
        Assumption held = new(AssumptionKind.NoiseHeld) { FromHz = 1e6, ToHz = 5e6 };
        Assert.Equal("oscillator noise: the figure at 1.0 MHz held to 5.0 MHz", AssumptionWords.Of(held));
        Assert.Equal("sideband noise of one: the figure at 1.0 MHz held to 5.0 MHz", AssumptionWords.Of(held with { Of = "one" }));
    }

    [Fact]
    public void Long_lists_of_names_are_counted_from_the_seventh_on() => Assert.Contains(
        "the transmitters of a, b, c, d, e, f and 2 more are not known",
        NotComputedWords.Of(new NotComputed(NotComputedKind.PowersAndCouplings, ["a", "b", "c", "d", "e", "f", "g", "h"], [])),
        StringComparison.Ordinal);
}
