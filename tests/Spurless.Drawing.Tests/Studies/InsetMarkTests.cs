using CsCheck;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Studies;

/// <summary>
/// Marks that share a place: no mixture is lost or drawn twice, each can be picked in turn, and the worst decides the look.
/// </summary>
public sealed class InsetMarkTests
{
    [Fact]
    public void Stacked_of_any_mixtures_holds_each_once_at_a_place_near_its_own() => Gen.Select(
        RandomStudies.Receiver(40), Gen.Double[0.001, 0.1], Gen.Double[0.2, 6]).Sample(
        static (receiver, perHertz, perDb) =>
        {
            NumberedFinding[] findings = [.. NumberedFinding.Of(receiver).Where(static f => f.After is not null)];
            double X(NumberedFinding f) => f.After!.OffsetHz * perHertz;
            double? Y(NumberedFinding f) => f.After!.OverNoiseDb is { } over ? -over * perDb : null;
            InsetMark[] marks = [.. InsetMark.Stacked(findings, X, Y, after: true)];
            NumberedFinding[] held = [.. marks.SelectMany(static m => m.Of)];
            Assert.Equal(
                findings.Where(f => Y(f) is not null).OrderBy(static f => f.Number), held.OrderBy(static f => f.Number));
            foreach (InsetMark mark in marks)
            {
                Assert.All(mark.Of, f => Assert.True(Math.Abs(X(f) - mark.X) < 8 && Y(f)!.Value - mark.Y is >= 0 and < 8));

                // It stands at its strongest, and looks like its worst.
                Assert.Equal(mark.Of.Min(f => Y(f)!.Value), mark.Y);
                Verdict[] verdicts = [.. mark.Of.Select(static f => f.After!.Verdict)];
                Assert.Equal(verdicts.Contains(Verdict.Harmful), mark.Verdict == Verdict.Harmful);
                Assert.Equal(verdicts.All(static v => v == Verdict.Clear), mark.Verdict == Verdict.Clear);
            }
        },
        iter: 100);

    [Fact]
    public void Next_goes_round_all_of_a_mark_and_begins_with_the_first() => RandomStudies.Receiver(30).Sample(
        static receiver =>
        {
            NumberedFinding[] findings = [.. NumberedFinding.Of(receiver).Where(static f => f.After is not null)];
            foreach (InsetMark mark in InsetMark.Stacked(findings, static _ => 0, static f => f.Number, after: true))
            {
                HashSet<NumberedFinding> seen = [];
                NumberedFinding at = mark.Next(null);
                Assert.Same(mark.Of[0], at);
                for (int i = 0; i < mark.Of.Count; i++)
                {
                    Assert.True(seen.Add(at) && mark.Holds(at));
                    at = mark.Next(at);
                }

                Assert.Same(mark.Of[0], at);
                Assert.False(mark.Holds(null));

                // A few numbers are told, the rest counted.
                string[] told = mark.Numbers.Split(" +");
                Assert.Equal(Math.Min(3, mark.Of.Count), told[0].Split(", ").Length);
                Assert.Equal(mark.Of.Count > 3 ? $"{mark.Of.Count - 3}" : null, told.ElementAtOrDefault(1));
            }
        },
        iter: 60);

    [Fact]
    public void Letters_of_any_number_of_carriers_are_all_different_and_by_frequency() => Gen.Select(
        RandomStudies.Receiver(0), Gen.Int[1, 900]).Sample(
        static (receiver, count) =>
        {
            CarrierFinding one = receiver.Carriers[0];
            IReadOnlyList<LetteredCarrier> all = LetteredCarrier.Of(receiver with
            {
                Carriers = [.. Enumerable.Range(0, count).Select(i => one with { FrequencyHz = 1_000_000 + (i * 7919L % count) })],
            });
            Assert.Equal(count, all.Select(static c => c.Letter).Distinct().Count());
            Assert.Equal(all.Select(static c => c.Finding.FrequencyHz).Order(), all.Select(static c => c.Finding.FrequencyHz));
            Assert.All(all, static c => Assert.Matches("^[A-Z]{1,3}$", c.Letter));
            Assert.Equal("A", all[0].Letter);
        },
        iter: 40);
}
