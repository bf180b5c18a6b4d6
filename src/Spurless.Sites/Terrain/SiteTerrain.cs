using System.Collections.Concurrent;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain.Elevation;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Terrain;

/// <summary>The ground round a site: its elevation folder, and the profiles that were taken from it, kept for each pair of
/// places.</summary>
/// <param name="elevation">The folder.</param>
public sealed class SiteTerrain(ElevationFolder elevation)
{
    private const int MostProfiles = 1024;

    // For the whole process: a page loads its site anew at every change. The stamp of the folder is in the key.
    private static readonly ConcurrentDictionary<(string Stamp, GeoPoint From, GeoPoint To), SampledProfile> _kept = new();

    /// <summary>A mark of the elevation files that changes with every one of them.</summary>
    public string Stamp => elevation.Stamp;

    /// <summary>Opens a folder of elevation files by itself.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="diagnostics">Takes what is wrong with it and its files.</param>
    /// <returns>The ground; null where there is no such folder, or no elevation file in it.</returns>
    public static SiteTerrain? Of(string folder, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        ElevationFolder? opened = ElevationFolder.Open(folder);
        if (opened is null || opened.Count == 0)
        {
            diagnostics.Error(
                folder,
                0,
                0,
                opened is null ? "there is no such folder, or it cannot be read" : "the folder holds no elevation file",
                "name a folder with tiles like N40W036.hgt or GeoTIFF files, or leave --terrain out");
            return null;
        }

        foreach (ElevationProblem problem in opened.Problems)
        {
            string[] parts = problem.Text.Split("; ", 2);
            diagnostics.Warning(Path.Combine(folder, problem.File), 0, 0, parts[0], parts[^1]);
        }

        return new SiteTerrain(opened);
    }

    /// <summary>Lists the elevation files of a site; what is wrong with one of them is a warning, for another may cover the path.</summary>
    /// <param name="site">The site.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="diagnostics">Takes all findings.</param>
    /// <returns>The ground; null where the site names no folder, or there is none of that name.</returns>
    public static SiteTerrain? Of(SiteDocument site, ISiteFiles files, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(diagnostics);
        if (site.Terrain is not { } reference)
        {
            return null;
        }

        (int line, int column) = (reference.At.Line, reference.At.Column);
        if (files.Folder(reference.Path) is not { } place || ElevationFolder.Open(place) is not { } folder)
        {
            diagnostics.Error(
                reference.NamedIn,
                line,
                column,
                $"there is no folder '{Quote.Short(reference.Path)}', or it cannot be read",
                "name a folder with elevation files, relative to the site file, or leave 'terrain' out");
            return null;
        }

        foreach (ElevationProblem problem in folder.Problems)
        {
            string[] parts = problem.Text.Split("; ", 2);
            diagnostics.Warning(files.NameOf($"{reference.Path.TrimEnd('/')}/{problem.File}"), 0, 0, parts[0], parts[^1]);
        }

        if (folder.Count == 0)
        {
            diagnostics.Warning(
                reference.NamedIn,
                line,
                column,
                $"the folder '{Quote.Short(reference.Path)}' holds no elevation file",
                "put tiles like N40W036.hgt or GeoTIFF files into it");
        }

        return new SiteTerrain(folder);
    }

    /// <summary>The ground between two places.</summary>
    /// <param name="from">The transmitting antenna's place.</param>
    /// <param name="to">The receiving antenna's place.</param>
    /// <param name="sampled">The profile, where the ground is known.</param>
    /// <param name="problem">Where it is not: what is missing; what to do.</param>
    public bool TryProfile(GeoPoint from, GeoPoint to, out SampledProfile sampled, out string problem)
    {
        problem = "";
        (string, GeoPoint, GeoPoint) key = (elevation.Stamp, from, to);
        if (_kept.TryGetValue(key, out sampled!))
        {
            return true;
        }

        if (!ProfileSampler.TrySample(from, to, elevation, out sampled, out problem))
        {
            // A file that is there and cannot be read explains a tile that is missing.
            problem = elevation.Problems is [{ } first, ..] ? $"{problem} ({first.File}: {first.Text})" : problem;
            return false;
        }

        if (_kept.Count >= MostProfiles)
        {
            _kept.Clear();
        }

        _kept[key] = sampled;
        return true;
    }
}
