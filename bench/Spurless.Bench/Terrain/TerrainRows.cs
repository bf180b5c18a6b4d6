using System.Globalization;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;
using Spurless.Mixing.Spread;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Radio.Terrain.Elevation;

namespace Spurless.Bench.Terrain;

/// <summary>Paths over the ground: the prediction with the profile in memory, and the taking of a profile from a tile.</summary>
public static class TerrainRows
{
    private const string Subject = "Terrain";
    private const int PointsOf30Km = 1300;

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "30 km path with its sigma, profile in memory, one thread", ">= 100 a second", static _ => Predict()),
        new BenchRow(Subject, "30 km profile from a tile of one arc second in memory", "guide", static _ => Sample()),
        new BenchRow(
            Subject, "screen 20 receivers, 2,000 emitters of one square degree, over the ground", "guide", static _ => ScreenOver()),
    ];

    private static TerrainConditions Conditions { get; } = new()
    {
        FrequencyHz = 145e6,
        TransmitterHeightM = 30,
        ReceiverHeightM = 10,
        LatitudeDegrees = 40.5,
    };

    private static BenchResult Predict()
    {
        double[] d = [.. Enumerable.Range(0, PointsOf30Km).Select(static i => 30_000.0 * i / (PointsOf30Km - 1))];
        double[] h = [.. d.Select(static m => Height(m / 85_000, m / 111_000))];
        if (!TerrainProfile.TryCreate(d, h, [], [], out TerrainProfile profile, out ProfileProblem problem))
        {
            throw new InvalidOperationException(problem.Text);
        }

        TerrainPrediction? last = null;
        double seconds = Timing.Best(
            () => last = TerrainPrediction.Of(profile, Conditions, ElevationGrid.UsualErrorM), TimeSpan.FromSeconds(1));
        return new BenchResult(
            Timing.Text(seconds),
            "",
            "",
            1 / seconds >= 100,
            string.Create(CultureInfo.InvariantCulture,
                $"{1 / seconds:#,0} a second; {PointsOf30Km} points; {last!.LossDb:0.0} dB, sigma {last.SigmaDb:0.0} dB; "
                    + $"a level by free space alone, which is what screening takes without tiles: {FreeSpaceSeconds() * 1e9:0} ns"));
    }

    private static One Tile()
    {
        const int side = 3601;
        short[] metres = new short[side * side];
        for (int i = 0; i < metres.Length; i++)
        {
            metres[i] = (short)Height(i % side / 3600.0, i / side / 3600.0);
        }

        ElevationGrid grid = new("N40W036", 41, -36, 1 / 3600.0, 1 / 3600.0, side, side, false, ElevationGrid.UsualErrorM);
        return new One(ElevationTile.Of(grid, metres));
    }

    private static BenchResult Sample()
    {
        One tiles = Tile();
        SampledProfile? last = null;
        double seconds = Timing.Best(
            () => ProfileSampler.TrySample(
                GeoPoint.Of(40.3, -35.7), GeoPoint.Of(40.5, -35.46), tiles, out last, out _), TimeSpan.FromSeconds(1));
        return new BenchResult(
            Timing.Text(seconds),
            "",
            "",
            null,
            string.Create(CultureInfo.InvariantCulture, $"{last!.Profile.Count} points over {last.Profile.LengthM / 1000:0.0} km"));
    }

    /// <summary>The same screening with and without the ground between.</summary>
    private static BenchResult ScreenOver()
    {
        const int count = 2_000;
        const int receivers = 20;
        Random random = new(1);
        GeoPoint Place() => GeoPoint.Of(40.05 + (0.9 * random.NextDouble()), -35.95 + (0.9 * random.NextDouble()));
        ScreenEmitter[] emitters = new ScreenEmitter[count];
        GeoPoint mast = Place();
        for (int i = 0; i < count; i++)
        {
            // Eight to a mast.
            mast = i % 8 == 0 ? Place() : mast;
            emitters[i] = new ScreenEmitter
            {
                FrequencyHz = 148_000_000 + (random.Next(2_000) * 12_500L),
                BandwidthHz = 11_200,
                Spread = EmitterSpread.From(11_200, "F3E"),
                EirpDbm = 42 + (14 * random.NextDouble()),
                Place = mast,
                HeightM = 30,
                GroundM = float.NaN,
                AzimuthDegrees = float.NaN,
                BeamwidthDegrees = float.NaN,
            };
        }

        ScreenProfile profile = new([new ScreenStage(static _ => 2.15, static _ => 0, Intercepts.Complete(-8))]);
        ScreenReceiver[] all =
        [
            .. Enumerable.Range(0, receivers).Select(_ => new ScreenReceiver
            {
                Profile = profile,
                Place = Place(),
                FrequencyHz = 148_000_000 + (random.Next(2_000) * 12_500L),
                ChannelHz = 12_500,
                IfBandwidthHz = 8_000,
                NoiseFloorDbm = -128.9,
                HeightM = 15,
            }),
        ];
        ScreenField field = ScreenField.Of(emitters);
        Ground ground = new(Tile(), emitters);
        double without = Timing.Once(() => Screen.Run(field, all, new ScreenOptions { Threads = 1 }));
        double with = Timing.Once(() => Screen.Run(field, all, new ScreenOptions { Threads = 1, Ground = ground }));
        return new BenchResult(
            $"{Timing.Text(with / receivers)} a receiver, {Timing.Text(without / receivers)} without",
            string.Create(CultureInfo.InvariantCulture, $"{with / without:0} x"),
            "",
            null,
            string.Create(
                CultureInfo.InvariantCulture,
                $"one thread; {ground.Asked / receivers:#,0} paths a receiver of {count:#,0}, {with / ground.Asked * 1e6:0} us a path "
                    + $"with its profile, eight emitters to a mast"));
    }

    /// <summary>The ground over a tile in memory, a profile a mast and receiver.</summary>
    private sealed class Ground(One tiles, ScreenEmitter[] emitters) : IScreenGround
    {
        private (GeoPoint From, GeoPoint To, SampledProfile Profile)? _last;

        public long Asked { get; private set; }

        public double LossDb(int emitter, ScreenReceiver receiver)
        {
            Asked++;
            ScreenEmitter from = emitters[emitter];
            if (_last is not { } last || last.From != from.Place || last.To != receiver.Place)
            {
                if (!ProfileSampler.TrySample(from.Place, receiver.Place, tiles, out SampledProfile sampled, out string problem))
                {
                    throw new InvalidOperationException(problem);
                }

                _last = last = (from.Place, receiver.Place, sampled);
            }

            return TerrainPrediction.Of(
                last.Profile.Profile,
                Conditions with { FrequencyHz = from.FrequencyHz, TransmitterHeightM = from.HeightM, ReceiverHeightM = receiver.HeightM },
                last.Profile.HeightErrorM).LossDb ?? double.NaN;
        }
    }

    /// <summary>Seconds of one level by free space, which is what a screening takes where there are no tiles.</summary>
    private static double FreeSpaceSeconds()
    {
        const int count = 1000;
        double sum = 0;
        double seconds = Timing.Best(
            () =>
            {
                for (int i = 1; i <= count; i++)
                {
                    sum += FreeSpace.LossDb(30_000 + i, 145e6);
                }
            },
            TimeSpan.FromSeconds(0.3));
        return sum > 0 ? seconds / count : throw new InvalidOperationException("nothing was computed");
    }

    /// <summary>Invented rolling ground, 100 to 500 m.</summary>
    private static double Height(double east, double north) =>
        300 + 120 * Math.Sin(40 * east) * Math.Cos(31 * north) + 60 * Math.Sin(170 * east + 90 * north) + 20 * Math.Sin(900 * east);

    private sealed class One(ElevationTile tile) : IElevation
    {
        public ElevationTile? TileAt(double latitudeDegrees, double longitudeDegrees) =>
            tile.Covers(latitudeDegrees, longitudeDegrees) ? tile : null;
    }
}
