using System.Globalization;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Terrain.Elevation;

/// <summary>
/// Takes the ground along the geodesic between two places from elevation tiles, no coarser than their finest step. Voids are filled in a
/// straight line between their neighbours and counted; a missing tile is a problem that names it, never sea level.
/// </summary>
public static class ProfileSampler
{
    /// <summary>Metres of one degree of latitude, at least (at the equator, WGS-84).</summary>
    private const double MetresPerDegree = 110_574;

    /// <summary>How many places are looked at to learn which tiles are needed.</summary>
    private const int MostProbes = 4096;

    /// <summary>Longest stretch of voids that is filled: beyond it the ground is not known.</summary>
    private const double LongestGapM = 5000;

    /// <summary>Samples a profile.</summary>
    /// <param name="from">The transmitting antenna's place.</param>
    /// <param name="to">The receiving antenna's place.</param>
    /// <param name="elevation">The tiles.</param>
    /// <param name="sampled">The profile, where the ground is known.</param>
    /// <param name="problem">Where it is not: what is missing; what to do.</param>
    public static bool TrySample(GeoPoint from, GeoPoint to, IElevation elevation, out SampledProfile sampled, out string problem)
    {
        ArgumentNullException.ThrowIfNull(elevation);
        sampled = null!;
        if (!Geodesic.TryBetween(from, to, out GeodesicLine line, out problem))
        {
            return false;
        }

        if (line.DistanceM is 0 or > PathSpecificModel.LongestM)
        {
            problem = line.DistanceM == 0
                ? "both antennas stand in one place; there is no ground between them"
                : string.Create(CultureInfo.InvariantCulture,
                    $"{line.DistanceM / 1000:0} km is longer than any path that is predicted, 3,000 km");
            return false;
        }

        if (Probe(from, line, elevation, out List<string> tiles, out double error) is not { } step)
        {
            string more = tiles.Count > 6 ? string.Create(CultureInfo.InvariantCulture, $" and {tiles.Count - 6} more") : "";
            problem = $"no elevation tile {string.Join(", ", tiles.Take(6))}{more}; "
                + "put it into the terrain folder, or an empty file of that name ending in .sea where there is nothing but sea";
            return false;
        }

        int count = (int)Math.Clamp(Math.Ceiling(line.DistanceM / step) + 1, 3, TerrainProfile.MostPoints);
        double[] d = new double[count];
        double[] h = new double[count];
        RadioZone[] zones = new RadioZone[count];
        ElevationTile? tile = null;
        for (int i = 0; i < count; i++)
        {
            d[i] = line.DistanceM * i / (count - 1);
            GeoPoint at = i == 0 ? from : i == count - 1 ? to : Geodesic.Along(from, line.BearingDegrees, d[i]);
            tile = tile is not null && tile.Covers(at.LatitudeDegrees, at.LongitudeDegrees)
                ? tile
                : elevation.TileAt(at.LatitudeDegrees, at.LongitudeDegrees);
            if (tile is null)
            {
                problem = $"no elevation tile {ElevationTile.NameOf(at.LatitudeDegrees, at.LongitudeDegrees)}; put it into the terrain "
                    + $"folder";
                return false;
            }

            h[i] = tile.HeightM(at.LatitudeDegrees, at.LongitudeDegrees);
            zones[i] = tile.IsSea ? RadioZone.Sea : RadioZone.Inland;
        }

        bool endFilled = double.IsNaN(h[0]) || double.IsNaN(h[^1]);
        (int filled, double longest) = Fill(d, h);
        if (filled == count || longest > LongestGapM)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"the tile{(tiles.Count == 1 ? "" : "s")} {string.Join(", ", tiles)} {(tiles.Count == 1 ? "has" : "have")} no heights "
                    + $"over {(filled == count ? line.DistanceM : longest) / 1000:0.0} km of the path; take a tile with its voids filled");
            return false;
        }

        if (!TerrainProfile.TryCreate(d, h, [], zones, out TerrainProfile profile, out ProfileProblem wrong))
        {
            problem = wrong.Text!;
            return false;
        }

        sampled = new SampledProfile
        {
            Profile = profile,
            BearingDegrees = line.BearingDegrees,
            MiddleLatitudeDegrees = Geodesic.Along(from, line.BearingDegrees, line.DistanceM / 2).LatitudeDegrees,
            StepM = line.DistanceM / (count - 1),
            Tiles = tiles,
            HeightErrorM = error,
            Filled = filled,
            LongestFilledM = longest,
            EndFilled = endFilled,
        };
        return true;
    }

    /// <summary>The finest step of the tiles along the path in metres, or null with the names of the missing ones.</summary>
    private static double? Probe(GeoPoint from, GeodesicLine line, IElevation elevation, out List<string> names, out double errorM)
    {
        int probes = (int)Math.Clamp(line.DistanceM / 500, 2, MostProbes);
        List<string> found = [];
        List<string> missing = [];
        double step = double.PositiveInfinity;
        errorM = 0;
        ElevationTile? last = null;
        for (int i = 0; i <= probes; i++)
        {
            GeoPoint at = Geodesic.Along(from, line.BearingDegrees, line.DistanceM * i / probes);
            ElevationTile? tile = last is not null && last.Covers(at.LatitudeDegrees, at.LongitudeDegrees)
                ? last
                : elevation.TileAt(at.LatitudeDegrees, at.LongitudeDegrees);
            if (tile is null)
            {
                string name = ElevationTile.NameOf(at.LatitudeDegrees, at.LongitudeDegrees);
                if (!missing.Contains(name))
                {
                    missing.Add(name);
                }

                continue;
            }

            // Meridians draw together: the step from column to column is finest where the path is furthest from the equator.
            double across = tile.Grid.LongitudeStepDegrees * Math.Max(0.05, Math.Cos(at.LatitudeDegrees * (Math.PI / 180)));
            step = tile.IsSea ? step : Math.Min(step, MetresPerDegree * Math.Min(tile.Grid.LatitudeStepDegrees, across));
            errorM = Math.Max(errorM, tile.Grid.HeightErrorM);
            last = tile;
            if (!found.Contains(tile.Grid.Name))
            {
                found.Add(tile.Grid.Name);
            }
        }

        names = missing.Count > 0 ? missing : found;
        return missing.Count > 0 ? null : double.IsInfinity(step) ? 100 : step;
    }

    /// <summary>Fills voids in a straight line between their neighbours, at the ends level.</summary>
    private static (int Filled, double LongestM) Fill(ReadOnlySpan<double> d, Span<double> h)
    {
        int filled = 0;
        double longest = 0;
        int i = 0;
        while (i < h.Length)
        {
            if (!double.IsNaN(h[i]))
            {
                i++;
                continue;
            }

            int first = i;
            while (i < h.Length && double.IsNaN(h[i]))
            {
                i++;
            }

            filled += i - first;
            if (filled == h.Length)
            {
                return (filled, d[^1]);
            }

            int before = first - 1;
            longest = Math.Max(longest, d[Math.Min(i, h.Length - 1)] - d[Math.Max(before, 0)]);
            for (int k = first; k < i; k++)
            {
                h[k] = before < 0 ? h[i]
                    : i == h.Length ? h[before]
                    : h[before] + (h[i] - h[before]) * (d[k] - d[before]) / (d[i] - d[before]);
            }
        }

        return (filled, longest);
    }
}
