using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Plans;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Sites.Tests.Plans;

/// <summary>Channels side by side against brute force: a study of the site with a receiver and a transmitter on each of them.</summary>
public sealed class PlanTogetherTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static TheoryData<int, int> Cases => [.. Enumerable.Range(0, 24).Select(static i => (i, 1 + (i % 4)))];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Ask_the_best_set_is_the_one_that_going_through_all_finds(int seed, int count)
    {
        string text = MadeSites.Of(seed, followers: seed % 5 == 4 ? 0 : 1, emitters: 6, highest: 5)
            .Replace(", half_duplex: input", "", StringComparison.Ordinal);
        LoadedSite site = PlanServiceTests.Load(text);
        long shift = ((long[])[-600_000, 50_000, 25_000, 137_500])[seed % 4];
        PlanQuestion question = new()
        {
            Site = site,
            FromHz = 145_000_000,
            ToHz = 145_175_000,
            RasterHz = 25_000,
            ShiftHz = seed % 5 == 4 ? null : shift,
            Count = count,
        };
        PlanAnswer answer = PlanService.Ask(question, null, Cancel).Answer!;
        PlanTogether together = answer.Together!;
        (Cost Cost, int[] Ranks)? best = null;
        foreach (int[] set in Sets(answer.Offered.Count, count))
        {
            long[] channels = [.. set.Select(k => answer.Offered[k].FrequencyHz)];
            if (Fit(site, question, channels))
            {
                Cost cost = Study(site, question, channels);
                if (best is not { } so || cost.CompareTo(so.Cost) < 0)
                {
                    best = (cost, set);
                }
            }
        }

        Assert.True(together.IsBest || best is null);
        Assert.Equal(
            best is { } found ? found.Ranks.Select(k => answer.Offered[k].FrequencyHz).Order() : [], together.FrequenciesHz);
        Assert.Equal(best is null, together.Problem is not null);
        if (best is { } it)
        {
            Assert.Equal((it.Cost.Harmful, it.Cost.Marginal), (together.Score.Harmful, together.Score.Marginal));
            Assert.Equal(it.Cost.Worst, together.Score.WorstOverNoiseDb ?? double.NegativeInfinity);
            Assert.True(together.Bound.Harmful <= together.Score.Harmful && together.Bound.Marginal <= together.Score.Marginal);
        }
    }

    [Fact]
    public void Ask_for_many_adds_one_by_one_and_says_what_could_be_better()
    {
        LoadedSite site = PlanServiceTests.Load(DemoSites.PathOf("quernmoss.site.yaml"));
        PlanQuestion question = new() { Site = site, FromHz = 145_000_000, ToHz = 145_400_000, RasterHz = 25_000, Count = 6 };
        PlanTogether together = PlanService.Ask(question, null, Cancel).Answer!.Together!;
        Assert.Equal(6, together.FrequenciesHz.Distinct().Count());
        Cost cost = Study(site, question, [.. together.FrequenciesHz]);
        Assert.Equal((cost.Harmful, cost.Marginal), (together.Score.Harmful, together.Score.Marginal));
        Assert.True(together.Bound.Harmful <= together.Score.Harmful);
        Assert.True(together.Bound.Marginal <= together.Score.Marginal);
    }

    [Fact]
    public void Ask_for_more_than_are_offered_says_so()
    {
        PlanTogether together = PlanService.Ask(
            new PlanQuestion
            {
                Site = PlanServiceTests.Load(PlanServiceTests.Site),
                FromHz = 145_000_000,
                ToHz = 145_025_000,
                RasterHz = 12_500,
                Count = 4,
            },
            null,
            Cancel).Answer!.Together!;
        Assert.Empty(together.FrequenciesHz);
        Assert.Contains("only 3 channels", together.Problem, StringComparison.Ordinal);
    }

    private static IEnumerable<int[]> Sets(int of, int count, int from = 0)
    {
        if (count == 0)
        {
            yield return [];
            yield break;
        }

        for (int k = from; k < of; k++)
        {
            foreach (int[] rest in Sets(of, count - 1, k + 1))
            {
                yield return [k, .. rest];
            }
        }
    }

    // Channels and transmitters that overlap are in each other's way: by the widths in the site file.
    private static bool Fit(LoadedSite site, PlanQuestion question, long[] channels)
    {
        ReceiverEntry input = site.Document.Receivers[0];
        EmitterEntry? own = site.Document.Emitters.FirstOrDefault(static e => e.Follows == "input");
        return !channels.SelectMany((a, i) => channels.Skip(i + 1).Select(b => (a, b))).Any(p =>
            Near(p.a, p.b, 2 * input.Channel.Hertz)
            || (own is not null && (Near(p.a, p.b + question.ShiftHz!.Value, input.Channel.Hertz + own.BandwidthHz)
                || Near(p.b, p.a + question.ShiftHz.Value, input.Channel.Hertz + own.BandwidthHz))));

        static bool Near(long a, long b, long width) => a == b || 2 * Math.Abs(a - b) < width;
    }

    /// <summary>The site with the receiver and our transmitter once for each channel.</summary>
    private static Cost Study(LoadedSite site, PlanQuestion question, long[] channels)
    {
        SiteDocument document = site.Document;
        ReceiverEntry input = document.Receivers[0];
        EmitterEntry[] own = [.. document.Emitters.Where(e => e.Follows == input.Name)];
        LoadedSite joint = site with
        {
            Document = document with
            {
                Receivers = [.. channels.Select((f, i) => input with { Name = $"r{i}", Frequency = Frequency.FromHertz(f) })],
                Emitters =
                [
                    .. document.Emitters.Except(own),
                    .. channels.SelectMany((f, i) => own.Select(o => o with
                    {
                        Name = $"{o.Name}@{i}",
                        Frequency = Frequency.FromHertz(f + (question.ShiftHz ?? o.Frequency.Hertz - input.Frequency.Hertz)),
                        Follows = $"r{i}",
                    })),
                ],
                Exclusive =
                [
                    .. document.Exclusive.SelectMany(g => channels.Select((_, i) =>
                        (IReadOnlyList<string>)[.. g.Select(n => own.Any(o => o.Name == n) ? $"{n}@{i}" : n)])),
                ],
            },
        };
        StudyResult study = StudyService.Run(joint, new StudyOptions(), null, Cancel);
        ProductFinding[] made =
        [
            .. study.Receivers.SelectMany(static r => r.Products).Where(static p => p.Mechanism == Mechanism.Receiver),
        ];
        return new Cost(
            made.Count(static p => p.Verdict == Verdict.Harmful),
            made.Count(static p => p.Verdict == Verdict.Marginal),
            made.Max(static p => p.OverNoiseDb) ?? double.NegativeInfinity);
    }

    private readonly record struct Cost(int Harmful, int Marginal, double Worst) : IComparable<Cost>
    {
        public int CompareTo(Cost other)
        {
            int c = Harmful.CompareTo(other.Harmful);
            c = c != 0 ? c : Marginal.CompareTo(other.Marginal);
            return c != 0 ? c : Worst.CompareTo(other.Worst);
        }
    }
}
