using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Tolerance;

/// <summary>One tolerance for all parts that state none.</summary>
public static class ToleranceDefault
{
    /// <summary>
    /// The circuit with that tolerance written to every part with a value of its own that states none; transformers and blocks have no such
    /// value.
    /// </summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="tolerance">The tolerance.</param>
    public static Circuit Apply(Circuit circuit, PartTolerance tolerance)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        ArgumentNullException.ThrowIfNull(tolerance);
        return circuit with
        {
            Parts =
            [
                .. circuit.Parts.Select(
                    p => p.Tolerance is null && p is not (Transformer or TwoPortBlock) ? p with { Tolerance = tolerance } : p),
            ],
        };
    }
}
