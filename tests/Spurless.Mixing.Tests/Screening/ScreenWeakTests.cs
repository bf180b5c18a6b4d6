using CsCheck;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;
using Spurless.Mixing.Spread;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Tests.Screening;

/// <summary>How weak emitters are looked up: each bound and list against going through all emitters.</summary>
public sealed class ScreenWeakTests
{
    private static readonly ScreenProfile Profile =
        new([new ScreenStage(static f => f < 300e6 ? 2.15 : -20, static _ => 0, Intercepts.Complete(-8))]);

    /// <summary>
    /// A product of any emitters within the bounds of spread loses at least what its ring says. A sigma is 0 or that of 1 Hz of width at
    /// least (<see cref="EmitterSpread.From"/>).
    /// </summary>
    [Fact]
    public void LeastDropDb_is_never_more_than_what_misses_the_channel() => Gen.Select(
        Gen.Select(
            Gen.Double[-600, 6_000].Select(static s => s < 0.25 ? 0 : s),
            Gen.Double[0, 4_000],
            Gen.Int[0, 2].Select(static k => k * k * 3_750.0)).Array[1, 3],
        Gen.Int[-5, 5].Array[3],
        Gen.Double[2_000, 20_000],
        Gen.Int[0, 60_000]).Sample(static (emitters, coefficients, width, off) =>
        {
            EmitterSpread[] spreads = [.. emitters.Select(static e => new EmitterSpread(e.Item2, e.Item1, e.Item3))];
            int[] taken = [.. coefficients.Take(spreads.Length).Select(static c => c == 0 ? 1 : c)];
            double variance = spreads.Select((s, i) => taken[i] * taken[i] * s.SigmaHz * s.SigmaHz).Sum();
            double shift = spreads.Select((s, i) => Math.Abs(taken[i]) * s.ShiftHz).Sum();
            ChannelRings rings = new(width / 2, variance, shift);

            double lost = -10 * Math.Log10(InChannelShare.Of(off, width, taken, spreads));
            double drop = rings.LeastDropDb(off);

            // What loses less than its room lies within the ring of that room.
            return lost >= drop && (lost > 60 || off <= rings.Within(lost)) && rings.Within(-0.1) < 0;
        });

    /// <summary>All emitters of a frequency that arrive so strong, but for the strong ones: in whatever order it is asked how
    /// deep.</summary>
    [Fact]
    public void Weak_lists_what_going_through_all_emitters_lists() => Gen.Select(
        Gen.Int[1, 1_000_000], Gen.Int[1, 60], Gen.Double[-70, -20], Gen.Double[0, 25], Gen.Double[-110, -20].Array[1, 6])
        .Sample(static (seed, leastInRun, strongFrom, nearDb, asked) =>
    {
        Random random = new(seed);
        ScreenField field = ScreenField.Of(Emitters(random, 150), leastInRun);
        ScreenReceiver receiver = Receiver(random);
        ScreenWalk walk = new(field, null);
        ProfileGains gains = new(Profile, field);
        walk.Begin(receiver, gains, double.PositiveInfinity);
        walk.Gather([strongFrom], [strongFrom - nearDb]);
        WeakReach reach = new(field, walk);
        reach.Begin();
        (int Emitter, double Level)[] all =
        [
            .. Enumerable.Range(0, field.Count).Select(i => (i, walk.Level(i, double.NegativeInfinity)))
                .Where(static e => e.Item2 > -999),
        ];
        double At(int i) => gains.At(0, field.FrequencyIndex[i]);
        Assert.Equal(
            all.Where(e => e.Level + At(e.Emitter) >= strongFrom).Select(static e => e.Emitter).Order(), walk.Found.Order());

        foreach (double wanted in asked)
        {
            int run = random.Next(field.Runs.Trees.Length);
            ScreenTree tree = field.Runs.Trees[run];
            reach.Look(run, wanted, -95);
            int f = tree.FirstFrequency + random.Next(tree.LastFrequency - tree.FirstFrequency + 1);
            Assert.Equal(run, field.Runs.RunOf[f]);
            (int from, int to) = reach.Weak(run, f, wanted, gains, [strongFrom]);
            (int Emitter, double Level)[] listed =
                [.. Enumerable.Range(from, to - from).Select(k => reach[k]).Where(e => e.Level >= wanted)];
            Assert.Equal(
                all.Where(e => field.FrequencyIndex[e.Emitter] == f && e.Level >= wanted && e.Level + At(e.Emitter) < strongFrom)
                    .OrderByDescending(static e => e.Level).ThenBy(static e => e.Emitter),
                listed);
            double most = all.Where(e => e.Emitter >= 0 && field.Runs.RunOf[field.FrequencyIndex[e.Emitter]] == run
                && e.Level + At(e.Emitter) < strongFrom).Select(static e => e.Level).DefaultIfEmpty(-999).Max();
            Assert.True(reach.Most(run) >= most - 1e-4, FormattableString.Invariant($"{reach.Most(run)} {most}"));
        }
    });

    /// <summary>No frequency between two lies in a run outside.</summary>
    [Fact]
    public void Between_leaves_out_no_frequency() => Gen.Select(
        Gen.Int[1, 1_000_000], Gen.Int[1, 60], Gen.Long[-1_000_000, 600_000_000], Gen.Long[0, 60_000_000])
        .Sample(static (seed, leastInRun, low, width) =>
    {
        ScreenField field = ScreenField.Of(Emitters(new Random(seed), 200), leastInRun);
        (int first, int last) = field.Runs.Between(low, low + width);
        for (int f = 0; f < field.Frequencies.Length; f++)
        {
            if (field.Frequencies[f] >= low && field.Frequencies[f] <= low + width)
            {
                Assert.InRange(field.Runs.RunOf[f], first, last);
            }
        }
    });

    private static ScreenReceiver Receiver(Random random) => new()
    {
        Profile = Profile,
        Place = GeoPoint.Of(51 + (random.NextDouble() * 0.5), random.NextDouble() * 0.7),
        FrequencyHz = 148_000_000,
        ChannelHz = 12_500,
        IfBandwidthHz = 8_000,
        NoiseFloorDbm = -128.9,
        HeightM = 15,
        GroundM = 100 * random.NextDouble(),
    };

    private static ScreenEmitter[] Emitters(Random random, int count) =>
    [
        .. Enumerable.Range(0, count).Select(_ => new ScreenEmitter
        {
            FrequencyHz = (random.Next(3) == 0 ? 450_000_000 : 148_000_000) + (random.Next(40) * 12_500L),
            BandwidthHz = 11_200,
            Spread = EmitterSpread.From(11_200, "F3E"),
            EirpDbm = 10 + (random.NextDouble() * 45),
            Place = GeoPoint.Of(51 + (random.Next(12) * 0.05), random.Next(12) * 0.06),
            HeightM = random.Next(6) == 0 ? float.NaN : 5 + (40 * random.NextSingle()),
            GroundM = 100 * random.NextSingle(),
            AzimuthDegrees = random.Next(6) == 0 ? random.Next(360) : float.NaN,
            BeamwidthDegrees = 65,
        }),
    ];
}
