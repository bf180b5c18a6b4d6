namespace Spurless.Radio.Terrain.Elevation;

/// <summary>A profile taken from elevation tiles, and what must be said of it.</summary>
public sealed record SampledProfile
{
    /// <summary>The profile.</summary>
    public required TerrainProfile Profile { get; init; }

    /// <summary>Bearing of the second place from the first in degrees from true north.</summary>
    public required double BearingDegrees { get; init; }

    /// <summary>Latitude of the middle in degrees.</summary>
    public required double MiddleLatitudeDegrees { get; init; }

    /// <summary>Distance between two points in metres.</summary>
    public required double StepM { get; init; }

    /// <summary>Names of the tiles by their order along the path.</summary>
    public required IReadOnlyList<string> Tiles { get; init; }

    /// <summary>One standard deviation of the heights in metres, of the worst tile.</summary>
    public required double HeightErrorM { get; init; }

    /// <summary>How many points had no height and were filled from their neighbours.</summary>
    public required int Filled { get; init; }

    /// <summary>Longest stretch that was filled, in metres.</summary>
    public required double LongestFilledM { get; init; }

    /// <summary>Whether an end of the path had no height of its own.</summary>
    public required bool EndFilled { get; init; }
}
