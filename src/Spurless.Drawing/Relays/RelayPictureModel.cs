using Spurless.Circuits.Relays;

namespace Spurless.Drawing.Relays;

/// <summary>What the picture of a relay's press shows.</summary>
public sealed record RelayPictureModel
{
    /// <summary>What the picture is, in a line.</summary>
    public required string Title { get; init; }

    /// <summary>What there is to see in it.</summary>
    public required string Description { get; init; }

    /// <summary>The moments, rising in time from 0, at least two.</summary>
    public required IReadOnlyList<RelayMoment> Moments { get; init; }

    /// <summary>Changes of the contacts.</summary>
    public required IReadOnlyList<ContactChange> Changes { get; init; }

    /// <summary>When the carrier ends, in seconds.</summary>
    public required double OnS { get; init; }

    /// <summary>Current that pulls the relay, in amperes.</summary>
    public required double OperatesA { get; init; }

    /// <summary>Current under which it lets go, in amperes.</summary>
    public required double ReleasesA { get; init; }
}
