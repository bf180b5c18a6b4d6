using System.Numerics;
using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Circuits.Sensitivity;

/// <summary>
/// An element at one frequency with the states of the driven and of the adjoint solution, see <see cref="ElementGradient"/>.
/// </summary>
internal readonly record struct ElementState(
    Element Element, double Omega, double[] Values, double Reference, Complex[] Driven, Complex[] Adjoint);

/// <summary>
/// What an element adds to the derivatives of an S-parameter, by Tellegen's theorem <c>dS = -1/2 sum (u di - j dv)</c> over its ports, (v,
/// i) of the driven and (u, j) of the adjoint solution: by its parameters (<see cref="ElementGradient"/>) and by the numbers that no run
/// varies.
/// </summary>
internal static class ElementSlopes
{
    /// <summary>Adds the slopes of one element.</summary>
    /// <param name="e">The element and its states.</param>
    /// <param name="ports">Voltage and current at a port, driven and adjoint.</param>
    /// <param name="add">Takes a number's place and what to add to its slope.</param>
    /// <param name="numbers">The numbers.</param>
    public static void Add(
        ElementState e,
        Func<int, ((Complex V, Complex I) Driven, (Complex V, Complex I) Adjoint)> ports,
        Action<int, Complex> add,
        SlopeNumbers numbers)
    {
        Complex[] own = new Complex[e.Values.Length];
        ElementGradient.Add(e.Element, e.Omega, e.Values, e.Reference, e.Driven, e.Adjoint, own);
        for (int p = 0; p < own.Length; p++)
        {
            if (own[p] != Complex.Zero)
            {
                add(p, own[p]);
            }
        }

        void By(PartQuantity quantity, Complex slope, int? part = null)
        {
            if (numbers.Of(part ?? e.Element.Part, quantity) is >= 0 and int number)
            {
                add(number, slope);
            }
        }

        switch (e.Element.Kind)
        {
            case ElementKind.Transformer:
                {
                    // v1 = m v2, i2 = -m i1: dv1 = v2 dm, di2 = -i1 dm.
                    var (first, second) = (ports(0), ports(1));
                    By(PartQuantity.TurnsRatio, 0.5 * ((first.Adjoint.I * second.Driven.V) + (second.Adjoint.V * first.Driven.I)));
                    break;
                }

            case ElementKind.Line:
                {
                    double length = e.Element.ValueOf(e.Values);
                    Complex gamma = LineFunctions.Propagation(e.Omega, e.Element.Delay, e.Element.Loss),
                    pass = Complex.Exp(-gamma * length);

                    // The waves that enter stay; those that leave turn with the velocity, beta = w delay.
                    Complex turned = new Complex(0, e.Omega * e.Element.Delay) * length * pass;
                    By(
                        PartQuantity.Velocity,
                        turned / Velocity(e) * e.Reference / e.Element.LineOhm * (
                            (e.Driven[1] * e.Adjoint[0]) + (e.Driven[0] * e.Adjoint[1])));

                    // With all waves held, a change of impedance leaves the voltages and takes i dZ/Z off the currents.
                    var (near, far) = (ports(0), ports(1));
                    By(
                        PartQuantity.LineImpedanceOhm,
                        0.5 / e.Element.LineOhm * ((near.Adjoint.V * near.Driven.I) + (far.Adjoint.V * far.Driven.I)));
                    break;
                }

            case ElementKind.Windings:
                for (int i = 0; i < e.Element.Windings.Length; i++)
                {
                    By(PartQuantity.SeriesResistanceOhm, 0.5 / e.Reference * e.Driven[i] * e.Adjoint[i], e.Element.Windings[i].Part);
                }

                break;
            case ElementKind.Block or ElementKind.Resistance:
                break;
            default:
                TwoTerminal(e, By);
                break;
        }
    }

    private static double Velocity(ElementState e) => 1 / (e.Element.Delay * PhysicalConstants.SpeedOfLight);

    // p v = q i: dS = -1/2 (q dp - p dq) t t' over the reference.
    private static void TwoTerminal(ElementState e, Action<PartQuantity, Complex, int?> by)
    {
        (Complex p, Complex q) = ElementValues.TwoTerminal(e.Element, e.Omega, e.Values);
        Complex half = -0.5 / e.Reference * e.Driven[0] * e.Adjoint[0];
        void By(PartQuantity quantity, Complex dp, Complex dq) => by(quantity, half * ((q * dp) - (p * dq)), null);
        switch (e.Element.Kind)
        {
            case ElementKind.Inductance:
                By(PartQuantity.SeriesResistanceOhm, Complex.Zero, Complex.One);
                break;
            case ElementKind.Capacitance when e.Element.Value < 0:
                By(PartQuantity.SelfCapacitanceF, new Complex(0, e.Omega), Complex.Zero);
                break;
            case ElementKind.Capacitance:
                By(PartQuantity.SeriesResistanceOhm, Complex.Zero, new Complex(0, e.Omega * e.Element.ValueOf(e.Values)));
                By(PartQuantity.SeriesInductanceH, Complex.Zero, -e.Omega * e.Omega * e.Element.ValueOf(e.Values));
                break;
            case ElementKind.Stub:
                {
                    double length = e.Element.ValueOf(e.Values);
                    (Complex sinh, Complex cosh) = LineFunctions.Scaled(
                        LineFunctions.Propagation(e.Omega, e.Element.Delay, e.Element.Loss) * length, out _);
                    By(PartQuantity.LineImpedanceOhm, Complex.Zero, e.Element.Shorted ? sinh : cosh);
                    Complex turned = new Complex(0, -e.Omega * e.Element.Delay) * length / Velocity(e);
                    (Complex dp, Complex dq) = e.Element.Shorted ? (sinh, e.Element.LineOhm * cosh) : (cosh, e.Element.LineOhm * sinh);
                    By(PartQuantity.Velocity, dp * turned, dq * turned);
                    break;
                }
        }
    }
}
