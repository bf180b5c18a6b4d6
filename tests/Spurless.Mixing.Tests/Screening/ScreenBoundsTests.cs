using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Tests.Screening;

/// <summary>What a screening leaves out it leaves out by bounds: each is held to the figure that it bounds.</summary>
public sealed class ScreenBoundsTests
{
    /// <summary>Against the logarithm itself, over all powers of two that levels lie between.</summary>
    [Fact]
    public void Decibels_over_and_milliwatts_under_are_within_three_tenths_and_on_their_side()
    {
        Random random = new(1);
        for (int i = 0; i < 20_000; i++)
        {
            double dbm = -300 + (600 * random.NextDouble());
            double milliwatts = Math.Pow(10, dbm / 10);

            Assert.InRange(ScreenSight.DecibelsOver(milliwatts) - dbm, 0, 0.3);
            Assert.InRange(dbm - (10 * Math.Log10(ScreenSight.MilliwattsUnder(dbm))), 0, 0.3);
        }
    }

    /// <summary>No emitter arrives stronger than the bound of its seat, nor of any box that holds it, over free space and plane earth, from
    /// beside the mast to across the sea; and where nothing but the distance counts the bound is near.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Most_is_never_less_than_the_level(bool heights)
    {
        Random random = new(heights ? 2 : 3);
        ScreenField field = ScreenField.Of(Emitters(random, 600, heights));
        ScreenPaths paths = new(field, null);
        double widest = 0;
        for (int r = 0; r < 60; r++)
        {
            ScreenReceiver receiver = Receiver(random, field, r);
            paths.Begin(receiver, double.PositiveInfinity);
            ScreenSight sight = new(receiver, paths.LeastFreeSpaceDb, double.PositiveInfinity, overGround: false);
            foreach (ScreenTree tree in field.Trees)
            {
                foreach (ScreenTree.Node node in tree.Nodes)
                {
                    double most = 10 * Math.Log10(sight.Most(node, 0));
                    for (int k = node.From; k < node.To; k++)
                    {
                        double level = paths.Level(tree.Members[k], double.NegativeInfinity);
                        double seat = 10 * Math.Log10(sight.Most(tree.Seats[k], 0));
                        Assert.False(level > seat || level > most, FormattableString.Invariant($"{level} {seat} {most}"));
                        if (double.IsFinite(seat) && float.IsNaN(field.Sites[tree.Members[k]].Azimuth))
                        {
                            widest = Math.Max(widest, seat - level);
                        }
                    }
                }
            }
        }

        // One part in a hundred of the distance squared, twice over plane earth; beyond 1,000 km the chord is shorter than the arc.
        Assert.InRange(widest, 0.04, 2);
    }

    /// <summary>Against counting the lower ones.</summary>
    [Theory]
    [InlineData(1, 100_000)]
    [InlineData(300, 12_500)]
    [InlineData(3_000, 1)]
    [InlineData(500, 80_000_000)]
    public void FirstAt_is_the_number_of_lower_frequencies(int count, long step)
    {
        Random random = new(count);
        ScreenEmitter[] emitters =
            [.. Emitters(random, count, false).Select((e, i) => e with { FrequencyHz = 30_000_000 + (step * random.Next(1 + (2 * i))) })];
        ScreenField field = ScreenField.Of(emitters);
        long[] frequencies = [.. emitters.Select(static e => e.FrequencyHz).Distinct().Order()];
        foreach (long at in frequencies.SelectMany(static f => (long[])[f - 1, f, f + 1]).Concat([-5, 0, 1, long.MaxValue / 2]))
        {
            Assert.Equal(frequencies.Count(f => f < at), field.FirstAt(at));
        }
    }

    private static ScreenReceiver Receiver(Random random, ScreenField field, int r)
    {
        int beside = random.Next(field.Count);
        double away = Math.Pow(10, -5 + (r % 6));
        return new ScreenReceiver
        {
            Profile = new ScreenProfile([new ScreenStage(static _ => 0, static _ => 0, Intercepts.Complete(-8))]),
            Place = GeoPoint.Of(
                field.Latitude[beside] + (away * random.NextDouble()), field.Longitude[beside] + (away * random.NextDouble())),
            FrequencyHz = 145_000_000,
            ChannelHz = 12_500,
            IfBandwidthHz = 8_000,
            NoiseFloorDbm = -128.9,
            HeightM = 1 + (30 * random.NextDouble()),
            GroundM = 300 * random.NextDouble(),
        };
    }

    private static ScreenEmitter[] Emitters(Random random, int count, bool heights) =>
    [
        .. Enumerable.Range(0, count).Select(i => new ScreenEmitter
        {
            FrequencyHz = 30_000_000 + random.NextInt64(900_000_000),
            BandwidthHz = 11_200,
            EirpDbm = -20 + (90 * random.NextDouble()),
            Place = GeoPoint.Of(40 + (random.Next(20) * 0.3), -20 + (random.Next(20) * 0.5)),
            HeightM = heights ? 1 + (60 * random.NextSingle()) : float.NaN,
            GroundM = heights ? random.NextSingle() * 1_000 : float.NaN,
            AzimuthDegrees = i % 7 == 0 ? random.Next(360) : float.NaN,
            BeamwidthDegrees = i % 7 == 0 ? 65 : float.NaN,
        }),
    ];
}
