using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Sensitivity;

/// <summary>Every kind of number of a part by which a response can be differentiated.</summary>
public enum PartQuantity
{
    /// <summary>Resistance of a resistor in ohms.</summary>
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

    /// <summary>Series resistance of an inductor or capacitor in ohms.</summary>
    SeriesResistanceOhm,

    /// <summary>Series inductance of a capacitor in henries.</summary>
    SeriesInductanceH,

    /// <summary>Self-capacitance of an inductor in farads.</summary>
    SelfCapacitanceF,

    /// <summary>Characteristic impedance of a line or stub in ohms.</summary>
    LineImpedanceOhm,

    /// <summary>Velocity of a line or stub as a fraction of that of light.</summary>
    Velocity,

    /// <summary>First turns over second turns of a transformer.</summary>
    TurnsRatio,

    /// <summary>Turns of a coil.</summary>
    Turns,

    /// <summary>Diameter of a coil in metres.</summary>
    DiameterM,

    /// <summary>Length of a coil's winding in metres.</summary>
    WindingLengthM,

    /// <summary>Diameter of a coil's wire in metres.</summary>
    WireM,

    /// <summary>Length of a coil's lead at each end in metres.</summary>
    LeadM,
}

/// <summary>Derivatives of S21 and S11 by one number of one part.</summary>
/// <param name="Part">The part's name.</param>
/// <param name="Quantity">Which of its numbers.</param>
/// <param name="Nominal">That number, in its SI unit.</param>
/// <param name="S21">dS21 over it at each frequency, in one over that unit.</param>
/// <param name="S11">dS11 over it at each frequency.</param>
public sealed record PartSensitivity(
    string Part, PartQuantity Quantity, double Nominal, IReadOnlyList<Complex> S21, IReadOnlyList<Complex> S11);

/// <summary>The sensitivities of a circuit at some frequencies.</summary>
/// <param name="FrequenciesHz">The frequencies in hertz.</param>
/// <param name="S">S-parameters there.</param>
/// <param name="Parts">One entry for each number of each part, in the order of the circuit.</param>
public sealed record SensitivityResult(
    IReadOnlyList<double> FrequenciesHz, IReadOnlyList<ScatteringMatrix> S, IReadOnlyList<PartSensitivity> Parts)
{
    /// <summary>
    /// By how many dB |S21| moves when a number grows by one per cent, to first order: <c>20/ln 10 Re(dS21/S21) x 0.01</c>; NaN where
    /// nothing passes.
    /// </summary>
    public double S21DbPerPercent(PartSensitivity of, int frequency) => PerPercent(of.S21[frequency], S[frequency].S21, of.Nominal);

    /// <summary>The same of |S11|.</summary>
    public double S11DbPerPercent(PartSensitivity of, int frequency) => PerPercent(of.S11[frequency], S[frequency].S11, of.Nominal);

    private static double PerPercent(Complex slope, Complex s, double nominal) =>
        s == Complex.Zero ? double.NaN : 20 / Math.Log(10) * (slope / s).Real * nominal * 0.01;
}
