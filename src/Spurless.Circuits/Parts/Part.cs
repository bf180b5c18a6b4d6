namespace Spurless.Circuits.Parts;

/// <summary>One part of a <see cref="Circuit"/>. Parts are immutable; a changed part is made with <c>with</c>.</summary>
public abstract record Part
{
    /// <summary>The part's name, unique in its circuit.</summary>
    public required string Name { get; init; }

    /// <summary>Tolerance of its value; null where none was stated.</summary>
    public PartTolerance? Tolerance { get; init; }

    /// <summary>Temperature coefficient of its value in parts per million per kelvin.</summary>
    public double PpmPerKelvin { get; init; }

    /// <summary>
    /// How well its value is known beforehand, for a fit: one standard deviation as a fraction of the value; null where not stated.
    /// </summary>
    public double? About { get; init; }

    /// <summary>What it is rated for; null where not stated.</summary>
    public PartRating? Rated { get; init; }

    /// <summary>The nodes it is connected to, in the order of its ports; empty for a coupling.</summary>
    public abstract IReadOnlyList<string> Nodes { get; }

    /// <summary>Whether a value of the part is unknown.</summary>
    public abstract bool HasUnknown { get; }
}

/// <summary>A part between two nodes. Its sense is from <see cref="From"/> to <see cref="To"/>.</summary>
public abstract record TwoTerminalPart : Part
{
    /// <summary>First node.</summary>
    public required string From { get; init; }

    /// <summary>Second node.</summary>
    public required string To { get; init; }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Nodes => [From, To];
}
