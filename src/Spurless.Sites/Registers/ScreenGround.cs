using System.Collections.Concurrent;
using Spurless.Mixing.Screening;
using Spurless.Radio.Terrain;
using Spurless.Radio.Terrain.Elevation;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Registers;

/// <summary>What the ground did in a screening.</summary>
/// <param name="Paths">Paths of which the ground between was known.</param>
/// <param name="Without">Paths that were predicted without it, because a tile or an antenna's height is missing.</param>
/// <param name="Missing">Why, the most frequent first, a few of them.</param>
public sealed record ScreenGroundSum(long Paths, long Without, IReadOnlyList<string> Missing);

/// <summary>The ground between a register's transmitters and the receivers of a screening, from elevation files.</summary>
/// <param name="terrain">The elevation files.</param>
/// <param name="emitters">The transmitters.</param>
internal sealed class ScreenGround(SiteTerrain terrain, IReadOnlyList<ScreenEmitter> emitters) : IScreenGround
{
    private const int MostReasons = 200;
    private const int Told = 5;
    private const string NoHeight = "the height of an antenna is not known";

    private readonly ConcurrentDictionary<string, long> _missing = new(StringComparer.Ordinal);
    private long _paths;
    private long _without;

    /// <summary>What it did so far.</summary>
    public ScreenGroundSum Sum => new(
        _paths,
        _without,
        [
            .. _missing.OrderByDescending(static m => m.Value).ThenBy(static m => m.Key, StringComparer.Ordinal).Take(Told)
                .Select(static m => m.Key),
        ]);

    /// <inheritdoc/>
    public double LossDb(int emitter, ScreenReceiver receiver)
    {
        ScreenEmitter from = emitters[emitter];
        if (!(from.HeightM > 0) || !(receiver.HeightM > 0))
        {
            return Without(NoHeight);
        }

        if (!terrain.TryProfile(from.Place, receiver.Place, out SampledProfile sampled, out string problem))
        {
            return Without(problem);
        }

        TerrainPrediction prediction = TerrainPrediction.Of(
            sampled.Profile,
            new TerrainConditions
            {
                FrequencyHz = from.FrequencyHz,
                TransmitterHeightM = from.HeightM,
                ReceiverHeightM = receiver.HeightM,
                LatitudeDegrees = sampled.MiddleLatitudeDegrees,
            },
            sampled.HeightErrorM);
        if (prediction.LossDb is not { } loss)
        {
            return Without(prediction.Refused ?? "");
        }

        Interlocked.Increment(ref _paths);
        return loss;
    }

    private double Without(string why)
    {
        Interlocked.Increment(ref _without);
        if (_missing.Count < MostReasons || _missing.ContainsKey(why))
        {
            _missing.AddOrUpdate(why, 1, static (_, n) => n + 1);
        }

        return double.NaN;
    }
}
