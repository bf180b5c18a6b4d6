using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Words;

/// <summary>What is said of any study agrees with what the study holds.</summary>
public sealed partial class AnswerPropertyTests
{
    [Fact]
    public void Of_numbers_every_row_once_and_pairs_before_and_after() => RandomStudies.Receiver().Sample(static receiver =>
    {
        IReadOnlyList<NumberedFinding> all = NumberedFinding.Of(receiver);
        Assert.Equal(Enumerable.Range(1, all.Count), all.Select(static f => f.Number));
        Assert.Equal(
            receiver.Products.Concat(receiver.WithoutFilter?.Products ?? []).Select(static p => p.Row).ToHashSet(),
            all.Select(static f => f.Either.Row).ToHashSet());
        Assert.Equal(receiver.Products.Count, all.Count(static f => f.After is not null));
        Assert.Equal(receiver.Harmful, all.Count(static f => f.After is not null && f.Now == Verdict.Harmful));
        foreach (NumberedFinding f in all.Where(static f => f is { Before: not null, After: not null }))
        {
            Assert.Equal(f.Before!.Row, f.After!.Row);
        }

        // What does more harm without the filter never stands behind what does less.
        Assert.Equal(all.Select(static f => f.Either.Impact).Order(), all.Select(static f => f.Either.Impact));
    });

    [Fact]
    public void Of_with_kept_numbers_gives_each_row_the_number_it_had() =>
        Gen.Select(RandomStudies.Receiver(), Gen.Int[0, 11]).Sample(static (receiver, gone) =>
        {
            Dictionary<ProductRow, int> numbers = [];
            IReadOnlyList<NumberedFinding> first = NumberedFinding.Of(receiver, numbers, int.MaxValue);
            ReceiverFindings fewer = receiver with
            {
                Products = [.. receiver.Products.Where((_, i) => i != gone)],
                WithoutFilter = null,
            };
            foreach (NumberedFinding f in NumberedFinding.Of(fewer, numbers, int.MaxValue))
            {
                Assert.Equal(first.Single(o => o.Either.Row == f.Either.Row).Number, f.Number);
            }
        });

    [Fact]
    public void Answer_counts_what_is_harmful_and_names_the_worst() => RandomStudies.Receiver().Sample(static receiver =>
    {
        string says = StudyWords.Answer(receiver with { OtherCauses = [] }, Typography.Plain);
        int sunk = NumberedFinding.Of(receiver).Count(static f => f.Before?.Verdict == Verdict.Harmful && f.Now != Verdict.Harmful);
        int harmful = receiver.Harmful;
        bool arithmetic = receiver.Products.Count + (receiver.WithoutFilter?.Products.Count ?? 0) > 0
            && receiver.Carriers.All(static c => c.LevelAtAntennaDbm is null);
        if (harmful > 0 && sunk == 0)
        {
            Assert.StartsWith(
                StudyWords.Capital(Figures.CountInWords(harmful)) + (harmful == 1 ? " mixture lands on " : " mixtures land on "),
                says,
                StringComparison.Ordinal);
        }

        if (harmful > 0)
        {
            // The greatest of all levels over the noise is the one that is said.
            double worst = receiver.Products.Max(static p => p.OverNoiseDb ?? double.NegativeInfinity);
            Assert.Contains($"{Figures.BareDb(worst)} dB", says, StringComparison.Ordinal);
        }
        else if (sunk == 0 && !arithmetic)
        {
            Assert.Matches("^(Nothing|No mixture of known level) lands on ", says);
        }

        // Where no carrier has a level the answer is what can land, and that levels will tell the rest; no mixture is called anything else.
        Assert.Equal(arithmetic, says.StartsWith("No level is known yet. By arithmetic alone ", StringComparison.Ordinal));
        int unknown = receiver.Products.Count(static p => p.Verdict == Verdict.Unknown);
        Assert.Equal(unknown > 0 && !arithmetic, says.Contains("is not known", StringComparison.Ordinal));
        Assert.EndsWith(".", says, StringComparison.Ordinal);
        Assert.DoesNotContain("..", says, StringComparison.Ordinal);
        Assert.DoesNotContain("  ", says, StringComparison.Ordinal);
    });

    [Fact]
    public void Mixture_of_any_product_adds_up_to_the_hertz_in_both_kinds_of_type() => RandomStudies.Receiver().Sample(static receiver =>
    {
        foreach (ProductFinding p in receiver.Products)
        {
            foreach (Typography signs in (Typography[])[Typography.Plain, Typography.Fine])
            {
                string[] sides = StudyWords.Mixture(p, signs).Replace('\u2212', '-').Replace('\u00D7', 'x').Replace('\u00A0', ' ')
                    .Split(" = ");
                decimal sum = 0;
                foreach (Match term in Term().Matches("+ " + sides[0]))
                {
                    decimal times = term.Groups["times"].Success ? decimal.Parse(term.Groups["times"].Value, CultureInfo.InvariantCulture)
                        : 1;
                    sum += (term.Groups["sign"].Value == "-" ? -times : times)
                        * decimal.Parse(term.Groups["f"].Value, CultureInfo.InvariantCulture);
                }

                Assert.Equal(decimal.Parse(sides[1], CultureInfo.InvariantCulture), sum);
                Assert.Equal(p.FrequencyHz, (long)(1_000_000 * sum));
            }
        }
    });

    [Fact]
    public void Answer_leaves_a_name_as_its_owner_wrote_it()
    {
        OtherCause cause = new(
            new CauseFinding
            {
                Cause = CauseKind.Direct,
                Emitter = "Haulage base",
                LevelDbm = -100,
                OverNoiseDb = 28.9,
                SigmaDb = 2,
            },
            Verdict.Harmful);
        Assert.EndsWith(
            "is harmful too: Haulage base stands on the channel, 28.9 dB over the noise in it.",
            StudyWords.Answer(DemoStudy.Receiver(false, []) with { OtherCauses = [cause] }, Typography.Plain),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Printed_sums_of_any_terms_add_up_and_stay_within_a_tenth_each_but_for_the_taker() =>
        Gen.Select(Gen.Double[-200, 200].Array[1, 7], Gen.Int[0, 6]).Sample(static (terms, taker) =>
        {
            int takes = taker % terms.Length;
            double total = terms.Sum();
            IReadOnlyList<double> printed = PrintedSum.Of(terms, total, takes);
            Assert.Equal(Figures.Rounded(total), Figures.Rounded(printed.Sum()));
            for (int i = 0; i < terms.Length; i++)
            {
                Assert.Equal(terms[i], printed[i], i == takes ? (0.05 * terms.Length) + 0.051 : 0.050001);
            }
        });

    [Fact]
    public void Printed_lines_of_any_sum_add_up_as_a_reader_adds_them() =>
        Gen.Select(Gen.Double[-150, 150].Array[1, 5].Array[1, 3], Gen.Double[-140, -100]).Sample(static (groups, noise) =>
        {
            List<SumLine> lines = [];
            double carried = 0;
            foreach (double[] parts in groups)
            {
                lines.AddRange(parts.Select(static v => new SumLine(SumPart.Factor, v, SumLineKind.Part)));
                lines.Add(new SumLine(SumPart.InChannel, carried += parts.Sum(), SumLineKind.Subtotal));
            }

            lines.Add(new SumLine(SumPart.NoiseFloor, noise, SumLineKind.Reference));
            lines.Add(new SumLine(SumPart.OverNoise, carried - noise, SumLineKind.Result));
            double sum = 0;
            foreach (SumLine line in PrintedSum.Of(lines))
            {
                Assert.Equal(Math.Round(line.Value, 1), line.Value, 1e-9);
                switch (line.Kind)
                {
                    case SumLineKind.Part:
                        sum += line.Value;
                        break;
                    case SumLineKind.Reference:
                        sum -= line.Value;
                        break;
                    default:
                        Assert.Equal(sum, line.Value, 1e-6);
                        break;
                }
            }
        });

    [GeneratedRegex(@"(?<sign>[+-]) ?(?:(?<times>\d+) x )?(?<f>\d+\.\d+)")]
    private static partial Regex Term();
}
