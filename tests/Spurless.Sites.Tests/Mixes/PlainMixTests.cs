using Spurless.Mixing.Search;
using Spurless.Sites.Mixes;

namespace Spurless.Sites.Tests.Mixes;

/// <summary>
/// Sums and differences against the plainest loops over every vector of coefficients: none missing, none invented, none twice. A mixture
/// and its mirror image are one (docs/method/product-search.md).
/// </summary>
public sealed class PlainMixTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 40)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_is_every_vector_that_lands_there(int seed)
    {
        MixQuestion question = Question(seed);
        MixAnswer answer = MixService.Ask(question, null, Cancel).Answer!;
        Assert.Equal(Plain(question), answer.Mixtures.Select(static m => Key(m)).ToHashSet());
        Assert.Equal(answer.Mixtures.Count, answer.Mixtures.Select(static m => Key(m)).Distinct().Count());
        foreach (CarrierMixture m in answer.Mixtures)
        {
            long hz = m.Terms.Sum(static t => t.Coefficient * t.FrequencyHz);
            Assert.Equal(hz - question.FrequencyHz, m.OffsetHz);
            Assert.Equal(m.Terms.Sum(static t => Math.Abs(t.Coefficient)), m.Order);
            Assert.InRange(Math.Abs(m.OffsetHz), 0, question.WithinHz);
            Assert.True(hz > 0);
        }
    }

    /// <summary>By order, then distance: the list is sorted as it says.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_lists_by_order_and_distance(int seed)
    {
        MixAnswer answer = MixService.Ask(Question(seed), null, Cancel).Answer!;
        (int, long)[] keys = [.. answer.Mixtures.Select(static m => (m.Order, Math.Abs(m.OffsetHz)))];
        Assert.Equal(keys.Order(), keys);
    }

    /// <summary>The carriers in another order, and all frequencies twice as high, are the same sums.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_order_and_scale_change_nothing(int seed)
    {
        MixQuestion question = Question(seed);
        HashSet<string> before = [.. MixService.Ask(question, null, Cancel).Answer!.Mixtures.Select(static m => Key(m))];
        MixQuestion turned = question with { CarriersHz = [.. question.CarriersHz.Reverse()] };
        Assert.Equal(before, MixService.Ask(turned, null, Cancel).Answer!.Mixtures.Select(static m => Key(m)).ToHashSet());
        MixQuestion doubled = question with
        {
            FrequencyHz = 2 * question.FrequencyHz,
            WithinHz = 2 * question.WithinHz,
            CarriersHz = [.. question.CarriersHz.Select(static f => 2 * f)],
        };
        Assert.Equal(before, MixService.Ask(doubled, null, Cancel).Answer!.Mixtures.Select(static m => Key(m, 2)).ToHashSet());
    }

    /// <summary>Higher orders, more carriers in one and a wider channel never take a mixture away.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Ask_for_more_finds_no_less(int seed)
    {
        MixQuestion question = Question(seed) with { Orders = (2, 4), Signals = 2 };
        HashSet<string> few = [.. MixService.Ask(question, null, Cancel).Answer!.Mixtures.Select(static m => Key(m))];
        foreach (MixQuestion more in (MixQuestion[])[
            question with { Orders = (2, 6) }, question with { Signals = 4 }, question with { WithinHz = 3 * question.WithinHz }])
        {
            Assert.Superset(few, MixService.Ask(more, null, Cancel).Answer!.Mixtures.Select(static m => Key(m)).ToHashSet());
        }
    }

    private static MixQuestion Question(int seed)
    {
        Random random = new(seed);
        int lowest = random.Next(2, 4);
        return new MixQuestion
        {
            FrequencyHz = 145_000_000 + (random.Next(80) * 12_500L),
            CarriersHz =
            [
                .. Enumerable.Range(0, random.Next(1, 5)).Select(_ => random.Next(4) switch
                {
                    0 => 50_000_000 + (random.Next(400) * 12_500L),
                    1 => 430_000_000 + (random.Next(400) * 25_000L),
                    _ => 144_000_000 + (random.Next(320) * 6_250L),
                }).Distinct(),
            ],
            WithinHz = random.Next(0, 40_000),
            Orders = (lowest, random.Next(lowest, 7)),
            Signals = random.Next(1, 5),
        };
    }

    private static HashSet<string> Plain(MixQuestion question)
    {
        long[] hz = [.. question.CarriersHz];
        HashSet<string> all = [];
        int highest = question.Orders.Highest;
        int side = (2 * highest) + 1;
        for (long n = 0; n < (long)Math.Pow(side, hz.Length); n++)
        {
            int[] k = new int[hz.Length];
            long left = n;
            for (int i = 0; i < k.Length; i++)
            {
                (left, long digit) = Math.DivRem(left, side);
                k[i] = (int)digit - highest;
            }

            int order = k.Sum(Math.Abs);
            long at = k.Select((c, i) => c * hz[i]).Sum();
            if (order >= question.Orders.Lowest && order <= highest && k.Count(static c => c != 0) <= question.Signals && at > 0
                && Math.Abs(at - question.FrequencyHz) <= question.WithinHz)
            {
                all.Add(string.Join(' ', k.Select((c, i) => (c, hz[i])).Where(static t => t.c != 0).OrderBy(static t => t.Item2)));
            }
        }

        return all;
    }

    private static string Key(CarrierMixture m, int scale = 1) => string.Join(
        ' ', m.Terms.Select(t => (t.Coefficient, t.FrequencyHz / scale)).OrderBy(static t => t.Item2));
}
