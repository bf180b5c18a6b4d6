namespace Spurless.Circuits.Parts;

/// <summary>A single-layer air coil given by its geometry. For an analysis it becomes an <see cref="Inductor"/> by <see cref="Resolve"/>.</summary>
public sealed record Coil : TwoTerminalPart
{
    /// <summary>Number of turns, above 0.</summary>
    public required double Turns { get; init; }

    /// <summary>Diameter in metres from wire centre to wire centre, above 0.</summary>
    public required double DiameterM { get; init; }

    /// <summary>Length in metres: turns times pitch; above 0.</summary>
    public required double LengthM { get; init; }

    /// <summary>Diameter of the wire in metres, above 0.</summary>
    public required double WireM { get; init; }

    /// <summary>Length of the lead at each end in metres; 0 where none was stated.</summary>
    public double LeadM { get; init; }

    /// <summary>Its loss where stated; null to take it from the geometry.</summary>
    public PartLoss? Loss { get; init; }

    /// <summary>Self-capacitance in farads where stated; null to take it from the geometry.</summary>
    public double? SelfCapacitanceF { get; init; }

    /// <inheritdoc/>
    public override bool HasUnknown => false;

    /// <summary>The inductor that this coil is.</summary>
    public Inductor Resolve() => new()
    {
        Name = Name,
        From = From,
        To = To,
        Tolerance = Tolerance,
        PpmPerKelvin = PpmPerKelvin,
        About = About,
        Rated = Rated,
        Inductance = PartValue.Known(CoilInductance.Henries(Turns, DiameterM, LengthM, WireM) + CoilInductance.LeadHenries(LeadM, WireM)),
        Loss = Loss,
        SelfCapacitanceF = SelfCapacitanceF ?? 0,
    };
}
