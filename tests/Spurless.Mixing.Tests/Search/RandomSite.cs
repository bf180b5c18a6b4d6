using System.Collections.Immutable;

using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>
/// Small sites in which everything that is awkward is frequent: equal carriers, products exactly on a channel's edge, ties of level, zero
/// and very wide emitters, levels above 0 dBm, unknown levels, exclusive groups, several stages, frequencies that overflow 32 bits, orders
/// to 9, floors equal to a product's own level, receivers that see the same levels and such as see their own.
/// </summary>
internal static class RandomSite
{
    private static readonly long[] Units = [1, 6_250, 12_500, 16_384, 1_000_003, 97_000_000, 1_300_000_000];

    public static SearchProblem Create(int seed)
    {
        Random random = new(seed);
        int emitterCount = random.Next(1, 8);
        long unit = Units[random.Next(Units.Length)];
        long jitter = random.Next(3) == 0 ? unit / 3 : 0;
        int span = random.Next(2, 40);
        long[] widths = random.Next(4) switch
        {
            0 => [0],
            1 => [0, unit, 16_000],
            2 => [200_000, 16_000, 0],
            _ => [unit * 3, 1, 25_000],
        };
        ImmutableArray<SearchEmitter> emitters = [.. Enumerable.Range(0, emitterCount).Select(_ => new SearchEmitter(
            (random.Next(1, span) * unit) + (jitter == 0 ? 0 : random.NextInt64(jitter + 1)),
            widths[random.Next(widths.Length)],
            random.Next(5) == 0))];

        // The number of vectors grows fast with both; the oracle has to go through all of them and their mirror images.
        int maxOrder = random.Next(2, emitterCount switch { <= 4 => 10, 5 => 8, 6 => 7, _ => 6 });
        int minOrder = random.Next(2) == 0 ? 2 : random.Next(2, maxOrder + 1);
        int receiverCount = random.Next(20) == 0 ? 50 : random.Next(1, 5);
        int rasters = random.Next(1, 4);
        int levels = random.Next(3);
        SearchReceiver[] receivers =
        [
            .. Enumerable.Range(0, receiverCount).Select(i => Receiver(random, emitters, unit, span, rasters, levels, i)),
        ];
        // Behind one antenna receivers see the same levels and are searched together; a filter of its own sets one apart.
        bool oneAntenna = random.Next(2) == 0;
        for (int i = 1; oneAntenna && i < receivers.Length; i++)
        {
            receivers[i] = random.Next(4) == 0 ? receivers[i] : receivers[i] with { Stages = receivers[0].Stages };
        }

        SearchProblem problem = new()
        {
            Emitters = emitters,
            Receivers = [.. receivers],
            ExclusiveGroups = [.. Enumerable.Range(0, random.Next(2) == 0 ? 0 : random.Next(1, 4)).Select(_ =>
                Enumerable.Range(0, random.Next(1, 4)).Select(_ => random.Next(emitterCount)).ToImmutableArray())],
            MinOrder = minOrder,
            MaxOrder = maxOrder,
            MaxSignals = random.Next(1, 10),
        };
        return random.Next(4) == 0 ? AtLevels(random, problem) : problem;
    }

    /// <summary>
    /// The same with every floor at the level of one of the products, or one micro-dB over it: such that its threshold is that level
    /// exactly.
    /// </summary>
    private static SearchProblem AtLevels(Random random, SearchProblem problem)
    {
        ProductList all = new();
        new PlainSearch().Run(problem with { Receivers = [.. problem.Receivers.Select(static r => r with { FloorMicroDbm = null })] }, all);
        return problem with
        {
            Receivers =
            [
                .. problem.Receivers.Select((receiver, r) =>
                {
                    ProductRecord[] own = [.. all.Products.Where(p => p.Receiver == r && p.HasLevel)];
                    if (own.Length == 0)
                    {
                        return receiver;
                    }

                    long level = own[random.Next(own.Length)].LevelMicroDbm + random.Next(2);
                    SearchReceiver at = receiver with { FloorMicroDbm = level };
                    return at with { FloorMicroDbm = level + (level - at.ThresholdMicroDbm) };
                }),
            ],
        };
    }

    private static SearchReceiver Receiver(
        Random random, ImmutableArray<SearchEmitter> emitters, long unit, int span, int rasters, int levels, int index)
    {
        // Adjacent channels, channels on a carrier, channels anywhere.
        long raster = Math.Max(1, rasters * unit / 2);
        long frequency = random.Next(3) switch
        {
            0 => emitters[random.Next(emitters.Length)].FrequencyHz,
            1 => (random.Next(1, span) * unit) + (index % 3 * raster),
            _ => random.NextInt64(1, span * unit * 2),
        };
        int stageCount = random.Next(5) switch { 0 => 0, 1 => 2, 2 => 3, _ => 1 };
        bool[] unknown = [.. emitters.Select(_ => random.Next(8) == 0)];
        ImmutableArray<SearchStage> stages = [.. Enumerable.Range(0, stageCount).Select(_ => new SearchStage
        {
            LevelMicroDbm = [.. emitters.Select((_, i) => unknown[i] ? MicroDb.Unknown : Level(random, levels))],
            InterceptMicroDbm = [.. Enumerable.Range(0, 10).Select(_ => levels == 0 ? 0 : random.Next(-10, 40) * MicroDb.PerDecibel)],
            ReferralMicroDb = levels == 0 ? 0 : random.Next(-20, 20) * MicroDb.PerDecibel / 3,
        })];
        return new SearchReceiver
        {
            FrequencyHz = Math.Max(1, frequency),
            ChannelHz = random.Next(4) == 0 ? 1 : raster,
            FloorMicroDbm = random.Next(4) == 0 ? null : Floor(random, levels),
            Stages = stages,
        };
    }

    private static int Level(Random random, int levels) => levels switch
    {
        0 => -30 * MicroDb.PerDecibel, // all equal
        1 => random.Next(-6, 3) * 10 * MicroDb.PerDecibel, // many ties, some above 0 dBm
        _ => random.Next(-90_000_000, 20_000_000),
    };

    private static long Floor(Random random, int levels)
    {
        // With equal levels and intercepts of 0 dBm the two-tone product of order n stands at n times -30 dBm exactly.
        long floor = levels == 0 ? random.Next(2, 8) * -30L * MicroDb.PerDecibel : random.Next(-300, -20) * (long)MicroDb.PerDecibel;
        return levels == 0 && random.Next(3) == 0 ? floor + 1 : floor;
    }
}
