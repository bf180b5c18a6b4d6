using System.Collections.Immutable;

using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Bench.ProductSearch;

/// <summary>
/// An invented band plan: carriers on the rasters of broadcast, air, land mobile, amateur and trunked bands, with levels as they spread on
/// a hill. The same for the same seed. Only a load for measurements; no country has it.
/// </summary>
public static class BandPlan
{
    /// <summary>The seed that the goals are stated for.</summary>
    public const int Seed = 1;

    /// <summary>Noise of the receivers, dBm; the report floor of the goals is 1 dB under it.</summary>
    public const double NoiseDbm = -127;

    private const double Iip3Dbm = -5;

    // Share of the carriers, lowest and highest frequency, raster, occupied bandwidth (hertz).
    private static readonly (double Share, long From, long To, long Raster, long Width)[] Bands =
    [
        (0.06, 87_500_000, 108_000_000, 100_000, 180_000),
        (0.08, 118_000_000, 137_000_000, 25_000, 6_000),
        (0.05, 144_000_000, 146_000_000, 12_500, 16_000),
        (0.34, 146_000_000, 174_000_000, 12_500, 11_200),
        (0.10, 390_000_000, 400_000_000, 25_000, 25_000),
        (0.33, 410_000_000, 470_000_000, 12_500, 11_200),
        (0.04, 925_000_000, 960_000_000, 200_000, 200_000),
    ];

    /// <summary>A problem of this plan.</summary>
    /// <param name="emitters">Number of carriers.</param>
    /// <param name="receivers">Number of receivers.</param>
    /// <param name="minOrder">Lowest order.</param>
    /// <param name="maxOrder">Highest order.</param>
    /// <param name="floorDbm">Report floor in dBm, or null for none.</param>
    /// <param name="maxSignals">Most carriers in one product.</param>
    public static SearchProblem Problem(int emitters, int receivers, int minOrder, int maxOrder, double? floorDbm, int maxSignals = 3)
    {
        Random random = new(Seed);
        ImmutableArray<SearchEmitter>.Builder list = ImmutableArray.CreateBuilder<SearchEmitter>(emitters);
        ImmutableArray<int>.Builder levels = ImmutableArray.CreateBuilder<int>(emitters);
        for (int i = 0; i < emitters; i++)
        {
            double pick = random.NextDouble();
            int band = 0;
            while (band < Bands.Length - 1 && pick >= Bands[band].Share)
            {
                pick -= Bands[band++].Share;
            }

            (_, long from, long to, long raster, long width) = Bands[band];
            list.Add(new SearchEmitter(from + (raster * random.NextInt64((to - from) / raster)), width));
            // Median -52 dBm, one sigma 14 dB, none over -15 dBm: a hill with near neighbours.
            double gauss = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            levels.Add(MicroDb.FromDecibels(Math.Min(-15, -52 + (14 * gauss))));
        }

        Intercepts intercepts = Intercepts.Complete(Iip3Dbm);
        SearchStage stage = new()
        {
            LevelMicroDbm = levels.MoveToImmutable(),
            InterceptMicroDbm = [0, 0, .. Enumerable.Range(2, 8).Select(intercepts.MicroDbm)],
        };
        return new SearchProblem
        {
            Emitters = list.MoveToImmutable(),
            // The first one on an amateur channel, others anywhere in VHF land mobile.
            Receivers = [.. Enumerable.Range(0, receivers).Select(r => new SearchReceiver
            {
                FrequencyHz = r == 0 ? 145_050_000 : 146_000_000 + (12_500 * random.NextInt64(2_240)),
                ChannelHz = 12_500,
                FloorMicroDbm = floorDbm is { } floor ? MicroDb.FromDecibels(floor) : null,
                Stages = [stage],
            })],
            MinOrder = minOrder,
            MaxOrder = maxOrder,
            MaxSignals = maxSignals,
        };
    }
}
