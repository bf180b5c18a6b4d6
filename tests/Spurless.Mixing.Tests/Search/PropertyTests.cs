using System.Collections.Immutable;

using CsCheck;

using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>What must hold of any search, whatever it finds: physical identities on random sites.</summary>
public abstract class PropertyTests
{
    /// <summary>The search under test.</summary>
    protected abstract IProductSearch Search { get; }

    private List<ProductRecord> Find(SearchProblem problem)
    {
        ProductList list = new();
        SearchOutcome outcome = Search.Run(problem, list);
        Assert.True(outcome.Complete);
        Assert.Equal(list.Products.Count, outcome.Found);
        list.Sort();
        return [.. list.Products];
    }

    [Fact]
    public void Order_of_emitters_changes_nothing() =>
        Gen.Int.Sample(
            seed =>
            {
                SearchProblem problem = RandomSite.Create(seed);
                int count = problem.Emitters.Length;
                int[] newIndex = [.. Enumerable.Range(0, count)];
                new Random(seed).Shuffle(newIndex);
                int[] oldIndex = new int[count];
                for (int i = 0; i < count; i++)
                {
                    oldIndex[newIndex[i]] = i;
                }

                SearchProblem shuffled = problem with
                {
                    Emitters = [.. oldIndex.Select(i => problem.Emitters[i])],
                    ExclusiveGroups = [.. problem.ExclusiveGroups.Select(g => g.Select(i => newIndex[i]).ToImmutableArray())],
                    Receivers = [.. problem.Receivers.Select(r => r with
                    {
                        Stages = [.. r.Stages.Select(s => s with { LevelMicroDbm = [.. oldIndex.Select(i => s.LevelMicroDbm[i])] })],
                    })],
                };
                IEnumerable<string> Names(SearchProblem p, Func<int, int> name) =>
                    Find(p).Select(r => Name(r, name)).Order(StringComparer.Ordinal);
                Assert.Equal(Names(problem, static i => i), Names(shuffled, i => oldIndex[i]));
            },
            iter: 200);

    [Fact]
    public void Scaling_all_frequencies_changes_no_product() =>
        Gen.Int.Sample(
            seed =>
            {
                SearchProblem problem = RandomSite.Create(seed);
                int factor = new Random(seed).Next(2, 50);
                SearchProblem scaled = problem with
                {
                    Emitters =
                    [
                        .. problem.Emitters.Select(
                            e => e with { FrequencyHz = factor * e.FrequencyHz, BandwidthHz = factor * e.BandwidthHz }),
                    ],
                    Receivers =
                    [
                        .. problem.Receivers.Select(r => r with { FrequencyHz = factor * r.FrequencyHz, ChannelHz = factor * r.ChannelHz }),
                    ],
                };
                if (scaled.Emitters.Concat([default]).Max(static e => e.FrequencyHz) <= SearchProblem.MaxFrequencyHz
                    && scaled.Receivers.Max(static r => r.FrequencyHz) <= SearchProblem.MaxFrequencyHz)
                {
                    Assert.Equal(Find(problem), Find(scaled));
                }
            },
            iter: 200);

    // All emitters n dB stronger: a product of order m rises m n dB, so with the floor gone only the levels change.
    [Fact]
    public void Raising_all_emitters_raises_each_product_by_its_order() =>
        Gen.Int.Sample(
            seed =>
            {
                SearchProblem problem = RandomSite.Create(seed);
                problem = problem with { Receivers = [.. problem.Receivers.Select(static r => r with { FloorMicroDbm = null })] };
                const int Rise = 7_654_321;
                SearchProblem louder = problem with
                {
                    Receivers = [.. problem.Receivers.Select(r => r with
                    {
                        Stages = [.. r.Stages.Select(s => s with
                        {
                            LevelMicroDbm = [.. s.LevelMicroDbm.Select(static l => l == MicroDb.Unknown ? l : l + Rise)],
                        })],
                    })],
                };
                Assert.Equal(
                    Find(problem)
                        .Select(static r => (Name(r, static i => i), r.HasLevel ? r.LevelMicroDbm + (r.Order * (long)Rise) : 0))
                        .Order(),
                    Find(louder).Select(static r => (Name(r, static i => i), r.HasLevel ? r.LevelMicroDbm : 0)).Order());
            },
            iter: 200);

    [Fact]
    public void A_product_and_its_mirror_image_are_one() =>
        Gen.Int.Sample(
            seed =>
            {
                SearchProblem problem = RandomSite.Create(seed);
                List<ProductRecord> found = Find(problem);
                Assert.All(found, r => Assert.True(r.FrequencyHz(problem) > 0));
                // Names without the sign of the whole: the greatest of the two ways of writing it.
                string Unsigned(ProductRecord r) => r.Receiver + ":" + string.Join(
                    ' ', Enumerable.Range(0, r.Signals).Select(i => r.Emitter(i) + "*" + (r.Coefficient(i) * Math.Sign(r.Coefficient(0)))));
                Assert.Equal(found.Count, found.Select(Unsigned).Distinct().Count());
            },
            iter: 200);

    // 145.5 - 145.5 + 433 stays, on the third one's carrier; 145.5 - 145.5 alone is 0 Hz. Counted by hand.
    [Fact]
    public void Emitters_on_one_carrier_are_different_signals()
    {
        SearchProblem problem = new()
        {
            Emitters = [new(145_500_000, 0), new(145_500_000, 0), new(433_000_000, 0)],
            Receivers = [new SearchReceiver { FrequencyHz = 433_000_000, ChannelHz = 12_500 }],
            MaxOrder = 3,
        };
        List<ProductRecord> found = Find(problem);
        Assert.Equal(2, found.Count);
        Assert.All(found, static r => Assert.Equal(3, r.Signals));
        SearchProblem atZero = problem with { Receivers = [new SearchReceiver { FrequencyHz = 1, ChannelHz = 10 }] };
        Assert.Empty(Find(atZero));
    }

    // 2 x 100 - 90 kHz = 110 kHz, seen from 109 or 108.999 kHz: 2 x 1,000 or 2 x 1,001 Hz against raster + 3 x width.
    [Theory]
    [InlineData(109_000, 2_000, 0, true)]
    [InlineData(109_000, 1_999, 0, false)]
    [InlineData(108_999, 2_000, 0, false)]
    [InlineData(108_999, 2_001, 0, false)] // reaches 1,000.5 Hz
    [InlineData(108_999, 2_002, 0, true)]
    [InlineData(108_999, 1_999, 1, true)]
    [InlineData(108_999, 1_998, 1, false)]
    [InlineData(111_001, 1_999, 1, true)]
    [InlineData(111_001, 1_998, 1, false)]
    public void A_product_on_the_edge_hits_and_one_beyond_does_not(long receiver, long channel, long width, bool hits)
    {
        SearchProblem problem = new()
        {
            Emitters = [new(100_000, width), new(90_000, width)],
            Receivers = [new SearchReceiver { FrequencyHz = receiver, ChannelHz = channel }],
            MinOrder = 3,
            MaxOrder = 3,
        };
        Assert.Equal(hits, Find(problem).Count == 1);
    }

    // Third order, equal tones of -30 dBm, intercept 0 dBm: exactly -90 dBm.
    [Theory]
    [InlineData(-90_000_000, 1)]
    [InlineData(-89_999_999, 0)]
    public void A_floor_equal_to_the_level_is_reached(long floor, int count)
    {
        SearchProblem problem = new()
        {
            Emitters = [new(100_000_000, 0), new(90_000_000, 0)],
            Receivers =
            [
                new SearchReceiver
                {
                    FrequencyHz = 110_000_000,
                    ChannelHz = 12_500,
                    FloorMicroDbm = floor,
                    Stages =
                    [
                        new SearchStage
                        {
                            LevelMicroDbm = [-30_000_000, -30_000_000],
                            InterceptMicroDbm = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
                        },
                    ],
                },
            ],
        };
        Assert.Equal(count, Find(problem).Count);
    }

    [Fact]
    public void Exclusive_emitters_never_meet_in_a_product()
    {
        SearchProblem problem = new()
        {
            Emitters = [new(100, 0), new(90, 0), new(80, 0)],
            Receivers = [new SearchReceiver { FrequencyHz = 100, ChannelHz = 1_000_000 }],
            ExclusiveGroups = [[0, 2]],
            MaxOrder = 5,
        };
        List<ProductRecord> found = Find(problem);
        Assert.NotEmpty(found);
        Assert.DoesNotContain(found, static r => Enumerable.Range(0, r.Signals).Count(i => r.Emitter(i) != 1) > 1);
    }

    [Fact]
    public void Run_with_nobody_on_the_air_finds_nothing() => Assert.Empty(Find(new SearchProblem
    {
        Emitters = [],
        Receivers = [new SearchReceiver { FrequencyHz = 100, ChannelHz = 10 }],
    }));

    [Fact]
    public void Run_stops_when_the_sink_has_enough()
    {
        SearchProblem problem = Wide();
        ProductList list = new(10);
        SearchOutcome outcome = Search.Run(problem, list);
        Assert.False(outcome.Complete);
        Assert.True(list.Overflowed);
        Assert.Equal(10, list.Products.Count);
    }

    [Fact]
    public void Run_that_is_cancelled_throws()
    {
        using CancellationTokenSource cancelled = new();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(() => Search.Run(Wide(), new ProductList(), null, cancelled.Token));
    }

    [Fact]
    public void Run_reports_progress_from_little_to_all()
    {
        List<SearchProgress> reports = [];
        SearchOutcome outcome = Search.Run(Wide(), new ProductList(), new Collect(reports));
        Assert.NotEmpty(reports);
        Assert.All(reports.Zip(reports.Skip(1)), static pair => Assert.True(pair.First.Fraction <= pair.Second.Fraction));
        Assert.Equal(1, reports[^1].Fraction, 1e-9);
        Assert.Equal(outcome.Found, reports[^1].Found);
    }

    [Fact]
    public void Run_of_a_malformed_problem_is_refused()
    {
        SearchProblem problem = Wide();
        SearchStage stage = new() { LevelMicroDbm = [1], InterceptMicroDbm = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0] };
        SearchProblem[] bad =
        [
            problem with { MinOrder = 1 },
            problem with { MaxOrder = 10 },
            problem with { MinOrder = 5, MaxOrder = 4 },
            problem with { MaxSignals = 0 },
            problem with { Emitters = [new(0, 0)] },
            problem with { Emitters = [new(1, -1)] },
            problem with { Emitters = [new(SearchProblem.MaxFrequencyHz + 1, 0)] },
            problem with { ExclusiveGroups = [[99]] },
            problem with { Receivers = [new SearchReceiver { FrequencyHz = 1, ChannelHz = 0 }] },
            problem with { Receivers = [new SearchReceiver { FrequencyHz = 1, ChannelHz = 1, Stages = [stage] }] },
        ];
        Assert.All(bad, b => Assert.Throws<ArgumentException>(() => Search.Run(b, new ProductList())));
    }

    /// <summary>Six wide emitters and a wide channel: a few thousand products.</summary>
    private static SearchProblem Wide() => new()
    {
        Emitters = [.. Enumerable.Range(0, 6).Select(static i => new SearchEmitter(100_000_000 + (i * 7_000_000), 200_000))],
        Receivers = [new SearchReceiver { FrequencyHz = 110_000_000, ChannelHz = 50_000_000 }],
    };

    private static string Name(ProductRecord r, Func<int, int> emitterName) => r.Receiver + ":" + string.Join(
        ' ', Enumerable.Range(0, r.Signals).Select(i => (emitterName(r.Emitter(i)), r.Coefficient(i))).Order());

    private sealed class Collect(List<SearchProgress> reports) : IProgress<SearchProgress>
    {
        public void Report(SearchProgress value) => reports.Add(value);
    }
}
