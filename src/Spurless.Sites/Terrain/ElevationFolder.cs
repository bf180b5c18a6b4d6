using System.Collections.Concurrent;
using Spurless.Radio.Terrain.Elevation;

namespace Spurless.Sites.Terrain;

/// <summary>
/// A folder of elevation files: <c>.hgt</c>, the same in a ZIP archive, GeoTIFF, and empty <c>.sea</c> files that say a square degree is
/// sea. Files are listed at once, read when a path crosses them, and kept (<see cref="TileCache"/>). Safe for several threads.
/// </summary>
public sealed class ElevationFolder : IElevation
{
    private readonly IReadOnlyDictionary<string, ElevationFile> _byDegree;
    private readonly IReadOnlyList<ElevationFile> _free;
    private readonly ConcurrentDictionary<string, string> _problems;

    private ElevationFolder(
        IReadOnlyDictionary<string, ElevationFile> byDegree, IReadOnlyList<ElevationFile> free, Dictionary<string, string> problems,
            string stamp)
    {
        _byDegree = byDegree;
        _free = free;
        _problems = new(problems, StringComparer.Ordinal);
        Stamp = stamp;
    }

    /// <summary>What changes whenever a file of the folder does.</summary>
    public string Stamp { get; }

    /// <summary>How many files can be used, as far as is known.</summary>
    public int Count => _byDegree.Count + _free.Count;

    /// <summary>Files that could not be used, each with what is wrong and what to do; grows as files are read.</summary>
    public IReadOnlyList<ElevationProblem> Problems =>
        [.. _problems.OrderBy(static p => p.Key, StringComparer.Ordinal).Select(static p => new ElevationProblem(p.Key, p.Value))];

    /// <summary>Lists a folder.</summary>
    /// <param name="folder">Its path, as it stands on disk.</param>
    /// <returns>The folder, or null where it is none or cannot be read.</returns>
    public static ElevationFolder? Open(string folder)
    {
        if (ElevationFile.In(folder, out Dictionary<string, string> problems) is not { } files)
        {
            return null;
        }

        // Of two files of one square degree the plain one comes first; a file that says 'sea' yields to any other.
        Dictionary<string, ElevationFile> byDegree = new(StringComparer.Ordinal);
        foreach (ElevationFile file in files.Where(static f => f.Degree is not null).OrderBy(static f => f.Kind))
        {
            byDegree.TryAdd(file.Degree!, file);
        }

        return new ElevationFolder(
            byDegree, [.. files.Where(static f => f.Grid is not null)], problems, string.Join('|', files.Select(static f => f.Key)));
    }

    /// <inheritdoc/>
    public ElevationTile? TileAt(double latitudeDegrees, double longitudeDegrees)
    {
        ElevationTile? best = Degree(latitudeDegrees, longitudeDegrees);
        foreach (ElevationFile file in _free)
        {
            bool finer = best is null or { IsSea: true } || file.Grid!.LatitudeStepDegrees < best.Grid.LatitudeStepDegrees;
            if (finer && file.MayCover(latitudeDegrees, longitudeDegrees) && Read(file) is { } tile && tile.Covers(
                latitudeDegrees, longitudeDegrees))
            {
                best = tile;
            }
        }

        return best;
    }

    /// <summary>The tile of a square degree; on a seam the neighbour serves as well, for both hold the shared samples.</summary>
    private ElevationTile? Degree(double latitude, double longitude)
    {
        const double seam = 1e-9;
        string own = ElevationTile.NameOf(latitude, longitude);
        if (_byDegree.TryGetValue(own, out ElevationFile? file) && Read(file) is { } tile)
        {
            return tile;
        }

        (double, double)[] beside = [(latitude - seam, longitude), (latitude, longitude - seam), (latitude - seam, longitude - seam)];
        foreach ((double a, double b) in beside)
        {
            string name = ElevationTile.NameOf(a, b);
            if (name != own && _byDegree.TryGetValue(name, out ElevationFile? other) && Read(other) is { } shared)
            {
                return shared;
            }
        }

        return null;
    }

    private ElevationTile? Read(ElevationFile file)
    {
        if (_problems.ContainsKey(file.Name))
        {
            return null;
        }

        if (TileCache.Get(file, out string problem) is { } tile)
        {
            return tile;
        }

        _problems[file.Name] = problem;
        return null;
    }
}
