using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Reports.Newcomers;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Tests.Whole;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Reports.Tests.Newcomers;

/// <summary>
/// Yes or no to a newcomer, whatever he does: never a yes over something harmful, never a bare yes over something not known.
/// </summary>
public sealed class NewcomerWordsTests
{
    private static readonly Gen<NewcomerReceiver> _receiver =
        from findings in RandomStudies.Receiver(4)
        from causes in Gen.Select(
            Gen.OneOf(CauseKind.Blocking, CauseKind.TransmitterNoise, CauseKind.Direct), Gen.Double[-30, 30].Nullable(0.2),
            Gen.Enum<SumOf>().Nullable()).Array[0, 3]
        from of in Gen.Bool
        from needs in Gen.Select(Gen.Enum<NewcomerNeedKind>(), Gen.Bool, Gen.Double[0.1, 60].Nullable(0.2)).Array[1, 3]
        let listed = findings with { NotComputed = [], WithoutFilter = null, OtherCauses = [] }
        let receiver = new NewcomerReceiver
        {
            Findings = listed,
            OfNewcomer = of,
            Causes = [.. causes.Select(static c => Cause(c.Item1, c.Item2, c.Item3)).OrderBy(static c => c.Cause.Verdict)],
        }
        select receiver.Passes ? receiver : receiver with
        {
            Needs = [.. needs.Select(static n => new NewcomerNeed(n.Item1, ["dale link one"], n.Item2, n.Item3))],
        };

    private static readonly Gen<NewcomerAnswer> _answer = _receiver.Array[1, 3].Select(static r =>
        new NewcomerAnswer(Answered.Newcomer.Value.Question, r));

    [Fact]
    public void Answer_begins_with_no_exactly_where_something_new_is_harmful() => _answer.Sample(
        static answer =>
        {
            string says = NewcomerWords.Answer(answer);
            WrittenText.Agree(says);
            WrittenText.Figures(says);
            bool harmful = answer.Receivers.Any(static r => r.Findings.Products.Any(static p => p.Verdict == Verdict.Harmful)
                || r.Causes.Any(static c => c.Cause.Verdict == Verdict.Harmful));
            Assert.StartsWith(harmful ? "No, " : "Yes", says, StringComparison.Ordinal);
            if (!harmful)
            {
                // What is not known makes it a yes with a condition.
                Assert.Equal(
                    answer.Receivers.Any(static r => r.Open), says.StartsWith("Yes, as far as it is known", StringComparison.Ordinal));
                return;
            }

            bool never = answer.Receivers.SelectMany(static r => r.Needs).Any(static n => n.Db is null);
            Assert.Equal(never, says.Contains("No attenuation is enough", StringComparison.Ordinal));
            Assert.Equal(!never, says.Contains("It passes with ", StringComparison.Ordinal));
        },
        iter: 80);

    [Fact]
    public void Passes_mark_and_margin_of_a_receiver_say_the_same() => _receiver.Sample(
        static receiver =>
        {
            string passes = NewcomerWords.Passes(receiver);
            Assert.Equal(receiver.Passes ? receiver.Open ? "as far as known" : "yes" : "no", passes);
            Assert.Equal(
                passes switch { "no" => Verdict.Harmful, "yes" => Verdict.Clear, _ => Verdict.Unknown }, NewcomerWords.Mark(receiver));
            string margin = NewcomerWords.Margin(receiver, 0, Typography.Plain);
            Assert.Equal(receiver.WorstOverNoiseDb is null, margin.Length == 0);
            if (receiver.WorstOverNoiseDb is { } over && Math.Abs(over) > 0.06)
            {
                Assert.StartsWith(over > 0 ? "-" : "+", margin, StringComparison.Ordinal);
            }

            Assert.Equal(
                receiver.Findings.Products.Count + receiver.Causes.Count == 0,
                NewcomerWords.Worst(receiver, Typography.Plain) == "nothing new");
            WrittenText.Figures(NewcomerWords.Worst(receiver, Typography.Plain));
        },
        iter: 100);

    [Fact]
    public void Conditions_say_for_each_need_how_much_of_what_and_where() => _answer.Sample(
        static answer =>
        {
            foreach (NewcomerReceiver receiver in answer.Receivers)
            {
                string[] all = [.. NewcomerWords.Conditions(answer, receiver)];
                Assert.Equal(receiver.Needs.Count, all.Length);
                foreach ((NewcomerNeed need, string says) in receiver.Needs.Zip(all))
                {
                    Assert.StartsWith(need.Db is { } db ? Figures.BareDb(db) + " dB" : "More than any", says, StringComparison.Ordinal);
                    Assert.Contains("dale link one", says, StringComparison.Ordinal);
                    Assert.EndsWith(".", says, StringComparison.Ordinal);
                    Assert.Equal(need.AtSite ? "the site" : "the newcomer", NewcomerWords.Whose(need));
                    WrittenText.Figures(says);
                }
            }
        },
        iter: 80);

    [Fact]
    public void Kinds_of_need_have_words_of_their_own_as_the_format_documents_them() => Assert.Equal(
        ["carrier_attenuation", "isolator", "output_filter", "path_loss"],
        Enum.GetValues<NewcomerNeedKind>().Select(NewcomerWords.Token));

    [Fact]
    public void Says_whose_carriers_a_sum_counts_from_the_side_of_the_receiver()
    {
        NewcomerReceiver ours = _receiver.Single() with { OfNewcomer = false }, theirs = ours with { OfNewcomer = true };
        NewCause all = Cause(CauseKind.Blocking, -3, SumOf.All), other = Cause(CauseKind.Blocking, -3, SumOf.OtherSide);
        Assert.EndsWith(" Without the newcomer it would be less.", NewcomerWords.Says(ours, all), StringComparison.Ordinal);
        Assert.EndsWith(" Without the site it would be less.", NewcomerWords.Says(theirs, all), StringComparison.Ordinal);
        Assert.Contains("the newcomer's carriers alone", NewcomerWords.Says(ours, other), StringComparison.Ordinal);
        Assert.Contains("the site's carriers alone", NewcomerWords.Says(theirs, other), StringComparison.Ordinal);
        Assert.Equal(
            CauseWords.Says(all.Cause), NewcomerWords.Says(ours, all with { Sum = null }));
    }

    [Fact]
    public void Tested_counts_both_sides_as_the_files_have_them()
    {
        string says = NewcomerWords.Tested(Answered.Newcomer.Value);
        NewcomerSites sites = Answered.Newcomer.Value.Question.Sites;
        Assert.StartsWith(
            StudyWords.Capital(Figures.CountInWords(sites.Newcomer.Document.Emitters.Count)) + " transmitter", says,
            StringComparison.Ordinal);
        Assert.Contains("what is not there without the newcomer", says, StringComparison.Ordinal);
        WrittenText.Agree(says);
    }

    private static NewCause Cause(CauseKind kind, double? over, SumOf? sum) => new(
        new OtherCause(
            new CauseFinding
            {
                Cause = kind,
                Emitter = "dale link one",
                LevelDbm = over - 120,
                OverNoiseDb = over,
                SigmaDb = over is null ? null : 2,
                Missing = over is null ? [new MissingInput(MissingKind.LevelHere, "dale link one")] : [],
            },
            over switch { null => Verdict.Unknown, >= 0 => Verdict.Harmful, >= -10 => Verdict.Marginal, _ => Verdict.Clear }),
        sum);
}
