using System.Numerics;

namespace Spurless.Circuits.Solving;

/// <summary>
/// Derivatives of S-parameters by an element's values from two solutions of the network, that of the drive and that of the adjoint drive.
/// </summary>
/// <remarks>
/// Tellegen's theorem on a solution (v, i) and an adjoint one (u, j), both driven by a unit wave in a reference of 1 ohm:
/// <c>dS = -1/2 sum (u di - j dv)</c> over the element's ports, for any change (dv, di) that its changed law allows. The state of an
/// element is what stays fixed in that change: <c>t</c> of <c>v = q t, i = p t</c> for two terminals, both waves that enter a line, the
/// currents of windings. No case divides by something that may vanish.
/// </remarks>
internal static class ElementGradient
{
    /// <summary>How many numbers the state of an element has.</summary>
    public static int StateSize(Element e) => e.Kind switch
    {
        ElementKind.Line => 2,
        ElementKind.Windings => e.Windings.Length,
        ElementKind.Transformer or ElementKind.Block => 0,
        _ => 1,
    };

    /// <summary>Adds the derivatives to the parameters of the element.</summary>
    /// <param name="e">The element.</param>
    /// <param name="omega">Radians per second.</param>
    /// <param name="values">All parameters.</param>
    /// <param name="reference">Port impedance in ohms, to which p, q and the states are normalised.</param>
    /// <param name="state">State of the driven solution.</param>
    /// <param name="adjoint">State of the adjoint solution.</param>
    /// <param name="into">Derivatives by parameter number; added to.</param>
    public static void Add(
        Element e,
        double omega,
        ReadOnlySpan<double> values,
        double reference,
        ReadOnlySpan<Complex> state,
        ReadOnlySpan<Complex> adjoint,
        Span<Complex> into)
    {
        switch (e.Kind)
        {
            case ElementKind.Transformer or ElementKind.Block:
                return;
            case ElementKind.Line:
                {
                    Complex gamma = LineFunctions.Propagation(omega, e.Delay, e.Loss);
                    Complex change = -gamma * Complex.Exp(-gamma * e.ValueOf(values));
                    into[e.Value] += change * reference / e.LineOhm * ((state[1] * adjoint[0]) + (state[0] * adjoint[1]));
                    return;
                }

            case ElementKind.Windings:
                AddWindings(e, omega, values, reference, state, adjoint, into);
                return;
            default:
                {
                    if (e.Value < 0)
                    {
                        return;
                    }

                    (Complex p, Complex q) = ElementValues.TwoTerminal(e, omega, values);
                    Complex half = -0.5 / reference * state[0] * adjoint[0];
                    (Complex dp, Complex dq) = ElementValues.TwoTerminalByValue(e, omega, values);
                    into[e.Value] += half * ((q * dp) - (p * dq));
                    if (e.Q >= 0)
                    {
                        (dp, dq) = ElementValues.TwoTerminalByQ(e, omega, values);
                        into[e.Q] += half * ((q * dp) - (p * dq));
                    }

                    return;
                }
        }
    }

    private static void AddWindings(
        Element e,
        double omega,
        ReadOnlySpan<double> values,
        double reference,
        ReadOnlySpan<Complex> state,
        ReadOnlySpan<Complex> adjoint,
        Span<Complex> into)
    {
        double half = 0.5 / reference;
        for (int i = 0; i < e.Windings.Length; i++)
        {
            Element w = e.Windings[i];
            Complex product = half * state[i] * adjoint[i];
            double ohm = ElementValues.InductorOhm(w, omega, values);
            into[w.Value] += product * new Complex(w.Q >= 0 ? ohm / w.ValueOf(values) : 0, omega);
            if (w.Q >= 0)
            {
                into[w.Q] -= product * (ohm / values[w.Q]);
            }
        }

        for (int pair = 0; pair < e.Couplings.Length; pair++)
        {
            (int i, int j, int k) = e.Couplings[pair];
            double first = e.Windings[i].ValueOf(values), second = e.Windings[j].ValueOf(values), root = Math.Sqrt(first * second);
            Complex product = half * new Complex(0, omega) * ((state[i] * adjoint[j]) + (state[j] * adjoint[i]));
            into[k] += product * root;
            if (root > 0)
            {
                into[e.Windings[i].Value] += product * (values[k] * root / (2 * first));
                into[e.Windings[j].Value] += product * (values[k] * root / (2 * second));
            }
        }
    }
}
