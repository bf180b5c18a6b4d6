namespace Spurless.Radio.Terrain;

/// <summary>By which way most of the signal arrives.</summary>
public enum TerrainMechanism
{
    /// <summary>The line of sight is clear enough: free space, and no more than 1 dB of diffraction loss.</summary>
    LineOfSight,

    /// <summary>Round and over the ground that is in the way.</summary>
    Diffraction,

    /// <summary>In a duct or off a layer, at the share of time asked for.</summary>
    Ducting,

    /// <summary>By scatter in the troposphere.</summary>
    Troposcatter,

    /// <summary>In free space, of which no part is told apart: outside the range of ITU-R P.1812.</summary>
    FreeSpace,

    /// <summary>Over plane earth, where the path is too short, or an antenna too low, for ITU-R P.1812.</summary>
    PlaneEarth,
}
