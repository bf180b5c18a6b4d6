using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Parts;

/// <summary>A two-port block within a circuit, both ports against ground.</summary>
public sealed record TwoPortBlock : Part
{
    /// <summary>Node of its port 1.</summary>
    public required string From { get; init; }

    /// <summary>Node of its port 2.</summary>
    public required string To { get; init; }

    /// <summary>Where its S-parameters come from.</summary>
    public required ITwoPort Source { get; init; }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Nodes => [From, To];

    /// <inheritdoc/>
    public override bool HasUnknown => false;
}
