using System.Globalization;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;
using Spurless.Mixing.Spread;
using Spurless.Radio.Paths;

namespace Spurless.Bench.Registers;

/// <summary>
/// An invented country of 3,000 by 2,000 km: masts crowded round towns, land mobile and paging channels in five bands, antenna heights and
/// grounds given. Made from a seed.
/// </summary>
internal sealed class Country
{
    private static readonly (long From, long To, long Step, int Weight)[] Bands =
    [
        (30_000_000, 50_000_000, 20_000, 5), (148_000_000, 174_000_000, 7_500, 45), (217_000_000, 222_000_000, 5_000, 5),
        (450_000_000, 470_000_000, 6_250, 40), (929_000_000, 932_000_000, 25_000, 5),
    ];

    private readonly (double Latitude, double Longitude, float Ground)[] _masts;
    private readonly Random _random;

    public Country(int emitters, int seed)
    {
        _random = new Random(seed);
        int towns = Math.Max(1, emitters / 400);
        (double Lat, double Lon, double Size, double Ground)[] town = new (double, double, double, double)[towns];
        for (int i = 0; i < towns; i++)
        {
            town[i] = (
                30 + (_random.NextDouble() * 18),
                -110 + (_random.NextDouble() * 34),
                0.03 + (0.25 * Math.Pow(_random.NextDouble(), 3)),
                20 + (400 * _random.NextDouble()));
        }

        _masts = new (double, double, float)[Math.Max(1, emitters / 8)];
        for (int i = 0; i < _masts.Length; i++)
        {
            (double lat, double lon, double size, double level) = town[(int)(towns * Math.Pow(_random.NextDouble(), 1.5))];
            _masts[i] = (lat + (size * Gauss()), lon + (1.3 * size * Gauss()), (float)(level + (80 * Math.Pow(_random.NextDouble(), 3))));
        }

        Emitters = new ScreenEmitter[emitters];
        for (int i = 0; i < emitters; i++)
        {
            Emitters[i] = Emitter();
        }
    }

    public ScreenEmitter[] Emitters { get; }

    /// <summary>Receivers some kilometres from masts: land mobile and amateur base stations of their own.</summary>
    public ScreenReceiver[] Receivers(int count)
    {
        ScreenProfile[] profiles = [.. Enumerable.Range(0, 4).Select(static k => new ScreenProfile([new ScreenStage(
            static f => 5.15 - (1.2 * Math.Sqrt(f / 145e6)), static _ => 0, Intercepts.Complete(2 + (3 * k)))]))];
        ScreenReceiver[] all = new ScreenReceiver[count];
        for (int i = 0; i < count; i++)
        {
            (double lat, double lon, float ground) = _masts[_random.Next(_masts.Length)];
            all[i] = new ScreenReceiver
            {
                Profile = profiles[_random.Next(profiles.Length)],
                Place = GeoPoint.Of(lat + (0.12 * Gauss()), lon + (0.12 * Gauss())),
                FrequencyHz = Frequency(),
                ChannelHz = 12_500,
                IfBandwidthHz = 8_000,
                NoiseFloorDbm = -128.9,
                HeightM = 20,
                GroundM = ground,
            };
        }

        return all;
    }

    /// <summary>The emitters as public access files, with a licence for every fourth.</summary>
    public void WritePublicAccess(string folder)
    {
        using StreamWriter hd = new(Path.Combine(folder, "HD.dat")),
        lo = new(Path.Combine(folder, "LO.dat")),
        an = new(Path.Combine(folder, "AN.dat"));
        using StreamWriter fr = new(Path.Combine(folder, "FR.dat")), em = new(Path.Combine(folder, "EM.dat"));
        string Bars(int n) => new('|', n);
        for (int i = 0; i < Emitters.Length; i++)
        {
            ref readonly ScreenEmitter e = ref Emitters[i];
            int system = 1 + (i / 4);
            int place = 1 + (i % 4);
            if (i % 4 == 0)
            {
                hd.Write(string.Create(
                    CultureInfo.InvariantCulture,
                    $"HD|{system}|000{system}||WZ{system:000000}|A|IG|01/02/2025|01/02/2035{Bars(41)}\n"));
            }

            (string latitude, string side) = Angle(e.Place.LatitudeDegrees, "N", "S");
            (string longitude, string other) = Angle(e.Place.LongitudeDegrees, "E", "W");
            lo.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"LO|{system}|||WZ{system:000000}|||F|{place}|||somewhere|town|county|XX||||{e.GroundM:0.0}"
                    + $"|{latitude}|{side}|{longitude}|{other}{Bars(24)}\n"));
            an.Write(
                string.Create(CultureInfo.InvariantCulture, $"AN|{system}|||WZ{system:000000}||1|{place}||||{e.HeightM:0.0}{Bars(24)}\n"));
            double watts = Math.Pow(10, (e.EirpDbm - 32.15) / 10);
            fr.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"FR|{system}|||WZ{system:000000}||{place}|1|FB||{e.FrequencyHz / 1e6:0.00000000}|||||50.000|{watts:0.000}"
                    + $"||||||||||{i}{Bars(2)}\n"));
            em.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"EM|{system}|||WZ{system:000000}|{place}|1|{e.FrequencyHz / 1e6:0.00000000}||11K2F3E{Bars(6)}\n"));
        }
    }

    private static (string Text, string Side) Angle(double degrees, string positive, string negative)
    {
        double size = Math.Abs(degrees);
        int whole = (int)size;
        int minutes = (int)((size - whole) * 60);
        double seconds = Math.Min(59.9, (size - whole - (minutes / 60.0)) * 3600);
        return (string.Create(CultureInfo.InvariantCulture, $"{whole}|{minutes}|{seconds:0.0}"), degrees < 0 ? negative : positive);
    }

    private ScreenEmitter Emitter()
    {
        (double lat, double lon, float ground) = _masts[_random.Next(_masts.Length)];
        return new ScreenEmitter
        {
            FrequencyHz = Frequency(),
            BandwidthHz = 11_200,
            Spread = EmitterSpread.From(11_200, "F3E"),
            EirpDbm = 42 + (14 * _random.NextDouble()),
            Place = GeoPoint.Of(lat, lon),
            HeightM = (float)(8 + (50 * _random.NextDouble() * _random.NextDouble())),
            GroundM = ground,
            AzimuthDegrees = float.NaN,
            BeamwidthDegrees = float.NaN,
        };
    }

    private long Frequency()
    {
        int at = _random.Next(100);
        int band = 0;
        while (at >= Bands[band].Weight)
        {
            at -= Bands[band++].Weight;
        }

        (long from, long to, long step, _) = Bands[band];
        return from + (step * _random.NextInt64((to - from) / step));
    }

    private double Gauss() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
