using System.Globalization;

namespace Spurless.Radio.Terrain;

/// <summary>
/// The ground along a path, from the transmitting antenna's foot to the receiving one's: distance from the start, height of the ground over
/// sea level, representative height of what stands on it (clutter), radio-climatic zone. Immutable. Clutter of the two end points never
/// counts: the antennas stand there.
/// </summary>
public sealed class TerrainProfile
{
    /// <summary>More points than this are refused: 200,000 is one every 15 m over 3,000 km.</summary>
    public const int MostPoints = 200_000;

    private readonly double[] _distanceKm;
    private readonly double[] _groundM;
    private readonly double[] _surfaceM;
    private readonly RadioZone[] _zones;

    private TerrainProfile(double[] distanceKm, double[] groundM, double[] surfaceM, RadioZone[] zones)
    {
        _distanceKm = distanceKm;
        _groundM = groundM;
        _surfaceM = surfaceM;
        _zones = zones;
    }

    /// <summary>How many points.</summary>
    public int Count => _distanceKm.Length;

    /// <summary>Length in metres.</summary>
    public double LengthM => _distanceKm[^1] * 1000;

    /// <summary>Distance of each point from the first, in km (the unit of the formulas).</summary>
    public ReadOnlySpan<double> DistanceKm => _distanceKm;

    /// <summary>Height of the ground over sea level in metres.</summary>
    public ReadOnlySpan<double> GroundM => _groundM;

    /// <summary>Ground and clutter over sea level in metres; at the two ends the ground alone.</summary>
    public ReadOnlySpan<double> SurfaceM => _surfaceM;

    /// <summary>Zone of each point; it holds halfway to the next.</summary>
    public ReadOnlySpan<RadioZone> Zones => _zones;

    /// <summary>Makes a profile from values of the user's.</summary>
    /// <param name="distanceM">Distance from the first point in metres, the first 0, rising.</param>
    /// <param name="groundM">Ground over sea level in metres, -500 to 9,000.</param>
    /// <param name="clutterM">Clutter over the ground in metres, 0 to 200; empty for none.</param>
    /// <param name="zones">Zones; empty for inland throughout.</param>
    /// <param name="profile">The profile, where the values are right.</param>
    /// <param name="problem">Where they are not: point (counted from 1), what was found; what to write instead.</param>
    public static bool TryCreate(
        ReadOnlySpan<double> distanceM,
        ReadOnlySpan<double> groundM,
        ReadOnlySpan<double> clutterM,
        ReadOnlySpan<RadioZone> zones,
        out TerrainProfile profile,
        out ProfileProblem problem)
    {
        profile = null!;
        problem = Check(distanceM, groundM, clutterM, zones);
        if (!problem.IsNone)
        {
            return false;
        }

        int n = distanceM.Length;
        double[] km = new double[n];
        double[] surface = groundM.ToArray();
        for (int i = 0; i < n; i++)
        {
            km[i] = distanceM[i] / 1000;
            if (clutterM.Length > 0 && i > 0 && i < n - 1)
            {
                surface[i] += clutterM[i];
            }
        }

        profile = new TerrainProfile(km, groundM.ToArray(), surface, zones.Length > 0 ? zones.ToArray() : new RadioZone[n]);
        return true;
    }

    /// <summary>The same profile from the other end.</summary>
    public TerrainProfile Reversed()
    {
        double length = _distanceKm[^1];
        double[] km = new double[Count];
        for (int i = 0; i < Count; i++)
        {
            km[i] = length - _distanceKm[Count - 1 - i];
        }

        return new TerrainProfile(km, [.. _groundM.Reverse()], [.. _surfaceM.Reverse()], [.. _zones.Reverse()]);
    }

    /// <summary>The same profile with all that lies between the ends moved up.</summary>
    /// <param name="byM">By how much in metres; negative for down.</param>
    internal TerrainProfile Raised(double byM)
    {
        double[] ground = [.. _groundM];
        double[] surface = [.. _surfaceM];
        for (int i = 1; i < Count - 1; i++)
        {
            ground[i] += byM;
            surface[i] += byM;
        }

        return new TerrainProfile(_distanceKm, ground, surface, _zones);
    }

    private static ProfileProblem Check(
        ReadOnlySpan<double> distanceM, ReadOnlySpan<double> groundM, ReadOnlySpan<double> clutterM, ReadOnlySpan<RadioZone> zones)
    {
        int n = distanceM.Length;
        if (groundM.Length != n || (clutterM.Length != 0 && clutterM.Length != n) || (zones.Length != 0 && zones.Length != n))
        {
            return new(null, "distances, heights, clutter and zones are not of one length; give one of each for every point");
        }

        if (n < 3)
        {
            return new(null, string.Create(
                CultureInfo.InvariantCulture,
                $"the profile has {n} point{(n == 1 ? "" : "s")}; give the two ends and at least one point between them, better one "
                    + $"every 30 to 100 m"));
        }

        if (n > MostPoints)
        {
            return new(null, string.Create(CultureInfo.InvariantCulture, $"the profile has {n} points; give at most {MostPoints}"));
        }

        for (int i = 0; i < n; i++)
        {
            if (!double.IsFinite(distanceM[i]) || (i == 0 ? distanceM[0] != 0 : distanceM[i] <= distanceM[i - 1]))
            {
                return new(i + 1, i == 0
                    ? "the first distance is not 0; begin at the transmitting antenna with 0"
                    : "the distance is not a number above the one before; write rising distances from the transmitting antenna");
            }

            if (!(groundM[i] is >= -500 and <= 9000))
            {
                return new(i + 1, "the height of the ground is not a number from -500 to 9000; write metres over sea level, and fill "
                    + "what is not known from its neighbours");
            }

            if (clutterM.Length > 0 && !(clutterM[i] is >= 0 and <= 200))
            {
                return new(i + 1, "the height of the clutter is not a number from 0 to 200; write metres over the ground, 0 where "
                    + "nothing stands");
            }

            if (zones.Length > 0 && !Enum.IsDefined(zones[i]))
            {
                return new(i + 1, "the zone is not known; write inland, coastal or sea");
            }
        }

        return default;
    }
}
