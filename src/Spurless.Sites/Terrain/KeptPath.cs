using System.Collections.Concurrent;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;

namespace Spurless.Sites.Terrain;

/// <summary>
/// A path over ground whose predictions are kept for the whole process: a page loads its site anew at every change, and the couplings of
/// transmitters are the square of their number.
/// </summary>
/// <param name="path">The path.</param>
/// <param name="between">The elevation files and both places.</param>
/// <param name="question">What is asked of it.</param>
internal sealed class KeptPath(TerrainPath path, (string Stamp, GeoPoint From, GeoPoint To) between, PathQuestion question) : IPathModel
{
    private const int Most = 20_000;

    private static readonly ConcurrentDictionary<Key, PathResult> _kept = new();

    /// <inheritdoc/>
    public string Name => path.Name;

    /// <inheritdoc/>
    public PathChoice Choice => path.Choice;

    /// <inheritdoc/>
    public PathResult Predict(PathGeometry geometry)
    {
        Key key = new(between.Stamp, between.From, between.To, question, geometry, path.Choice);
        if (_kept.TryGetValue(key, out PathResult? known))
        {
            return known;
        }

        if (_kept.Count >= Most)
        {
            _kept.Clear();
        }

        return _kept[key] = path.Predict(geometry);
    }

    private sealed record Key(string Stamp, GeoPoint From, GeoPoint To, PathQuestion Question, PathGeometry Geometry, PathChoice Choice);
}
