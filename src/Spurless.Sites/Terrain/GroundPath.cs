using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Radio.Terrain.Elevation;
using Spurless.Sites.Documents;
using Spurless.Sites.Positions;

namespace Spurless.Sites.Terrain;

/// <summary>The ground between an emitter and a receiver of a site, as a path model.</summary>
internal sealed record GroundPath
{
    /// <summary>A ground stated in the file that differs from the tile's by more than this is said.</summary>
    private const double DifferenceSaidM = 30;

    /// <summary>The profile.</summary>
    public required SampledProfile Sampled { get; init; }

    /// <summary>What must be said of it.</summary>
    public required IReadOnlyList<PathRemark> Remarks { get; init; }

    /// <summary>The elevation files and both places: what a prediction over this ground is kept by.</summary>
    public required (string Stamp, GeoPoint From, GeoPoint To) Between { get; init; }

    /// <summary>The direction of the electric field; vertical, as is usual in the mobile services, where no antenna says it.</summary>
    public Polarisation Polarisation { get; init; } = Polarisation.Vertical;

    /// <summary>Finds it.</summary>
    /// <param name="site">The site.</param>
    /// <param name="emitter">The emitter.</param>
    /// <param name="geometry">Where the antennas stand over ground.</param>
    /// <param name="terrain">The elevation; null where the site names none.</param>
    /// <param name="receiving">The receiving antenna.</param>
    /// <param name="problem">Where there is no profile: what is missing; what to do.</param>
    public static GroundPath? Of(
        SiteDocument site, EmitterEntry emitter, PathGeometry geometry, SiteTerrain? terrain, AntennaEntry? receiving, out string problem)
    {
        if (terrain is null)
        {
            problem = "the site names no elevation files; add 'terrain: FOLDER', a folder of elevation tiles";
            return null;
        }

        if (site.Place is not { } place || EmitterPositions.PointOf(site, emitter) is not { } from)
        {
            problem = "a path over the ground needs both places; give the site's 'place: { latitude: 40.5, longitude: -35.2 }' and the "
                + "emitter's 'at:'";
            return null;
        }

        return Of(place, from, geometry, terrain, out problem) is not { } path ? null : path with
        {
            Polarisation = emitter.Antenna?.Polarisation ?? receiving?.Polarisation ?? Polarisation.Vertical,
            Remarks = [.. path.Remarks, .. Difference(false, emitter.Ground?.Metres, path.Sampled.Profile.GroundM[0])],
        };
    }

    /// <summary>Finds the ground from any place to the site.</summary>
    /// <param name="place">The site's place.</param>
    /// <param name="from">Where the transmitting antenna stands.</param>
    /// <param name="geometry">Where the antennas stand over ground.</param>
    /// <param name="terrain">The elevation.</param>
    /// <param name="problem">Where there is no profile: what is missing; what to do.</param>
    public static GroundPath? Of(PlaceEntry place, GeoPoint from, PathGeometry geometry, SiteTerrain terrain, out string problem)
    {
        GeoPoint to = GeoPoint.Of(place.Latitude, place.Longitude);
        return Of(from, to, geometry, terrain, out problem) is not { } path ? null : path with
        {
            Remarks = [.. path.Remarks, .. Difference(true, place.Ground?.Metres, path.Sampled.Profile.GroundM[^1])],
        };
    }

    /// <summary>Finds the ground between any two places.</summary>
    /// <param name="from">Where the transmitting antenna stands.</param>
    /// <param name="to">Where the receiving antenna stands.</param>
    /// <param name="geometry">Where the antennas stand over ground.</param>
    /// <param name="terrain">The elevation.</param>
    /// <param name="problem">Where there is no profile: what is missing; what to do.</param>
    public static GroundPath? Of(GeoPoint from, GeoPoint to, PathGeometry geometry, SiteTerrain terrain, out string problem)
    {
        if (geometry.TransmitterHeightM is null || geometry.ReceiverHeightM is null)
        {
            problem = "a path over the ground needs the heights of both antennas; give 'antenna: { height: 20 m }' for each";
            return null;
        }

        if (!terrain.TryProfile(from, to, out SampledProfile sampled, out problem))
        {
            return null;
        }

        return new GroundPath { Sampled = sampled, Remarks = [.. Said(sampled)], Between = (terrain.Stamp, from, to) };
    }

    /// <summary>The model over this ground.</summary>
    /// <param name="question">What is asked of the path.</param>
    /// <param name="chosen">Whether it was chosen because the ground is known, not named in the file.</param>
    public IPathModel Model(PathQuestion question, bool chosen) =>
        new KeptPath(TerrainPath.Over(Sampled.Profile, question.Conditions, Sampled.HeightErrorM, chosen, Remarks), Between, question);

    /// <summary>The usual question over this ground.</summary>
    public PathQuestion Question(PathGeometry geometry) => new()
    {
        FrequencyHz = geometry.FrequencyHz,
        TransmitterHeightM = geometry.TransmitterHeightM!.Value,
        ReceiverHeightM = geometry.ReceiverHeightM!.Value,
        LatitudeDegrees = Sampled.MiddleLatitudeDegrees,
        Polarisation = Polarisation,
    };

    private static IEnumerable<PathRemark> Said(SampledProfile sampled)
    {
        if (sampled.Filled > 0)
        {
            yield return new TerrainRemark.VoidsFilled(
                sampled.Filled, sampled.Profile.Count, sampled.LongestFilledM, sampled.EndFilled);
        }
    }

    private static PathRemark[] Difference(bool ofSite, double? statedM, double tileM) =>
        statedM is { } stated && Math.Abs(stated - tileM) > DifferenceSaidM
            ? [new TerrainRemark.GroundDiffers(ofSite, stated, tileM)]
            : [];
}
