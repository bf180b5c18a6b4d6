using Spurless.Circuits.Coils;

namespace Spurless.Circuits.Parts;

/// <summary>
/// A single-layer air coil given by its geometry. For an analysis it becomes an <see cref="Inductor"/> by <see cref="Resolve"/>.
/// </summary>
public sealed record Coil : TwoTerminalPart
{
    private const double LossFrequencyHz = 100e6;
    private const double RulerSpread = 0.08;

    /// <summary>
    /// One sigma, as a ratio, of the inductance that <see cref="Resolve"/> gives: a ruler's 8 % (common experience) and what the formulas
    /// leave open.
    /// </summary>
    public double Spread => double.Hypot(RulerSpread, Figures.FormulaSigma!.Value);

    private CoilResult Figures => CoilCalculator.Compute(new CoilGeometry(Turns, DiameterM, LengthM, WireM, LeadM), LossFrequencyHz);

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
    public override bool HasUnknown => Loss?.Q is { IsKnown: false };

    /// <summary>The inductor that this coil is.</summary>
    /// <remarks>
    /// The inductance is that at 100 MHz, where the field has left the wire's inside (above 10 MHz and 0.5 mm of wire it changes by under 1
    /// % any more).
    /// Loss and self-capacitance that were not stated come from the geometry (<see cref="CoilCalculator"/>): copper wire, the resistance
    /// taken at
    /// 100 MHz and growing with the root of the frequency from there, as skin effect does.
    /// </remarks>
    public Inductor Resolve()
    {
        CoilResult result = Figures;
        return new Inductor
        {
            Name = Name,
            From = From,
            To = To,
            Tolerance = Tolerance,
            PpmPerKelvin = PpmPerKelvin,
            About = About,
            Rated = Rated,
            Inductance = PartValue.Known(result.InductanceAtFrequencyH!.Value),
            Loss = Loss ?? PartLoss.QualityFactor(result.Q!.Value, LossFrequencyHz),
            SelfCapacitanceF = SelfCapacitanceF ?? result.SelfCapacitanceF,
        };
    }
}
