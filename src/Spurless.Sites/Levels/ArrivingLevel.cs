namespace Spurless.Sites.Levels;

/// <summary>The level of one emitter at one receiver's antenna connector.</summary>
internal sealed record ArrivingLevel
{
    /// <summary>dBm; null where unknown.</summary>
    public required double? AtAntennaDbm { get; init; }

    public required LevelOrigin Origin { get; init; }

    public required LevelNote HowKnown { get; init; }

    public required double? SigmaDb { get; init; }

    public IReadOnlyList<LevelNote> Assumed { get; init; } = [];
}
