using System.Numerics;

namespace Spurless.Circuits.Solving;

/// <summary>
/// What an element does at one frequency, in scalar arithmetic. A two-terminal element is the relation <c>p V = q I</c>, which holds for a
/// short and an open alike. Laws of loss: <see cref="Parts.PartLoss"/>.
/// </summary>
internal static class ElementValues
{
    /// <summary>p and q of a two-terminal element (resistance, inductance, capacitance, stub).</summary>
    public static (Complex P, Complex Q) TwoTerminal(Element e, double omega, ReadOnlySpan<double> values)
    {
        double x = e.ValueOf(values);
        switch (e.Kind)
        {
            case ElementKind.Resistance:
                return (Complex.One, x);
            case ElementKind.Inductance:
                return (Complex.One, new Complex(InductorOhm(e, omega, values), omega * x));
            case ElementKind.Capacitance:
                {
                    // j w C and 1 + j w C (R + j w Ls), R = 1 / (w0 C Q) where Q is stated.
                    double series = e.Q >= 0 ? 0 : e.SeriesOhm;
                    double loss = e.Q >= 0 ? omega / (e.QOmega * values[e.Q]) : 0;
                    return (new(0, omega * x), new(1 - (omega * omega * x * e.SeriesHenry), (omega * x * series) + loss));
                }

            case ElementKind.Stub:
                {
                    (Complex sinh, Complex cosh) = LineFunctions.Scaled(LineFunctions.Propagation(omega, e.Delay, e.Loss) * x, out _);
                    return e.Shorted ? (cosh, e.LineOhm * sinh) : (sinh, e.LineOhm * cosh);
                }

            default:
                throw new ArgumentOutOfRangeException(nameof(e));
        }
    }

    /// <summary>Derivatives of p and q by the element's value (first) or its Q (second).</summary>
    public static (Complex P, Complex Q) TwoTerminalByValue(Element e, double omega, ReadOnlySpan<double> values)
    {
        double x = e.ValueOf(values);
        switch (e.Kind)
        {
            case ElementKind.Resistance:
                return (Complex.Zero, Complex.One);
            case ElementKind.Inductance:
                return (Complex.Zero, new Complex(e.Q >= 0 ? InductorOhm(e, omega, values) / x : 0, omega));
            case ElementKind.Capacitance:
                return (new(0, omega), new(-omega * omega * e.SeriesHenry, e.Q >= 0 ? 0 : omega * e.SeriesOhm));
            default:
                {
                    Complex gamma = LineFunctions.Propagation(omega, e.Delay, e.Loss);
                    (Complex sinh, Complex cosh) = LineFunctions.Scaled(gamma * x, out _);
                    return e.Shorted ? (gamma * sinh, e.LineOhm * gamma * cosh) : (gamma * cosh, e.LineOhm * gamma * sinh);
                }
        }
    }

    /// <summary>Derivatives of p and q by the element's Q.</summary>
    public static (Complex P, Complex Q) TwoTerminalByQ(Element e, double omega, ReadOnlySpan<double> values) =>
        e.Kind == ElementKind.Inductance
        ? (Complex.Zero, -InductorOhm(e, omega, values) / values[e.Q])
        : (Complex.Zero, new Complex(0, -omega / (e.QOmega * values[e.Q] * values[e.Q])));

    /// <summary>Series resistance of an inductance in ohms.</summary>
    public static double InductorOhm(Element e, double omega, ReadOnlySpan<double> values) =>
        e.Q < 0 ? e.SeriesOhm : e.QOmega * e.ValueOf(values) / values[e.Q] * Math.Sqrt(omega / e.QOmega);

    /// <summary>Mutual inductance of a pair of windings in henries.</summary>
    public static double Mutual(Element set, int pair, ReadOnlySpan<double> values)
    {
        (int i, int j, int k) = set.Couplings[pair];
        return values[k] * Math.Sqrt(set.Windings[i].ValueOf(values) * set.Windings[j].ValueOf(values));
    }

    /// <summary>The impedance matrix of a set of windings, row by row.</summary>
    public static void WindingImpedance(Element set, double omega, ReadOnlySpan<double> values, Span<Complex> z)
    {
        int m = set.Windings.Length;
        z[..(m * m)].Clear();
        for (int i = 0; i < m; i++)
        {
            Element w = set.Windings[i];
            z[(i * m) + i] = new(InductorOhm(w, omega, values), omega * w.ValueOf(values));
        }

        for (int pair = 0; pair < set.Couplings.Length; pair++)
        {
            (int i, int j, _) = set.Couplings[pair];
            z[(i * m) + j] = z[(j * m) + i] = new(0, omega * Mutual(set, pair, values));
        }
    }

    /// <summary>
    /// Admittances of a line between its ports: own and transfer, in siemens. Infinite at a lossless multiple of half a wave.
    /// </summary>
    public static (Complex Own, Complex Transfer) LineAdmittance(Element e, double omega, ReadOnlySpan<double> values)
    {
        (Complex sinh, Complex cosh) = LineFunctions.Scaled(
            LineFunctions.Propagation(omega, e.Delay, e.Loss) * e.ValueOf(values), out double decay);
        return (cosh / sinh / e.LineOhm, -decay / sinh / e.LineOhm);
    }
}
