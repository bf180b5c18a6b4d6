namespace Spurless.Radio.Terrain;

/// <summary>The intermediate quantities of ITU-R P.1812 on the way to a loss, each by its equation. In dB unless said.</summary>
internal sealed record TerrainSteps
{
    internal required PathClimate Climate { get; init; }

    internal required PathAnalysis Path { get; init; }

    /// <summary>Diffraction for the median earth radius.</summary>
    internal required DeltaBullington Median { get; init; }

    /// <summary>Diffraction for the earth radius of ducting.</summary>
    internal required DeltaBullington Beta { get; init; }

    /// <summary>Fi, eq. 40.</summary>
    internal required double TimeWeight { get; init; }

    /// <summary>Fj, eq. 57.</summary>
    internal required double AngleWeight { get; init; }

    /// <summary>Fk, eq. 58.</summary>
    internal required double DistanceWeight { get; init; }

    /// <summary>Lb0p, eq. 10.</summary>
    internal required double FreeSpaceForTimeDb { get; init; }

    /// <summary>Lb0beta, eq. 11.</summary>
    internal required double FreeSpaceForBetaDb { get; init; }

    /// <summary>Lbd50, eq. 42.</summary>
    internal required double MedianByDiffractionDb { get; init; }

    /// <summary>Lminb0p, eq. 59.</summary>
    internal required double LeastOverSeaDb { get; init; }

    /// <summary>Lminbap, eq. 60.</summary>
    internal required double LeastByDuctingDb { get; init; }

    /// <summary>Lbda, eq. 61.</summary>
    internal required double DiffractionAndDuctingDb { get; init; }

    /// <summary>Lbam, eq. 62.</summary>
    internal required double ModifiedDb { get; init; }

    /// <summary>Lbc, eq. 63.</summary>
    internal required double MedianOfPlacesDb { get; init; }
}
