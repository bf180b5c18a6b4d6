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
}
