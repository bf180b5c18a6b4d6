using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;
using Spurless.Mixing.Spread;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Tests.Screening;

public sealed class ScreenGroundTests
{
    private const int Seed = 20_261_130;

    private static readonly ScreenProfile Profile =
        new([new ScreenStage(static _ => 2.15, static _ => 0, Intercepts.Complete(-8))]);

    private static ScreenEmitter[] Emitters(int count, Random random) =>
    [
        .. Enumerable.Range(0, count).Select(_ => new ScreenEmitter
        {
            FrequencyHz = 148_000_000 + (random.Next(300) * 12_500L),
            BandwidthHz = 11_200,
            Spread = EmitterSpread.From(11_200, "F3E"),
            EirpDbm = 44 + (random.NextDouble() * 14),
            Place = GeoPoint.Of(51 + (random.NextDouble() * 0.5), random.NextDouble() * 0.7),
            HeightM = float.NaN,
            GroundM = float.NaN,
            AzimuthDegrees = float.NaN,
            BeamwidthDegrees = float.NaN,
        }),
    ];

    private static ScreenReceiver Receiver(Random random) => new()
    {
        Profile = Profile,
        Place = GeoPoint.Of(51 + (random.NextDouble() * 0.5), random.NextDouble() * 0.7),
        FrequencyHz = 148_000_000 + (random.Next(300) * 12_500L),
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = -128.9,
    };

    /// <summary>
    /// The slow way: what the ground takes beyond free space is taken off each emitter's power, and the same receiver is screened without
    /// any ground. The search without ground is held to an exhaustive one by <see cref="ScreenTests"/>.
    /// </summary>
    [Fact]
    public void Run_over_ground_finds_what_weaker_emitters_make_in_free_space()
    {
        Random random = new(Seed);
        ScreenEmitter[] emitters = Emitters(400, random);
        long seen = 0;
        for (int turn = 0; turn < 25; turn++)
        {
            ScreenReceiver receiver = Receiver(random);
            double[] beyond = [.. emitters.Select(_ => random.Next(5) == 0 ? double.NaN : (55 * random.NextDouble()) - 0.9)];
            ScreenEmitter[] weaker =
            [
                .. emitters.Select((e, i) => double.IsNaN(beyond[i]) ? e : e with { EirpDbm = e.EirpDbm - beyond[i] }),
            ];
            ScreenOptions options = new() { Orders = [2, 3, 5], Threads = 1 };

            ScreenFinding over = Screen.Run(
                ScreenField.Of(emitters), [receiver], options with { Ground = new Beyond(emitters, beyond) })[0];
            ScreenFinding free = Screen.Run(ScreenField.Of(weaker), [receiver], options)[0];

            Assert.Equal((free.Harmful, free.Marginal), (over.Harmful, over.Marginal));
            Assert.Equal(free.Worst is null, over.Worst is null);
            if (free.Worst is { } worst)
            {
                // The arc over the chord against the geodesic: 0.00003 dB for each emitter (EarthPoint).
                Assert.Equal(worst.OverNoiseDb, over.Worst!.OverNoiseDb, 0.001);
            }

            seen += free.Harmful + free.Marginal;
        }

        Assert.True(seen > 50, $"seed {Seed}: only {seen} mixtures");
    }

    [Fact]
    public void Run_over_ground_asks_only_for_emitters_that_could_matter()
    {
        Random random = new(Seed);
        ScreenEmitter[] emitters = Emitters(400, random);
        Beyond ground = new(emitters, [.. emitters.Select(static _ => 300.0)]);

        ScreenFinding found = Screen.Run(
            ScreenField.Of(emitters), [Receiver(random)], new ScreenOptions { Threads = 1, Ground = ground })[0];

        Assert.Null(found.Worst);
        Assert.InRange(ground.Asked, 1, emitters.Length);
    }

    private sealed class Beyond(ScreenEmitter[] emitters, double[] beyondDb) : IScreenGround
    {
        public int Asked { get; private set; }

        public double LossDb(int emitter, ScreenReceiver receiver)
        {
            Asked++;
            Assert.True(Geodesic.TryBetween(receiver.Place, emitters[emitter].Place, out GeodesicLine line, out _));
            return FreeSpace.LossDb(line.DistanceM, emitters[emitter].FrequencyHz) + beyondDb[emitter];
        }
    }
}
