using Spurless.Circuits.Tolerance;
using Spurless.Files.Diagnostics;

namespace Spurless.Circuits.Requirements;

/// <summary>A requirement as lines that a response is held against.</summary>
public static class RequirementMask
{
    /// <summary>The lines: the pass-band with its loss and return loss first, then what is to be rejected, in the file's order.</summary>
    /// <param name="requirement">The requirement.</param>
    public static IReadOnlyList<MaskLine> Lines(Requirement requirement)
    {
        ArgumentNullException.ThrowIfNull(requirement);
        PassBand pass = requirement.Pass;
        return
        [
            new MaskLine(pass.From.Hertz, pass.To.Hertz, MostLossDb: pass.Loss.Value, LeastReturnLossDb: pass.ReturnLoss?.Value),
            .. requirement.Reject.Select(static r => new MaskLine(r.From.Hertz, r.To.Hertz, LeastLossDb: r.By.Value)),
        ];
    }

    /// <summary>Why a circuit cannot be held against a requirement; null where it can.</summary>
    /// <param name="requirement">The requirement.</param>
    /// <param name="impedanceOhm">Port impedance of the circuit in ohms.</param>
    public static Refusal? Refuse(Requirement requirement, double impedanceOhm)
    {
        ArgumentNullException.ThrowIfNull(requirement);
        double wanted = requirement.Impedance.Ohms;
        return Math.Abs(wanted - impedanceOhm) <= 1e-9 * wanted
            ? null
            : new Refusal(
                FormattableString.Invariant(
                    $"the requirement is for ports of {wanted:0.###} ohm, the circuit's are {impedanceOhm:0.###} ohm"),
                "write one impedance in both");
    }
}
