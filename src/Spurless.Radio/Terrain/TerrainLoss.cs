namespace Spurless.Radio.Terrain;

/// <summary>
/// The loss over one profile by ITU-R P.1812 with its parts. All are positive dB between isotropic antennas.
/// </summary>
public sealed record TerrainLoss
{
    /// <summary>Basic transmission loss not exceeded for the shares of time and places asked for (Lb, eq. 69).</summary>
    public required double BasicLossDb { get; init; }

    /// <summary>The way by which most of the signal arrives.</summary>
    public required TerrainMechanism Mechanism { get; init; }

    /// <summary>Free space over the straight line between the antennas (Lbfs, eq. 8).</summary>
    public required double FreeSpaceDb { get; init; }

    /// <summary>Diffraction loss over free space, not exceeded for the share of time (Ldp, eq. 41).</summary>
    public required double DiffractionDb { get; init; }

    /// <summary>Basic transmission loss by way of diffraction (Lbd, eq. 43).</summary>
    public required double ByDiffractionDb { get; init; }

    /// <summary>Basic transmission loss by way of ducting and layer reflection (Lba, eq. 46).</summary>
    public required double DuctingDb { get; init; }

    /// <summary>Basic transmission loss by way of troposcatter (Lbs, eq. 44).</summary>
    public required double TroposcatterDb { get; init; }

    /// <summary>Effective earth radius for the median in km (eq. 7a).</summary>
    public required double MedianRadiusKm { get; init; }

    /// <summary>The intermediate quantities.</summary>
    internal TerrainSteps? Steps { get; init; }
}
