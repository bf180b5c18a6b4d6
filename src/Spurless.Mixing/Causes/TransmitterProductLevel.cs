namespace Spurless.Mixing.Causes;

/// <summary>Level of a product made in a transmitter.</summary>
public sealed record TransmitterProductLevel
{
    /// <summary>Level that leaves the transmitter, behind its output filter, in dBm; null where unknown.</summary>
    public required double? LeavesDbm { get; init; }

    /// <summary>Level at the victim's antenna connector in dBm; null where unknown.</summary>
    public required double? AtAntennaDbm { get; init; }

    /// <summary>One sigma of the level at the antenna in dB; null where unknown.</summary>
    public required double? SigmaDb { get; init; }

    /// <summary>What was assumed.</summary>
    public IReadOnlyList<Assumption> Assumed { get; init; } = [];

    /// <summary>What is missing for a level.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];
}
