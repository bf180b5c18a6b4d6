namespace Spurless.Circuits.Coils;

/// <summary>Where the formulas of a coil or a resonator leave their range.</summary>
public abstract record CoilWarning
{
    private CoilWarning()
    {
    }

    /// <summary>The turns have no room on the coil's length.</summary>
    /// <param name="Turns">How many.</param>
    /// <param name="WireM">Wire diameter in metres.</param>
    /// <param name="LengthM">Length in metres.</param>
    public sealed record TurnsDoNotFit(double Turns, double WireM, double LengthM) : CoilWarning;

    /// <summary>Under one turn the current sheet is no model.</summary>
    public sealed record UnderOneTurn : CoilWarning;

    /// <summary>Under three turns the leads are a good part of the inductance.</summary>
    /// <param name="LeadsStated">Whether their length was stated.</param>
    public sealed record UnderThreeTurns(bool LeadsStated) : CoilWarning;

    /// <summary>The wire is over half as thick as the coil is wide.</summary>
    public sealed record ThickWire : CoilWarning;

    /// <summary>The self-capacitance is known for lengths of 0.1 to 50 diameters only.</summary>
    /// <param name="Shape">Length over diameter.</param>
    public sealed record SelfCapacitanceOutOfRange(double Shape) : CoilWarning;

    /// <summary>The frequency is above the self-resonance.</summary>
    /// <param name="FrequencyHz">Asked for, in hertz.</param>
    /// <param name="ResonanceHz">The self-resonance in hertz.</param>
    public sealed record AboveResonance(double FrequencyHz, double ResonanceHz) : CoilWarning;

    /// <summary>The self-resonance is near: within a factor of 0.3.</summary>
    /// <param name="FrequencyHz">Asked for, in hertz.</param>
    /// <param name="ResonanceHz">The self-resonance in hertz.</param>
    public sealed record NearResonance(double FrequencyHz, double ResonanceHz) : CoilWarning;

    /// <summary>The wire is under eight skin depths thick, for which the proximity factor isn't made.</summary>
    public sealed record ThinWire : CoilWarning;

    /// <summary>The proximity factor was measured on coils of 30 to 50 turns.</summary>
    public sealed record FewTurns : CoilWarning;

    /// <summary>The turns are too few for a helix.</summary>
    /// <param name="Turns">How many.</param>
    public sealed record NoHelix(double Turns) : CoilWarning;

    /// <summary>A helix' wire is under five skin depths thick.</summary>
    public sealed record ThinHelix : CoilWarning;

    /// <summary>Helical resonators are built for 20 to 1500 MHz.</summary>
    public sealed record UnusualForHelix : CoilWarning;

    /// <summary>The outer conductor is so wide that other modes may resonate near.</summary>
    public sealed record OtherModes : CoilWarning;

    /// <summary>A coaxial resonator is shorter than it is wide.</summary>
    /// <param name="LengthM">Its length in metres.</param>
    public sealed record ShorterThanWide(double LengthM) : CoilWarning;
}
