using System.Collections.Immutable;
using CsCheck;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Mixing.Tests.Oracles;

namespace Spurless.Mixing.Tests.Causes;

public sealed class TransmitterSearchTests
{
    // Small whole numbers, so that many products hit, and equal levels and floors occur.
    private static readonly Gen<TransmitterSearchInput> Inputs =
        from count in Gen.Int[1, 6]
        from frequencies in Gen.Long[1, 60].Array[count]
        from widths in Gen.Long[0, 4].Array[count]
        from under in Gen.OneOf(Gen.Int[-5, 60], Gen.Const(MicroDb.Unknown)).Array[count]
        from transmitter in Gen.Int[0, count - 1]
        from victims in Gen.Select(
            Gen.Long[1, 90],
            Gen.Long[1, 4],
            Gen.Int[-200, 20].Nullable(),
            Gen.OneOf(Gen.Int[-100, 0], Gen.Const(MicroDb.Unknown))).Array[1, 3]
        from losses in Gen.OneOf(Gen.Int[0, 30].Array[10], Gen.Const(Enumerable.Repeat(MicroDb.Unknown, 10).ToArray()))
        from lowest in Gen.Int[2, 4]
        from more in Gen.Int[0, 4]
        from signals in Gen.Int[1, 4]
        from groups in Gen.Int[0, count - 1].Array[2, 3].Array[0, 2]
        select new TransmitterSearchInput
        {
            Problem = new SearchProblem
            {
                Emitters = [.. frequencies.Zip(widths, static (f, w) => new SearchEmitter(f, w))],
                Receivers =
                [
                    .. victims.Select(
                        static v => new SearchReceiver { FrequencyHz = v.Item1, ChannelHz = v.Item2, FloorMicroDbm = v.Item3 }),
                ],
                MinOrder = lowest,
                MaxOrder = lowest + more,
                MaxSignals = signals,
                ExclusiveGroups = [.. groups.Select(static g => g.ToImmutableArray())],
            },
            Transmitter = transmitter,
            UnderPowerMicroDb = [.. under],
            TurnRoundMicroDb = [.. losses],
            ReachMicroDbm = [.. victims.Select(static v => v.Item4)],
        };

    /// <summary>
    /// Oracle: the plain search over all vectors without a floor, then only those with the transmitter and another, levels from the
    /// formula.
    /// </summary>
    [Fact]
    public void Run_finds_exactly_what_the_plain_search_and_the_formula_give() =>
        Inputs.Sample(
            static input =>
            {
                ProductList all = new();
                ImmutableArray<SearchReceiver> floorless = [.. input.Problem.Receivers.Select(static r => r with { FloorMicroDbm = null })];
                new PlainSearch().Run(input.Problem with { Receivers = floorless }, all);
                List<string> expected = [];
                foreach (ProductRecord product in all.Products)
                {
                    int order = 0;
                    long level = input.ReachMicroDbm[product.Receiver];
                    bool own = false;
                    bool unknown = level == MicroDb.Unknown;
                    for (int term = 0; term < product.Signals; term++)
                    {
                        int k = Math.Abs(product.Coefficient(term));
                        order += k;
                        if (product.Emitter(term) == input.Transmitter)
                        {
                            own = true;
                        }
                        else
                        {
                            unknown |= input.UnderPowerMicroDb[product.Emitter(term)] == MicroDb.Unknown;
                            level -= k * (long)input.UnderPowerMicroDb[product.Emitter(term)];
                        }
                    }

                    unknown |= input.TurnRoundMicroDb[order] == MicroDb.Unknown;
                    level -= input.TurnRoundMicroDb[order];
                    long? floor = input.Problem.Receivers[product.Receiver].FloorMicroDbm;
                    if (own && product.Signals > 1 && (unknown || floor is null || level >= floor))
                    {
                        expected.Add(Text(product, unknown ? ProductRecord.UnknownLevel : level));
                    }
                }

                ProductList found = new();
                SearchOutcome outcome = TransmitterSearch.Run(input, found);

                Assert.True(outcome.Complete);
                Assert.Equal(found.Products.Count, outcome.Found);
                Assert.Equal(
                    expected.Order(StringComparer.Ordinal),
                    found.Products.Select(static p => Text(p, p.LevelMicroDbm)).Order(StringComparer.Ordinal));
                Assert.All(found.Products, p => Assert.Equal(p.LevelMicroDbm, input.LevelMicroDbm(p)));
            },
            iter: 1_500);

    [Fact]
    public void Run_demo_finds_the_one_product_of_the_telemetry_transmitter()
    {
        // docs/checks.md 9: every emitter's frequency; only the gauging station's coupling is known there. Here the others arrive 60 dB
        // under.
        (double Mhz, long Width)[] demo =
        [
            (158.3, 11_200), (171.55, 11_200), (145.65, 11_200), (153.35, 11_200), (157.5, 11_200), (160.525, 11_200), (161.125, 11_200),
            (466.1, 16_000),
            (459.35, 16_000), (94.2, 180_000), (50.85, 16_000), (148.6125, 11_200), (152.175, 11_200), (391.7, 25_000), (121.85, 6_000),
            (430.9125, 11_200), (165.8375, 11_200),
        ];
        SearchProblem problem = new()
        {
            Emitters = [.. demo.Select(static e => new SearchEmitter((long)Math.Round(e.Mhz * 1e6), e.Width))],
            Receivers =
                [new SearchReceiver { FrequencyHz = 145_050_000, ChannelHz = 12_500, FloorMicroDbm = MicroDb.FromDecibels(-128.94) }],
        };
        TransmitterStage stage = new()
        {
            Name = "telemetry scanner",
            Emitter = 0,
            PowerDbm = 33,
            TurnRound = TurnRoundLoss.EveryOrder(12),
            Arrivals = [null, .. Enumerable.Range(1, demo.Length - 1).Select(static i => Made.Arrival(i == 1 ? -8 : -27))],
        };
        TransmitterSearchInput input = TransmitterSearchInput.From(
            problem, stage, [TransmitterReach.FromMeasured("telemetry scanner", -31, 2, 158_300_000, 145_050_000, 0, 0)], [-1.2]);
        ProductList found = new();

        TransmitterSearch.Run(input, found);

        ProductRecord product = Assert.Single(found.Products);
        // -84 dBm at the antenna (docs/checks.md 9), 1.2 dB of feedline.
        Assert.Equal("0: +2 e0 -1 e1 at -85200000", Text(product, product.LevelMicroDbm));
    }

    [Theory]
    [InlineData(1, -1, 0, 1)]
    [InlineData(1, -1, 1, 0)]
    [InlineData(2, -2, 0, 1)]
    [InlineData(2, -2, 1, 0)]
    public void Run_floor_equal_to_the_level_is_reached(int own, int other, int floorAboveMicroDb, int expected)
    {
        // By hand: reach -30 less 40 dB per time of the other less 12: a floor at just that is reached, one a millionth of a decibel higher
        // isn't.
        int level = MicroDb.FromDecibels(-42 + (40 * other));
        SearchProblem problem = new()
        {
            Emitters = [new SearchEmitter(1_000_000, 0), new SearchEmitter(900_000, 0)],
            Receivers =
            [
                new SearchReceiver
                {
                    FrequencyHz = (own * 1_000_000) + (other * 900_000),
                    ChannelHz = 10,
                    FloorMicroDbm = level + floorAboveMicroDb,
                },
            ],
            MinOrder = own - other,
            MaxOrder = own - other,
        };
        TransmitterStage stage = new()
        {
            Name = "a",
            Emitter = 0,
            PowerDbm = 40,
            TurnRound = TurnRoundLoss.EveryOrder(12),
            Arrivals = [null, Made.Arrival(0)],
        };
        ProductList found = new();

        TransmitterSearch.Run(TransmitterSearchInput.From(problem, stage, [Made.Reach("a", 40, 70, 0, 0)], [0]), found);

        Assert.Equal(expected, found.Products.Count);
    }

    [Fact]
    public void Run_stops_with_the_sink_and_when_cancelled()
    {
        TransmitterSearchInput input = new()
        {
            Problem = new SearchProblem
            {
                Emitters = [new SearchEmitter(100, 10), new SearchEmitter(101, 10), new SearchEmitter(102, 10)],
                Receivers = [new SearchReceiver { FrequencyHz = 100, ChannelHz = 10 }],
            },
            Transmitter = 0,
            UnderPowerMicroDb = [0, 1, 1],
            TurnRoundMicroDb = [.. new int[10]],
            ReachMicroDbm = [0],
        };
        ProductList one = new(1);

        SearchOutcome outcome = TransmitterSearch.Run(input, one);

        Assert.False(outcome.Complete);
        Assert.True(one.Overflowed);
        Assert.Throws<OperationCanceledException>(() => TransmitterSearch.Run(input, new ProductList(), null, new CancellationToken(true)));
    }

    private static string Text(in ProductRecord product, long level)
    {
        List<string> terms = [];
        for (int i = 0; i < product.Signals; i++)
        {
            terms.Add(FormattableString.Invariant($"{product.Coefficient(i):+0;-0} e{product.Emitter(i)}"));
        }

        return FormattableString.Invariant($"{product.Receiver}: {string.Join(' ', terms)} at {level}");
    }
}
