using Spurless.Radio.Terrain.Elevation;

namespace Spurless.Sites.Terrain;

/// <summary>How an elevation file is written, the preferred first.</summary>
internal enum ElevationFileKind
{
    Hgt,
    Zip,
    GeoTiff,
    Sea,
}

/// <summary>One elevation file on disk, not read but for where a GeoTIFF lies.</summary>
/// <param name="Path">Its path.</param>
/// <param name="Name">Its name within the folder.</param>
/// <param name="Kind">How it is written.</param>
/// <param name="Degree">The square degree it holds, N40W036; null for a GeoTIFF.</param>
/// <param name="Grid">Where the samples of a GeoTIFF lie; null for others.</param>
/// <param name="Key">Path, size and time of writing.</param>
internal sealed record ElevationFile(string Path, string Name, ElevationFileKind Kind, string? Degree, ElevationGrid? Grid, string Key)
{
    private const int MostFiles = 20_000;

    /// <summary>Lists a folder's files by name.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="problems">Files that are named like elevation and are none.</param>
    /// <returns>The files; null where there is no such folder or it cannot be read.</returns>
    internal static IReadOnlyList<ElevationFile>? In(string folder, out Dictionary<string, string> problems)
    {
        problems = new(StringComparer.Ordinal);
        try
        {
            List<ElevationFile> files = [];
            foreach (FileInfo file in new DirectoryInfo(folder).EnumerateFiles().Take(MostFiles).OrderBy(
                static f => f.Name, StringComparer.Ordinal))
            {
                if (Of(file, out string problem) is { } found)
                {
                    files.Add(found);
                }
                else if (problem.Length > 0)
                {
                    problems[file.Name] = problem;
                }
            }

            return files;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>Whether a place may lie in a GeoTIFF, half a step over its edge included.</summary>
    internal bool MayCover(double latitude, double longitude) => Grid is { } grid
        && latitude <= grid.NorthDegrees + grid.LatitudeStepDegrees
        && latitude >= grid.SouthDegrees - grid.LatitudeStepDegrees
        && longitude >= grid.WestDegrees - grid.LongitudeStepDegrees
        && longitude <= grid.EastDegrees + grid.LongitudeStepDegrees;

    /// <summary>Reads the heights.</summary>
    /// <param name="problem">What is wrong and what to do, where nothing was read.</param>
    internal ElevationTile? Read(out string problem)
    {
        if (Kind == ElevationFileKind.Sea)
        {
            problem = "";
            _ = HgtReader.TryCorner(Name, out int south, out int west);
            return ElevationTile.Sea(Degree!, south, west);
        }

        try
        {
            using FileStream stream = File.OpenRead(Path);
            ElevationTile tile;
            bool good = Kind switch
            {
                ElevationFileKind.Hgt => HgtReader.TryRead(stream, Name, out tile, out problem),
                ElevationFileKind.Zip => HgtReader.TryReadZip(stream, Name, out tile, out problem),
                _ => GeoTiffReader.TryRead(stream, Name, out tile, out problem),
            };
            return good ? tile : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            problem = "the file cannot be read; see to its permissions";
            return null;
        }
    }

    private static ElevationFile? Of(FileInfo file, out string problem)
    {
        problem = "";
        string key = FormattableString.Invariant($"{file.FullName}:{file.Length}:{file.LastWriteTimeUtc.Ticks}");
        string lower = file.Name.ToLowerInvariant();
        ElevationFileKind? kind = System.IO.Path.GetExtension(lower) switch
        {
            ".hgt" => ElevationFileKind.Hgt,
            ".zip" => ElevationFileKind.Zip,
            ".sea" => ElevationFileKind.Sea,
            ".tif" or ".tiff" => ElevationFileKind.GeoTiff,
            _ => null,
        };
        if (kind is null)
        {
            return null;
        }

        if (kind == ElevationFileKind.GeoTiff)
        {
            using FileStream stream = file.OpenRead();
            return GeoTiffReader.TryReadGrid(stream, file.Name, out ElevationGrid grid, out problem)
                ? new ElevationFile(file.FullName, file.Name, kind.Value, null, grid, key)
                : null;
        }

        if (!HgtReader.TryCorner(file.Name, out int south, out int west))
        {
            problem = "the name does not say where the tile lies; name it by its south-west corner, like N40W036.hgt";
            return null;
        }

        if (kind == ElevationFileKind.Hgt && file.Length is not (2L * 1201 * 1201 or 2L * 3601 * 3601))
        {
            problem = FormattableString.Invariant($"{file.Length:#,0} bytes are no tile, it is cut short or something else; ")
                + "a tile has 2,884,802 (3 arc seconds) or 25,934,402 bytes (1 arc second), fetch it again";
            return null;
        }

        return new ElevationFile(file.FullName, file.Name, kind.Value, ElevationTile.NameOf(south, west), null, key);
    }
}
