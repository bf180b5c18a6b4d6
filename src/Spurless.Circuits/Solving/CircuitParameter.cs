using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Solving;

/// <summary>The kinds of numbers of a circuit that an analysis can vary.</summary>
public enum CircuitQuantity
{
    /// <summary>Resistance in ohms.</summary>
    ResistanceOhm,

    /// <summary>Inductance in henries.</summary>
    InductanceH,

    /// <summary>Capacitance in farads.</summary>
    CapacitanceF,

    /// <summary>Quality factor, a plain number.</summary>
    Q,

    /// <summary>Coupling coefficient, a plain number.</summary>
    Coupling,

    /// <summary>Length of a line or stub in metres.</summary>
    LengthM,
}

/// <summary>A number of a circuit that an analysis can vary.</summary>
/// <param name="Part">Name of the part.</param>
/// <param name="PartIndex">The part's place in <see cref="Circuit.Parts"/>.</param>
/// <param name="Quantity">What it is.</param>
/// <param name="Nominal">Its stated value, or that it is unknown.</param>
public sealed record CircuitParameter(string Part, int PartIndex, CircuitQuantity Quantity, PartValue Nominal)
{
    /// <summary>Whether this is the part's own value, to which its tolerance applies, and not its quality factor.</summary>
    public bool IsPartValue => Quantity != CircuitQuantity.Q;
}
