using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Reports.Cures;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Cures;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Cures;

/// <summary>Ways out in words: what ends it is said to end it, what is left is counted, and one way is one.</summary>
public sealed class CureWordsTests
{
    private static readonly CuredReceiver _none = new()
    {
        Before = DemoStudy.WithoutFilter().Receivers[0],
        Index = 0,
        Needs = new AttenuationNeeds([], []),
        Cures = [],
        Tried = 20,
        Dominated = 5,
        Useless = 6,
        Combined = false,
        MadeElsewhere = [],
    };

    private static readonly Gen<Cure> _cure =
        from harmful in Gen.Int[0, 3]
        from others in Gen.Int[0, 2]
        from unknown in Gen.Int[0, 2]
        from worst in Gen.Double[-30, 30].Nullable(0.3)
        from loss in Gen.Double[-3, 6]
        from pad in Gen.Bool
        select new Cure
        {
            Steps = pad ? [new PadStep(6, ChainPlace.AtReceiver)] : [new PowerStep("mast base", 3), new AmplifierStep(true)],
            Harmful = harmful,
            Marginal = 1,
            Unknown = unknown,
            OtherHarmful = others,
            WorstOverNoiseDb = worst,
            SumOverNoiseDb = worst,
            WantedLossDb = loss,
            Left = [],
            QuietChance = 0.5,
            CuresHeard = null,
            Text = "",
            Files = new Dictionary<string, string>(),
        };

    private static readonly Gen<CuredReceiver> _cured = Gen.Select(_cure.Array[0, 6], Gen.Int[1, 400]).Select(static (cures, tried) =>
        _none with { Cures = [.. cures.OrderByDescending(static c => c.EndsIt).ThenBy(static c => c.Harmful)], Tried = tried });

    [Fact]
    public void AboveList_counts_the_ways_that_end_it_and_agrees_with_their_number() => _cured.Sample(static cured =>
    {
        string says = CureWords.AboveList(cured, Typography.Plain);
        WrittenText.Agree(says);
        WrittenText.Figures(says);
        int ends = cured.Cures.Count(static c => c.EndsIt);
        string count = StudyWords.Capital(Figures.CountInWords(ends)) + " of ";
        Assert.Equal(ends > 0, says.Contains(" studied leave", StringComparison.Ordinal));
        if (ends > 0)
        {
            Assert.StartsWith(count, says, StringComparison.Ordinal);
            Assert.Contains(ends == 1 ? " leaves no harmful mixture and is not beaten" : " leave no harmful mixture and are not beaten",
                says, StringComparison.Ordinal);
            Assert.Contains(cured.Tried == 1 ? " 1 way that was studied" : " ways that were studied", says, StringComparison.Ordinal);
        }
    });

    [Fact]
    public void Conclusion_says_that_it_ends_only_of_what_ends_it() => _cured.Sample(static cured =>
    {
        string says = CureWords.Conclusion(cured, Typography.Plain);
        WrittenText.Agree(says);
        WrittenText.Figures(says);
        bool ends = cured.Cures.Count > 0 && cured.Cures[0].EndsIt;
        Assert.Equal(ends, says.Contains("This ends ", StringComparison.Ordinal) || says.Contains(" together end ",
            StringComparison.Ordinal));
        if (!ends)
        {
            Assert.Contains("Nothing that was tried ", says, StringComparison.Ordinal);
            return;
        }

        Cure best = cured.Cures[0];

        // What stays in spite of it is said, and 'it' is not ended by what ends the mixtures only.
        Assert.Equal(best.OtherHarmful > 0, says.Contains("no mixture", StringComparison.Ordinal) && says.Contains("stay",
            StringComparison.Ordinal));
        Assert.Equal(best.OtherHarmful == 0, says.Contains("end it:", StringComparison.Ordinal) || says.Contains("ends it:",
            StringComparison.Ordinal));
        Assert.Equal(best.Unknown > 0, says.Contains("those of unknown level are not judged", StringComparison.Ordinal));
        Assert.Equal(best.WantedLossDb > 0.05, says.Contains("dB stronger", StringComparison.Ordinal));
        Assert.Equal(best.WantedLossDb < -0.05, says.Contains("dB weaker", StringComparison.Ordinal));
    });

    [Fact]
    public void Conclusion_of_a_receiver_without_harm_says_there_is_nothing_to_cure_and_by_how_much()
    {
        ReceiverFindings quiet = DemoStudy.Receiver(false,
            [DemoStudy.Product(-130, -132.5, Mechanism.Receiver, "repeater input", ("bus fleet base", 2), ("rescue base", -1))]);
        string says = CureWords.Conclusion(_none with { Before = quiet }, Typography.Plain);
        Assert.Equal(
            "Nothing to cure: no mixture of known level is harmful, and the strongest mixture stands 3.6 dB under the noise.", says);
        Assert.Equal(
            "Nothing to cure: no mixture of known level is harmful, and no mixture is listed.",
            CureWords.Conclusion(_none with { Before = DemoStudy.Receiver(false, []) }, Typography.Plain));
    }

    [Fact]
    public void Who_names_each_actor_once_you_first() => _cure.Sample(static cure =>
    {
        string who = CureWords.Who(cure);
        string[] actors = who.Split(" and ");
        Assert.Equal(actors.Length, actors.Distinct().Count());
        Assert.Equal(cure.Steps.Any(static s => s.Actor == CureActor.You), actors[0] == "you");
        Assert.StartsWith(StudyWords.Capital(who) + "; ", CureWords.WhoAndWhat(cure), StringComparison.Ordinal);

        // What costs nothing of the range says nothing of it.
        Assert.Equal(
            Math.Abs(cure.WantedLossDb) >= 0.05, CureWords.WhoAndWhat(cure).Contains("; range ", StringComparison.Ordinal));
    });

    [Fact]
    public void SoFar_of_an_unfinished_list_claims_nothing_of_what_it_does_not_hold() => _cured.Sample(static cured =>
    {
        string says = CureWords.SoFar(cured, Typography.Plain);
        Assert.Contains("until now", says, StringComparison.Ordinal);
        Assert.DoesNotContain(" ends ", says, StringComparison.Ordinal);
        WrittenText.Figures(says);
    });

    [Theory]
    [InlineData(0, "under 1 %")]
    [InlineData(0.01, "1 %")]
    [InlineData(0.5, "50 %")]
    [InlineData(0.99, "99 %")]
    [InlineData(1, "over 99 %")]
    public void Percent_claims_neither_never_nor_always(double chance, string says) => Assert.Equal(says, CureWords.Percent(chance));

    [Fact]
    public void Ranks_shown_are_the_best_three_and_the_one_chosen_once()
    {
        CuredReceiver cured = _none with { Cures = [.. Enumerable.Repeat(_cure.Single(), 7)] };
        Assert.Equal([1, 2, 3], ReportedWays.Ranks(cured, null));
        Assert.Equal([1, 2, 3], ReportedWays.Ranks(cured, 2));
        Assert.Equal([1, 2, 3, 6], ReportedWays.Ranks(cured, 6));
        ReportedWays ways = new(
            new CureAnswer(null!, DemoStudy.WithoutFilter(), null, [cured]), new Dictionary<int, int> { [0] = 8 });
        Assert.Null(ways.ChosenOf(0)); // a rank above the list's names none
        Assert.Null(ways.Of(5));
        Assert.Equal(7, (ways with { Chosen = new Dictionary<int, int> { [0] = 7 } }).ChosenOf(0));
    }
}
