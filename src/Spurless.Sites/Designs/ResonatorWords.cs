using Spurless.Design.Families;

namespace Spurless.Sites.Designs;

/// <summary>How a line resonator is built, as the circuit file and the build sheet say it.</summary>
public static class ResonatorWords
{
    /// <summary>A sentence without a capital and a full stop.</summary>
    public static string Of(ResonatorBuild build) => build switch
    {
        ResonatorBuild.Helix h =>
            FormattableString.Invariant($"each a helix of {h.Turns:0.0} turns of {h.WireM * 1e3:0.0} mm wire, ")
                + FormattableString.Invariant($"{h.CoilDiameterM * 1e3:0} mm mean diameter, {h.CoilLengthM * 1e3:0} mm long, ")
                + FormattableString.Invariant($"in a square box of {h.BoxM * 1e3:0} mm, {h.BoxHeightM * 1e3:0} mm high; ")
                + "its lower end on the box",
        ResonatorBuild.Cavity c =>
            FormattableString.Invariant($"each a quarter-wave coaxial cavity, inner conductor {c.InnerM * 1e3:0} mm, ")
                + FormattableString.Invariant($"outer {c.OuterM * 1e3:0} mm, about {c.LengthM * 1e3:0} mm long"),
        _ => throw new ArgumentOutOfRangeException(nameof(build), build?.GetType().Name, "has no words"),
    };
}
