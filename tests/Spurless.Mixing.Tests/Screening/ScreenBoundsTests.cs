using System.Runtime.Intrinsics;
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
                float[] seats = Seats(tree, sight);
                foreach ((double most, int from, int to) in Boxes(tree, sight))
                {
                    for (int k = from; k < to; k++)
                    {
                        double level = paths.Level(tree.Members[k], double.NegativeInfinity);
                        double seat = 10 * Math.Log10(seats[k]);
                        Assert.False(level > seat || seats[k] > most, FormattableString.Invariant($"{level} {seat} {most}"));
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

    /// <summary>Eight at once are one at a time: the bounds written out with ordinary numbers, beside the mast and with a cut of
    /// distance, of whole eights and of what is left of one.</summary>
    [Theory]
    [InlineData(true, double.PositiveInfinity)]
    [InlineData(true, 60_000)]
    [InlineData(false, 300_000)]
    public void Most_of_eight_is_the_most_of_each(bool heights, double within)
    {
        Random random = new(heights ? 4 : 5);
        ScreenField field = ScreenField.Of(Emitters(random, 301, heights));
        int at = 0;
        int cut = 0;
        for (int r = 0; r < 30; r++)
        {
            ScreenReceiver receiver = Receiver(random, field, r);
            double free = 20 * Math.Log10(4 * Math.PI / 299_792_458);
            ScreenSight sight = new(receiver, free, within * within, overGround: false);
            EarthPoint here = EarthPoint.Of(receiver.Place);
            foreach (ScreenTree tree in field.Trees)
            {
                float[] seats = Seats(tree, sight);
                for (int k = 0; k < seats.Length; k++)
                {
                    ScreenField.Site site = field.Sites[tree.Members[k]];
                    double distance = Math.Sqrt(here.ChordSquared(site.Point));
                    double most = Math.Pow(10, (site.EirpDbm - free - (20 * Math.Log10(distance * site.FrequencyHz))) / 10) / 0.99;
                    if (heights)
                    {
                        double h1 = Math.Max(site.HeightM, site.HeightM + site.GroundM - receiver.GroundM);
                        double h2 = Math.Max(receiver.HeightM, receiver.HeightM + receiver.GroundM - site.GroundM);
                        most = Math.Min(most, Math.Pow(10, site.EirpDbm / 10) * Math.Pow(h1 * h2 / (0.99 * distance * distance), 2));
                    }

                    // Within two metres of an edge either side is right.
                    if (Math.Abs(distance - 300) < 2 || Math.Abs((distance * Math.Sqrt(0.99)) - within) < 2)
                    {
                        continue;
                    }

                    (bool isOut, bool isAt) = (distance * Math.Sqrt(0.99) > within, distance < 300);
                    double expected = isOut ? double.NegativeInfinity : isAt ? double.PositiveInfinity : most;
                    Assert.True(
                        expected == seats[k] || Math.Abs((seats[k] / expected) - 1) < 0.015,
                        FormattableString.Invariant($"{seats[k]} {expected} at {distance} m"));
                    (at, cut) = (at + (isAt ? 1 : 0), cut + (isOut ? 1 : 0));
                }
            }
        }

        Assert.True(at > 20 && (cut > 20 || double.IsInfinity(within)), FormattableString.Invariant($"{at} {cut}"));
    }

    /// <summary>A power that a bound is held against is never more than it was, and one that is next to nothing lets all pass.</summary>
    [Fact]
    public void Floor_is_the_power_or_lets_all_pass()
    {
        foreach (double dbm in (double[])[-3_000, -301, -300, -299.9, -140, 0, 60, 300, 2_000])
        {
            double milliwatts = Math.Pow(10, dbm / 10);
            float floor = ScreenSight.Floor(milliwatts);
            Assert.True(floor <= milliwatts * (1 + 1e-7) || float.IsPositiveInfinity(floor));
            Assert.Equal(milliwatts < 1e-30, floor < 0);
        }
    }

    /// <summary>The boxes hold every emitter once, eight or what is left at the end; none stands outside its box.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(8)]
    [InlineData(9)]
    [InlineData(64)]
    [InlineData(65)]
    [InlineData(512)]
    [InlineData(513)]
    [InlineData(1_000)]
    public void Boxes_hold_every_emitter_once(int count)
    {
        Random random = new(count);
        ScreenEmitter[] emitters =
            [.. Emitters(random, count, true).Select(static e => e with { FrequencyHz = 100_000_000 + (e.FrequencyHz % 20_000_000) })];
        ScreenField field = ScreenField.Of(emitters);
        ScreenTree tree = Assert.Single(field.Trees);
        ScreenReceiver receiver = Receiver(random, field, 1);
        ScreenSight sight = new(receiver, 0, double.PositiveInfinity, overGround: false);

        BoxWalk walk = new();
        List<int> seen = [];
        walk.Start();
        for (int n; (n = walk.Next(tree, sight, -1)) >= 0;)
        {
            int first = n * ScreenTree.Lanes;
            int there = Math.Min(ScreenTree.Lanes, count - first);
            Assert.Equal((1u << there) - 1, tree.SeatsIn(n));
            seen.AddRange(Enumerable.Range(first, there));
        }

        Assert.Equal(Enumerable.Range(0, count), seen.Order());
        Assert.Equal(Enumerable.Range(0, count), tree.Members.Order());

        // Of each depth all eights are full but one.
        Assert.All(tree.Count, static c => Assert.InRange(c, (byte)1, (byte)ScreenTree.Lanes));
        int deep = (int)Math.Ceiling(Math.Max(1, Math.Log((count + 7) / 8, 8)) - 1e-9);
        Assert.InRange(tree.Count.Count(static c => c < ScreenTree.Lanes), 0, deep);
        Assert.Equal(count, Boxes(tree, sight).Where(static b => b.Smallest).Sum(static b => b.To - b.From));
        Assert.All(Enumerable.Range(0, count), k => Assert.Equal(field.FrequencyIndex[tree.Members[k]], tree.Frequency[k]));
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

    /// <summary>What each emitter can bring at most, in milliwatts, in the order of the boxes.</summary>
    private static float[] Seats(ScreenTree tree, ScreenSight sight)
    {
        List<float> all = [];
        for (int n = 0; all.Count < tree.Members.Length; n++)
        {
            float[] eight = new float[ScreenTree.Lanes];
            sight.MostOfSeats(tree, n).CopyTo(eight);
            all.AddRange(eight);
        }

        return [.. all.Take(tree.Members.Length)];
    }

    /// <summary>All boxes: what is in them can bring at most, in milliwatts, and from which to which emitter they go.</summary>
    private static List<Box> Boxes(ScreenTree tree, ScreenSight sight)
    {
        List<Box> all = [];
        (int From, int To) Under(int n)
        {
            float[] most = new float[ScreenTree.Lanes];
            sight.MostOfBoxes(tree, n).CopyTo(most);
            (int from, int to) = (int.MaxValue, 0);
            for (int k = 0; k < tree.Count[n]; k++)
            {
                int below = tree.Below[(n * ScreenTree.Lanes) + k];
                (int first, int last) = below >= 0
                    ? Under(below)
                    : (~below * ScreenTree.Lanes, Math.Min((~below + 1) * ScreenTree.Lanes, tree.Members.Length));
                all.Add(new Box(most[k], first, last, below < 0));
                (from, to) = (Math.Min(from, first), Math.Max(to, last));
            }

            return (from, to);
        }

        Assert.Equal((0, tree.Members.Length), Under(0));
        return all;
    }

    private readonly record struct Box(double Most, int From, int To, bool Smallest)
    {
        public void Deconstruct(out double most, out int from, out int to) => (most, from, to) = (Most, From, To);
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
