using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Reports.Plans;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Tests.Whole;
using Spurless.Sites.Plans;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Tests.Plans;

/// <summary>The sentences of a plan, whatever lands on its channels: counts agree, bounds are called bounds.</summary>
public sealed class PlanWordsTests
{
    private static readonly Gen<PlanScore> _score = Gen.Select(
        Gen.Int[0, 3], Gen.Int[0, 3], Gen.Int[0, 3], Gen.OneOf<double>(Gen.Double[-30, 60], Gen.OneOf(0.0, -0.04, 0.04)).Nullable(0.3),
        static (harmful, marginal, unknown, worst) => new PlanScore(harmful, marginal, unknown, worst));

    private static readonly Gen<PlanAnswer> _answer =
        from scores in _score.Array[0, 30]
        from taken in Gen.Select(Gen.Enum<PlanReason>(), Gen.OneOf("someone", "repeater inputs")).Array[0, 20]
        from present in Gen.Int[-1, 32]
        from transmitter in Gen.Bool
        from looks in Gen.Int[0, 3]
        select Answered.Plan.Value with
        {
            Channels = scores.Length + taken.Length,
            PresentHz = At(present),
            Offered = [.. scores.Select(static (s, i) => Channel(i, s)).OrderBy(static c => (c.Harmful, c.Marginal))],
            NotOffered = [.. taken.Select((t, i) => new PlanTaken(At(scores.Length + i), t.Item1, t.Item2))],
            Transmitters = transmitter ? [new PlanTransmitter("our own", At(present) - 600_000, -600_000)] : [],
            Looks = [.. Enumerable.Range(0, Math.Min(looks, scores.Length)).Select(static i => new PlanLook(At(i), i, [], []))],
            Together = null,
        };

    [Fact]
    public void Answer_of_any_band_counts_what_is_quiet_and_agrees_in_number() => _answer.Sample(static answer =>
    {
        if (answer.Channels == 0)
        {
            return;
        }

        string says = PlanWords.Answer(answer, Typography.Plain);
        WrittenText.Agree(says);
        WrittenText.Figures(says);
        Assert.EndsWith(".", says, StringComparison.Ordinal);
        Assert.Equal(answer.Channels == 1, says.Contains("the channel ", StringComparison.Ordinal));
        if (answer.Offered.Count == 0)
        {
            Assert.StartsWith("Nothing is offered of ", says, StringComparison.Ordinal);
            return;
        }

        Assert.Equal(answer.Quiet == 0, says.Contains("none is free", StringComparison.Ordinal));
        Assert.Equal(answer.Quiet == 1, says.Contains(" one is free", StringComparison.Ordinal));
        Assert.Contains($"the best is {PlanWords.Megahertz(answer.Offered[0].FrequencyHz)} MHz", says, StringComparison.Ordinal);

        // Where it stands now is told if it is among them, and once only.
        Assert.Equal(
            answer.Present is not null,
            says.Contains("It stands there now.", StringComparison.Ordinal) || says.Contains(" Where it stands now,",
                StringComparison.Ordinal));
    });

    [Fact]
    public void Lands_of_any_score_tells_every_count_that_is_not_nothing() => _score.Sample(static score =>
    {
        string says = PlanWords.Lands(score, Typography.Plain);
        WrittenText.Agree(says);
        WrittenText.Figures(says);
        Assert.Equal(score.Harmful > 0, says.Contains(" harmful", StringComparison.Ordinal));
        Assert.Equal(score.Marginal > 0, says.Contains(" marginal", StringComparison.Ordinal));
        Assert.Equal(score.Unknown > 0, says.Contains("unknown level", StringComparison.Ordinal));
        Assert.Equal(score.WorstOverNoiseDb is null, says.Contains("reaches the report floor", StringComparison.Ordinal));

        // Of what has no level nothing is claimed.
        Assert.Equal(
            score is { WorstOverNoiseDb: null, Unknown: > 0 }, says.Contains("no mixture of known level", StringComparison.Ordinal));
        if (score.WorstOverNoiseDb is { } db)
        {
            Assert.Contains(db >= 0 ? " over the noise" : " under the noise", says, StringComparison.Ordinal);
        }
    });

    [Fact]
    public void NotOffered_names_every_channel_or_their_number_by_reason() => _answer.Sample(static answer =>
    {
        string[] lines = [.. PlanWords.NotOffered(answer, Typography.Plain)];
        Assert.Equal(answer.NotOffered.Select(PlanWords.Why).Distinct().Count(), lines.Length);
        foreach (IGrouping<string, PlanTaken> group in answer.NotOffered.GroupBy(PlanWords.Why))
        {
            string line = lines.Single(l => l.EndsWith(": " + group.Key + ".", StringComparison.Ordinal));
            if (group.Count() <= 6)
            {
                Assert.All(group, t => Assert.Contains(PlanWords.Megahertz(t.FrequencyHz), line, StringComparison.Ordinal));
            }
            else
            {
                Assert.StartsWith($"{group.Count()} channels between ", line, StringComparison.Ordinal);
            }
        }
    });

    [Fact]
    public void Why_of_every_reason_is_its_own_and_names_who_stands_there()
    {
        string[] all = [.. Enum.GetValues<PlanReason>().Select(static r => PlanWords.Why(new PlanTaken(1, r, "NAME")))];
        Assert.Equal(all.Length, all.Distinct().Count());
        Assert.All(all, static w => Assert.Contains("NAME", w, StringComparison.Ordinal));
    }

    [Fact]
    public void Looked_says_how_many_were_looked_at_and_that_the_rest_were_not() => _answer.Sample(static answer =>
    {
        string says = PlanWords.Looked(answer);
        WrittenText.Agree(says);
        Assert.Equal(answer.Looks.Count > 1, says.Contains("the rest were not", StringComparison.Ordinal));
        Assert.Contains($"Orders {answer.Orders.Lowest} to {answer.Orders.Highest}", says, StringComparison.Ordinal);
    });

    [Theory]
    [InlineData(true, "No other set of as many is better.")]
    [InlineData(false, "another set could be better, but none can have fewer than 1 harmful and 0 marginal mixtures, or a worst under")]
    public void Together_says_best_only_of_what_is_proved_so(bool best, string says)
    {
        PlanTogether together = new()
        {
            FrequenciesHz = [145_000_000, 145_012_500],
            Score = new PlanScore(2, 0, 0, 12.3),
            Bound = new PlanScore(1, 0, 0, 4.5),
            IsBest = best,
            Problem = null,
        };
        string[] all = [.. PlanWords.Together(Answered.Plan.Value, together, Typography.Plain)];
        Assert.Equal(2, all.Length);
        Assert.Contains(says, all[1], StringComparison.Ordinal);
        Assert.Contains("2 mixtures harmful, the worst stands 12.3 dB over the noise", all[0], StringComparison.Ordinal);
        string[] none = [.. PlanWords.Together(Answered.Plan.Value, together with { Problem = "too few are offered" }, Typography.Plain)];
        Assert.Equal("No two channels side by side: too few are offered.", Assert.Single(none));
    }

    [Fact]
    public void Strip_shows_every_channel_once_in_order_and_the_best_first_of_the_list() => _answer.Sample(static answer =>
    {
        if (answer.Channels == 0)
        {
            return;
        }

        Drawing.Plans.PlanStripModel strip = PlanReport.Strip(answer);
        Assert.Equal(answer.Channels, strip.Channels.Count);
        Assert.Equal(strip.Channels.Select(static c => c.FrequencyHz).Order(), strip.Channels.Select(static c => c.FrequencyHz));
        Assert.Equal(answer.Offered.Count > 0 ? answer.Offered[0].FrequencyHz : null, strip.BestHz);
        foreach (PlanChannel channel in answer.Offered)
        {
            Drawing.Plans.PlanStripChannel shown = strip.Channels.Single(c => c.FrequencyHz == channel.FrequencyHz);
            Assert.False(shown.IsTaken);
            Assert.Equal(channel.IsQuiet, shown.Verdict == Verdict.Clear);
            Assert.Equal(channel.Harmful > 0, shown.Verdict == Verdict.Harmful);
        }
    });

    private static long At(int index) => 145_000_000 + (12_500L * index);

    private static PlanChannel Channel(int index, PlanScore score) => new()
    {
        FrequencyHz = At(index),
        Harmful = score.Harmful,
        Marginal = score.Marginal,
        Unknown = score.Unknown,
        SumOverNoiseDb = score.WorstOverNoiseDb,
        Worst = score.WorstOverNoiseDb is { } db ? new PlanProduct([new Term(0, "a", At(index) / 2, 2)], At(index), db) : null,
        Nearest = null,
    };
}
