using Spurless.Numerics;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Terrain;

/// <summary>The point of a path that stands highest in the first Fresnel zone.</summary>
/// <param name="Index">Its place in the profile.</param>
/// <param name="DistanceM">Distance from the transmitting antenna in metres.</param>
/// <param name="TopM">Ground with clutter over sea level in metres, without the earth's bulge.</param>
/// <param name="OverLineM">Height over the line between the antennas, bulge included, in metres; negative below it.</param>
/// <param name="FresnelRadiusM">Radius of the first Fresnel zone there in metres.</param>
/// <param name="V">Its diffraction parameter.</param>
public readonly record struct PathObstacle(int Index, double DistanceM, double TopM, double OverLineM, double FresnelRadiusM, double V)
{
    /// <summary>What is left free of the Fresnel zone's radius: 1 and more is clear, 0 touches the line, negative hides it.</summary>
    public double ClearanceInRadii => -OverLineM / FresnelRadiusM;

    /// <summary>Loss of it alone as a knife edge in dB.</summary>
    public double EdgeLossDb => KnifeEdge.LossDb(V);
}

/// <summary>
/// What lies in the way between two antennas: the straight line over the effective earth, its clearance, and the edges that matter by the
/// cascaded knife edges of ITU-R P.526 (three at most; formula from memory): <c>J(vp) + T (J(vt) + J(vr) + C)</c>,
/// <c>T = 1 - exp(-J(vp)/6)</c>, <c>C = 10 + 0.04 d/km</c>.
/// </summary>
public sealed record SightLine
{
    /// <summary>Whether nothing stands over the line.</summary>
    public bool IsClear => Worst.OverLineM <= 0;

    /// <summary>Whether 0.6 of the first Fresnel zone is free everywhere: then the loss is that of free space to a few tenths of a
    /// decibel.</summary>
    public bool IsFresnelClear => Worst.ClearanceInRadii >= 0.6;

    /// <summary>The point with the largest diffraction parameter: the hindering summit, or what comes nearest.</summary>
    public required PathObstacle Worst { get; init; }

    /// <summary>
    /// The hills that matter by rising distance, one to three; none where everything is clear. A shoulder of the main hill is not listed.
    /// </summary>
    public required IReadOnlyList<PathObstacle> Edges { get; init; }

    /// <summary>Loss of the edges over free space in dB, shoulders of the main hill included.</summary>
    public required double EdgesLossDb { get; init; }

    /// <summary>Looks along a path.</summary>
    /// <param name="profile">The ground.</param>
    /// <param name="transmitterHeightM">Transmitting antenna over ground in metres.</param>
    /// <param name="receiverHeightM">Receiving antenna over ground in metres.</param>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    /// <param name="radiusKm">Effective earth radius in km.</param>
    public static SightLine Of(
        TerrainProfile profile, double transmitterHeightM, double receiverHeightM, double frequencyHz, double radiusKm)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ReadOnlySpan<double> d = profile.DistanceKm;
        ReadOnlySpan<double> g = profile.SurfaceM;
        Stretch whole = new(0, d.Length - 1, g[0] + transmitterHeightM, g[^1] + receiverHeightM);
        PathObstacle principal = Highest(profile, whole, frequencyHz, radiusKm)!.Value;
        if (principal.V <= -0.78)
        {
            return new SightLine { Worst = principal, Edges = [], EdgesLossDb = 0 };
        }

        List<PathObstacle> edges = [principal];
        double sides = 0;
        if (Highest(profile, whole with { To = principal.Index, ToM = principal.TopM }, frequencyHz, radiusKm) is { V: > -0.78 } before)
        {
            sides += before.EdgeLossDb;
            Add(before, 0);
        }

        if (Highest(profile, whole with { From = principal.Index, FromM = principal.TopM }, frequencyHz, radiusKm) is { V: > -0.78 } after)
        {
            sides += after.EdgeLossDb;
            Add(after, edges.Count);
        }

        double main = principal.EdgeLossDb;
        double loss = main + (1 - Math.Exp(-main / 6)) * (sides + 10 + 0.04 * d[^1]);
        return new SightLine { Worst = principal, Edges = edges, EdgesLossDb = loss };

        void Add(PathObstacle edge, int at)
        {
            if (IsApart(profile, edge.Index, principal.Index))
            {
                edges.Insert(at, edge);
            }
        }
    }

    /// <summary>Whether the ground between two points falls well under both: then they are two hills, else one and its shoulder.</summary>
    private static bool IsApart(TerrainProfile profile, int one, int other)
    {
        const double fallM = 5;
        ReadOnlySpan<double> g = profile.SurfaceM;
        double under = Math.Min(g[one], g[other]) - fallM;
        for (int i = Math.Min(one, other) + 1; i < Math.Max(one, other); i++)
        {
            if (g[i] < under)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The highest diffraction parameter of a stretch, or null where no point lies in it.</summary>
    private static PathObstacle? Highest(TerrainProfile profile, Stretch stretch, double frequencyHz, double radiusKm)
    {
        ReadOnlySpan<double> d = profile.DistanceKm;
        ReadOnlySpan<double> g = profile.SurfaceM;
        double from = d[stretch.From];
        double to = d[stretch.To];
        double curvature = 500 / radiusKm;
        int worst = -1;
        double most = double.NegativeInfinity;
        double overLine = 0;
        double perM = 2000 * frequencyHz / PhysicalConstants.SpeedOfLight / 1e6;
        for (int i = stretch.From + 1; i < stretch.To; i++)
        {
            double a = d[i] - from;
            double b = to - d[i];
            double over = g[i] + curvature * a * b - (stretch.FromM * b + stretch.ToM * a) / (to - from);
            double v = over * Math.Sqrt(perM * (to - from) / (a * b));
            if (v > most)
            {
                (most, worst, overLine) = (v, i, over);
            }
        }

        return worst < 0 ? null : new PathObstacle(
            worst,
            d[worst] * 1000,
            g[worst],
            overLine,
            KnifeEdge.FirstFresnelRadiusM((d[worst] - from) * 1000, (to - d[worst]) * 1000, frequencyHz),
            most);
    }

    /// <summary>Part of a profile between two points, with the heights over sea level from which it is looked along.</summary>
    private readonly record struct Stretch(int From, int To, double FromM, double ToM);
}
