using Spurless.Radio.Terrain;

namespace Spurless.Drawing.Paths;

/// <summary>What the picture of a path shows.</summary>
public sealed record PathPictureModel
{
    /// <summary>What it is, in a line.</summary>
    public required string Title { get; init; }

    /// <summary>What there is to see, for those who do not see it.</summary>
    public required string Description { get; init; }

    /// <summary>Name at the left end.</summary>
    public required string From { get; init; }

    /// <summary>Name at the right end.</summary>
    public required string To { get; init; }

    /// <summary>The ground.</summary>
    public required TerrainProfile Profile { get; init; }

    /// <summary>Left antenna over ground in metres.</summary>
    public required double TransmitterHeightM { get; init; }

    /// <summary>Right antenna over ground in metres.</summary>
    public required double ReceiverHeightM { get; init; }

    /// <summary>Frequency in hertz, for the Fresnel zone.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Effective earth radius in km.</summary>
    public required double RadiusKm { get; init; }

    /// <summary>What lies in the way.</summary>
    public required SightLine Sight { get; init; }
}
