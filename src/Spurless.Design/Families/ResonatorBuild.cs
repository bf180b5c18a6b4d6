namespace Spurless.Design.Families;

/// <summary>How each line resonator of a filter is built; lengths in metres.</summary>
public abstract record ResonatorBuild
{
    /// <summary>A helix in a square box, its lower end on the box.</summary>
    /// <param name="Turns">Turns.</param>
    /// <param name="WireM">Diameter of the wire.</param>
    /// <param name="CoilDiameterM">Mean diameter of the helix.</param>
    /// <param name="CoilLengthM">Its length.</param>
    /// <param name="BoxM">Side of the box.</param>
    /// <param name="BoxHeightM">Height of the box.</param>
    public sealed record Helix(
        double Turns, double WireM, double CoilDiameterM, double CoilLengthM, double BoxM, double BoxHeightM) : ResonatorBuild;

    /// <summary>A quarter-wave coaxial cavity.</summary>
    /// <param name="InnerM">Diameter of the inner conductor.</param>
    /// <param name="OuterM">Diameter of the outer conductor.</param>
    /// <param name="LengthM">Its length.</param>
    public sealed record Cavity(double InnerM, double OuterM, double LengthM) : ResonatorBuild;
}
