using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Words;

/// <summary>
/// How far was looked, what a sum is made of, and what only the usual is known of: bounds are called bounds, counts agree.
/// </summary>
public sealed partial class SumAndLimitWordsTests
{
    private static readonly Gen<SearchLimits> _limits =
        from low in Gen.Int[2, 5]
        from span in Gen.Int[0, 4]
        from signals in Gen.Int[1, 5]
        from floor in Gen.Double[-160, -100].Nullable(0.3)
        from stated in Gen.Bool
        from more in Gen.Select(Gen.Long[0, 3], Gen.Double[-20, 40]).Nullable(0.4)
        select new SearchLimits
        {
            Orders = (low, low + span),
            Signals = signals,
            FloorDbm = floor,
            SelectivityStated = stated,
            More = more is { } m ? new MoreSignals(signals + 1, low + span, m.Item1, m.Item1 > 0 ? m.Item2 : null) : null,
        };

    [Fact]
    public void Limits_of_any_search_say_what_was_looked_for_and_what_was_not() => Gen.Select(
        RandomStudies.Receiver(4), _limits).Sample(
        static (receiver, limits) =>
        {
            string[] says = [.. LimitWords.Of(receiver with { Limits = limits }, Typography.Plain)];
            Assert.Empty(LimitWords.Of(receiver with { Limits = null }, Typography.Plain));
            Assert.StartsWith("Looked for: order", says[0], StringComparison.Ordinal);
            Assert.Equal(limits.Orders.Lowest == limits.Orders.Highest, says[0].StartsWith("Looked for: order ", StringComparison.Ordinal));
            Assert.Equal(limits.FloorDbm is null, says[0].Contains("however weak", StringComparison.Ordinal));
            Assert.Equal(limits.Signals == 1, says[0].Contains("one emitter in one mixture", StringComparison.Ordinal));
            Assert.Equal(
                !limits.SelectivityStated, says.Any(static s => s.StartsWith("No selectivity", StringComparison.Ordinal)));

            // What was not looked at is not said to be nothing.
            Assert.Equal(
                limits.More is { Harmful: 0 }, says.Any(static s => s.EndsWith("would add no harmful one.", StringComparison.Ordinal)));
            Assert.All(says, static s => Assert.DoesNotMatch(Broken(), s));
            if (limits.More is { Harmful: > 0, WorstOverNoiseDb: { } worst })
            {
                string more = says.Single(static s => s.Contains("would add ", StringComparison.Ordinal) && !s.EndsWith(
                    "no harmful one.", StringComparison.Ordinal));
                Assert.Contains(
                    $"the worst {Figures.BareDb(worst)} dB {(worst >= 0 ? "over" : "under")} the noise", more, StringComparison.Ordinal);
                Assert.Contains(limits.More.Harmful == 1 ? "1 harmful one," : " harmful ones,", more, StringComparison.Ordinal);
            }
        },
        iter: 100);

    [Fact]
    public void Words_of_every_line_of_a_sum_are_its_own()
    {
        SumPart[] all = Enum.GetValues<SumPart>();
        string[] says =
        [
            .. all.Select(static p => SumWords.What(new SumLine(p, 1, SumLineKind.Part) { Name = "mast base", Times = 2, Each = -3.04 })),
        ];
        Assert.All(says, static s => Assert.False(string.IsNullOrWhiteSpace(s)));
        Assert.Equal(all.Length, says.Distinct().Count());
        Assert.All(says, static s => Assert.DoesNotMatch(Broken(), s));
        Assert.Equal("mast base", SumWords.What(new SumLine(SumPart.CarrierAtStage, 1, SumLineKind.Part) { Name = "mast base" }));
        Assert.Equal(
            "mast base, 2 times -3.0 dBm",
            SumWords.What(new SumLine(SumPart.CarrierAtStage, 1, SumLineKind.Part) { Name = "mast base", Times = 2, Each = -3.04 }));
    }

    /// <summary>Terms as printed add up to the total as printed, whatever rounding leaves over, and none moves by more than that.</summary>
    [Fact]
    public void Printed_sum_of_any_terms_adds_up_to_the_tenth() => Gen.Double[-150, 150].Array[1, 9].Sample(static terms =>
    {
        double total = terms.Sum();
        IReadOnlyList<double> printed = PrintedSum.Of(terms, total);
        Assert.Equal(Figures.Rounded(total), Figures.Rounded(printed.Sum()), 1e-9);
        int moved = 0;
        foreach ((double term, double shown) in terms.Zip(printed))
        {
            Assert.Equal(shown, Figures.Rounded(shown), 1e-12);
            moved += Math.Abs(shown - Figures.Rounded(term)) > 1e-9 ? 1 : 0;
            Assert.Equal(term, shown, (0.05 * (terms.Length + 1)) + 0.0501);
        }

        Assert.True(moved <= 1, "only one takes what is left over");
    });

    [Fact]
    public void Usual_neighbours_are_bounded_and_the_bound_is_called_one() => Gen.Double[-40, 40].Array[0, 7].Sample(static bounds =>
    {
        ReceiverFindings receiver = DemoStudy.Receiver(false, []) with
        {
            OtherCauses =
            [
                .. bounds.Select(static (b, i) => new OtherCause(
                    new CauseFinding
                    {
                        Cause = CauseKind.TransmitterNoise, Emitter = $"base {i}", AtMostOverNoiseDb = b, BoundByUsual = true,
                        LevelDbm = null, OverNoiseDb = null, SigmaDb = null,
                        Missing = [new MissingInput(MissingKind.SidebandNoise, $"base {i}")],
                    },
                    Verdict.Unknown)),
            ],
        };
        string[] says = [.. UsualWords.Of(receiver)];
        int listed = receiver.OtherCauses.Count(static c => c.OnlyUsual);
        Assert.Equal(listed > 0 ? 1 : 0, says.Length);
        foreach (string s in says)
        {
            Assert.StartsWith($"Sideband noise of {listed} {(listed == 1 ? "transmitter" : "transmitters")} ", s, StringComparison.Ordinal);
            Assert.Equal(Math.Min(3, listed), Bounded().Count(s));
            Assert.Equal(listed > 3, s.Contains($", {listed - 3} more weaker than that", StringComparison.Ordinal));
            Assert.DoesNotMatch(Broken(), s);
        }
    });

    // A bound from above, on either side of the noise.
    [GeneratedRegex(@" at (?:most [\d.]+ dB over|least [\d.]+ dB under) the noise")]
    private static partial Regex Bounded();

    [GeneratedRegex(@"NaN|Infinity|(?<![\d.\w])[-\u2212]0(?:\.0+)?(?![\d.])|\b1 (?:mixtures|emitters|transmitters)\b")]
    private static partial Regex Broken();
}
