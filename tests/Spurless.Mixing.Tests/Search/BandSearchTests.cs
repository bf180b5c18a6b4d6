using CsCheck;

using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>The search of a band at once against plain enumeration channel by channel.</summary>
public sealed class BandSearchTests
{
    [Fact]
    public void Run_finds_on_every_channel_what_enumeration_finds_there() => Gen.Int.Sample(Check, iter: 600);

    [Fact]
    public void Run_finds_the_same_by_enumeration_of_its_windows() => Gen.Int.Sample(
        seed => Assert.Equal(Found(Create(seed), new FastSearch()), Found(Create(seed), new PlainSearch())), iter: 300);

    [Fact]
    public void Run_stops_where_the_sink_has_enough()
    {
        BandProblem band = Enumerable.Range(0, 1_000).Select(Create).First(static b => Found(b, new PlainSearch()).Count > 3);
        Taken taken = new(most: 2);
        Assert.False(BandSearch.Run(band, new FastSearch(), taken, null, TestContext.Current.CancellationToken));
        Assert.Equal(2, taken.Calls);
    }

    [Fact]
    public void Run_without_a_frequency_in_range_is_the_callers_bug()
    {
        BandProblem band = Create(1) with { Channels = 1_000, StepHz = -SearchProblem.MaxFrequencyHz / 2 };
        Assert.Throws<ArgumentException>(
            () => BandSearch.Run(band, new FastSearch(), new Taken(), null, TestContext.Current.CancellationToken));
    }

    private static void Check(int seed)
    {
        BandProblem band = Create(seed);
        List<string> expected = [];
        for (int j = 0; j < band.Channels; j++)
        {
            ProductList list = new();
            SearchProblem one = band.Search with { Receivers = [band.Search.Receivers[0] with { FrequencyHz = ReceiverHz(band, j) }] };
            if (band.Moving is { } m)
            {
                SearchEmitter at = one.Emitters[m] with { FrequencyHz = one.Emitters[m].FrequencyHz + (j * band.MovingStepHz) };
                one = one with { Emitters = one.Emitters.SetItem(m, at) };
            }

            new PlainSearch().Run(one, list);
            foreach (ProductRecord product in list.Products)
            {
                bool moves = Enumerable.Range(0, product.Signals).Any(t => product.Emitter(t) == band.Moving);
                if (moves || !band.OnlyWithMoving)
                {
                    expected.Add($"{j} {product}");
                }
            }
        }

        expected.Sort(StringComparer.Ordinal);
        Assert.Equal(expected, Found(band, new FastSearch()));
    }

    private static long ReceiverHz(BandProblem band, int channel) =>
        band.Search.Receivers[0].FrequencyHz + (channel * band.StepHz);

    private static List<string> Found(BandProblem band, IProductSearch search)
    {
        Taken taken = new();
        Assert.True(BandSearch.Run(band, search, taken, null, TestContext.Current.CancellationToken));
        taken.Found.Sort(StringComparer.Ordinal);
        return taken.Found;
    }

    /// <summary>One receiver of a random site on some channels, with an emitter that moves along, another way, or none.</summary>
    private static BandProblem Create(int seed)
    {
        SearchProblem site = RandomSite.Create(seed);
        Random random = new(seed);
        int channels = random.Next(1, 12);
        SearchReceiver receiver = site.Receivers[random.Next(site.Receivers.Length)];
        long step = random.Next(4) switch { 0 => receiver.ChannelHz, 1 => Math.Max(1, receiver.FrequencyHz / 7), 2 => 1, _ => 0 };
        SearchProblem one = site with
        {
            Receivers = [receiver],
            MaxOrder = Math.Min(site.MaxOrder, 6),
            MinOrder = Math.Min(site.MinOrder, 6),
        };
        int? moving = random.Next(5) == 0 ? null : random.Next(site.Emitters.Length);
        return new BandProblem
        {
            Search = one,
            Channels = channels,
            StepHz = step,
            Moving = moving,
            MovingStepHz = random.Next(4) == 0 ? random.Next(1, 50_000) : step,
            OnlyWithMoving = moving is not null && random.Next(4) == 0,
        };
    }

    private sealed class Taken(int most = int.MaxValue) : IBandSink
    {
        public List<string> Found { get; } = [];

        public int Calls { get; private set; }

        public bool Add(in ProductRecord product, int from, int after)
        {
            Assert.True(from < after);
            for (int j = from; j < after; j++)
            {
                Found.Add($"{j} {product}");
            }

            return ++Calls < most;
        }
    }
}
