using System.Numerics;

namespace Spurless.Circuits.TwoPorts;

/// <summary>Conversions between the descriptions of a two-port, cascades, changes of reference, gains between mismatched ends.</summary>
/// <remarks>
/// Waves are power waves: with the reference impedance Z of a port, R its real part (above 0), V its voltage and I the current into it,
/// <c>a = (V + Z I) / (2 sqrt R)</c>, <c>b = (V - Z* I) / (2 sqrt R)</c>, Z* the conjugate; <c>|a|^2 - |b|^2</c> is the power into the port
/// (K. Kurokawa, IEEE Trans. MTT-13, 1965; from memory). For real references they are the travelling waves. Time convention e^{+jwt}.
/// A conversion to a description that the two-port does not have (a through has no impedance matrix) gives null.
/// All are exact but for rounding.
/// </remarks>
public static class TwoPortAlgebra
{
    /// <summary>S-parameters from impedance parameters.</summary>
    /// <param name="z">Impedance matrix in ohms.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static ScatteringMatrix? FromImpedance(TwoPortMatrix z, Complex reference1, Complex reference2)
    {
        (TwoPortMatrix z0, TwoPortMatrix conjugate) = References(reference1, reference2);
        return (z + z0).Inverse() is { } inverse ? Normalised((z - conjugate) * inverse, reference1, reference2) : null;
    }

    /// <summary>S-parameters from admittance parameters.</summary>
    /// <param name="y">Admittance matrix in siemens.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static ScatteringMatrix? FromAdmittance(TwoPortMatrix y, Complex reference1, Complex reference2)
    {
        (TwoPortMatrix z0, TwoPortMatrix conjugate) = References(reference1, reference2);
        TwoPortMatrix one = TwoPortMatrix.Identity;
        return (one + (z0 * y)).Inverse() is { } inverse ? Normalised((one - (conjugate * y)) * inverse, reference1, reference2) : null;
    }

    /// <summary>S-parameters from chain parameters <c>V1 = A V2 + B I2, I1 = C V2 + D I2</c>, I2 flowing out of port 2.</summary>
    /// <param name="chain">Chain matrix: A, B in ohms, C in siemens, D.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static ScatteringMatrix? FromChain(TwoPortMatrix chain, Complex reference1, Complex reference2)
    {
        (Complex a, Complex b, Complex c, Complex d) = chain;
        Complex z1 = reference1, z2 = reference2, n1 = Complex.Conjugate(z1), n2 = Complex.Conjugate(z2);
        Complex denominator = (a * z2) + b + (c * z1 * z2) + (d * z1);
        if (denominator == Complex.Zero)
        {
            return null;
        }

        double root = 2 * Math.Sqrt(z1.Real * z2.Real);
        ScatteringMatrix s = new(
            ((a * z2) + b - (c * n1 * z2) - (d * n1)) / denominator,
            root * chain.Determinant / denominator,
            root / denominator,
            ((-a * n2) + b - (c * z1 * n2) + (d * z1)) / denominator);
        return s.IsFinite ? s : null;
    }

    /// <summary>S-parameters from hybrid parameters <c>V1 = h11 I1 + h12 V2, I2 = h21 I1 + h22 V2</c>.</summary>
    /// <param name="h">h11 in ohms, h12, h21, h22 in siemens.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static ScatteringMatrix? FromHybrid(TwoPortMatrix h, Complex reference1, Complex reference2)
    {
        // In the unknowns x = (I1, V2): V = [h11 h12; 0 1] x, I = [1 0; h21 h22] x.
        TwoPortMatrix voltage = new(h.M11, h.M12, Complex.Zero, Complex.One);
        TwoPortMatrix current = new(Complex.One, Complex.Zero, h.M21, h.M22);
        return FromVoltageAndCurrent(voltage, current, reference1, reference2);
    }

    /// <summary>S-parameters from inverse hybrid parameters <c>I1 = g11 V1 + g12 I2, V2 = g21 V1 + g22 I2</c>.</summary>
    /// <param name="g">g11 in siemens, g12, g21, g22 in ohms.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static ScatteringMatrix? FromInverseHybrid(TwoPortMatrix g, Complex reference1, Complex reference2)
    {
        TwoPortMatrix voltage = new(Complex.One, Complex.Zero, g.M21, g.M22);
        TwoPortMatrix current = new(g.M11, g.M12, Complex.Zero, Complex.One);
        return FromVoltageAndCurrent(voltage, current, reference1, reference2);
    }

    /// <summary>Impedance parameters in ohms from S-parameters; null where there are none.</summary>
    /// <param name="s">S-parameters.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static TwoPortMatrix? ToImpedance(ScatteringMatrix s, Complex reference1, Complex reference2)
    {
        (TwoPortMatrix z0, TwoPortMatrix conjugate) = References(reference1, reference2);
        TwoPortMatrix plain = Plain(s, reference1, reference2);
        return (TwoPortMatrix.Identity - plain).Inverse() is { } inverse ? inverse * ((plain * z0) + conjugate) : null;
    }

    /// <summary>Admittance parameters in siemens from S-parameters; null where there are none.</summary>
    /// <param name="s">S-parameters.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static TwoPortMatrix? ToAdmittance(ScatteringMatrix s, Complex reference1, Complex reference2)
    {
        (TwoPortMatrix z0, TwoPortMatrix conjugate) = References(reference1, reference2);
        TwoPortMatrix plain = Plain(s, reference1, reference2);
        return ((plain * z0) + conjugate).Inverse() is { } inverse ? inverse * (TwoPortMatrix.Identity - plain) : null;
    }

    /// <summary>
    /// Chain parameters (A, B in ohms, C in siemens, D; the second current flows out) from S-parameters; null where nothing passes from
    /// port 1 to port 2.
    /// </summary>
    /// <param name="s">S-parameters.</param>
    /// <param name="reference1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="reference2">Reference of port 2 in ohms, real part above 0.</param>
    public static TwoPortMatrix? ToChain(ScatteringMatrix s, Complex reference1, Complex reference2)
    {
        Complex z1 = reference1, z2 = reference2, n1 = Complex.Conjugate(z1), n2 = Complex.Conjugate(z2);
        Complex denominator = 2 * s.S21 * Math.Sqrt(z1.Real * z2.Real);
        if (denominator == Complex.Zero)
        {
            return null;
        }

        Complex cross = s.S12 * s.S21;
        Complex forward = n1 + (s.S11 * z1), backward = Complex.One - s.S11;
        TwoPortMatrix chain = new(
            ((forward * (1 - s.S22)) + (cross * z1)) / denominator,
            ((forward * (n2 + (s.S22 * z2))) - (cross * z1 * z2)) / denominator,
            ((backward * (1 - s.S22)) - cross) / denominator,
            ((backward * (n2 + (s.S22 * z2))) + (cross * z2)) / denominator);
        return chain.IsFinite ? chain : null;
    }

    /// <summary>S-parameters in other reference impedances.</summary>
    /// <param name="s">S-parameters.</param>
    /// <param name="from1">Present reference of port 1 in ohms, real part above 0.</param>
    /// <param name="from2">Present reference of port 2 in ohms, real part above 0.</param>
    /// <param name="to1">Wanted reference of port 1 in ohms, real part above 0.</param>
    /// <param name="to2">Wanted reference of port 2 in ohms, real part above 0.</param>
    /// <returns>The same two-port's S-parameters; null only for an active one that oscillates between the wanted references. Works where no
    /// Y, Z or chain matrix exists.</returns>
    public static ScatteringMatrix? Renormalise(ScatteringMatrix s, Complex from1, Complex from2, Complex to1, Complex to2)
    {
        if (from1 == to1 && from2 == to2)
        {
            return s;
        }

        // a' = p a + q b, b' = r a + t b at each port, straight from the definition of the waves.
        (Complex p1, Complex q1, Complex r1, Complex t1) = Step(from1, to1);
        (Complex p2, Complex q2, Complex r2, Complex t2) = Step(from2, to2);
        TwoPortMatrix incident = new(p1 + (q1 * s.S11), q1 * s.S12, q2 * s.S21, p2 + (q2 * s.S22));
        TwoPortMatrix leaving = new(r1 + (t1 * s.S11), t1 * s.S12, t2 * s.S21, r2 + (t2 * s.S22));
        return incident.Inverse() is { } inverse ? AsScattering(leaving * inverse) : null;
    }

    /// <summary>Two two-ports one after the other: port 2 of the first on port 1 of the second.</summary>
    /// <param name="first">The one whose port 1 becomes port 1.</param>
    /// <param name="second">The one whose port 2 becomes port 2.</param>
    /// <returns>S-parameters in the outer references; null only for an active loop that oscillates. The two must be in one real reference
    /// where they meet.</returns>
    public static ScatteringMatrix? Cascade(ScatteringMatrix first, ScatteringMatrix second)
    {
        Complex loop = Complex.One - (first.S22 * second.S11);
        if (loop == Complex.Zero)
        {
            return null;
        }

        return new ScatteringMatrix(
            first.S11 + (first.S12 * second.S11 * first.S21 / loop),
            first.S12 * second.S12 / loop,
            first.S21 * second.S21 / loop,
            second.S22 + (second.S21 * first.S22 * second.S12 / loop));
    }

    /// <summary>Transducer gain: power into the load over the power available from the source.</summary>
    /// <param name="s">S-parameters in a real reference.</param>
    /// <param name="source">Reflection of the source in that reference, magnitude below 1.</param>
    /// <param name="load">Reflection of the load in that reference, magnitude below 1.</param>
    /// <returns>A ratio of powers.</returns>
    public static double TransducerGain(ScatteringMatrix s, Complex source, Complex load) =>
        Norm(s.S21) * (1 - Norm(source)) * (1 - Norm(load)) / Norm(MismatchDenominator(s, source, load));

    /// <summary>Available gain: power available at port 2 over the power available from the source.</summary>
    /// <param name="s">S-parameters in a real reference.</param>
    /// <param name="source">Reflection of the source in that reference, magnitude below 1.</param>
    /// <returns>A ratio of powers.</returns>
    public static double AvailableGain(ScatteringMatrix s, Complex source) =>
        Norm(s.S21) * (1 - Norm(source)) / (Norm(1 - (s.S11 * source)) * (1 - Norm(OutputReflection(s, source))));

    /// <summary>Reflection at port 1 with a load at port 2.</summary>
    /// <param name="s">S-parameters in a real reference.</param>
    /// <param name="load">Reflection of the load in that reference.</param>
    public static Complex InputReflection(ScatteringMatrix s, Complex load) => s.S11 + (s.S12 * s.S21 * load / (1 - (s.S22 * load)));

    /// <summary>Reflection at port 2 with a source at port 1.</summary>
    /// <param name="s">S-parameters in a real reference.</param>
    /// <param name="source">Reflection of the source in that reference.</param>
    public static Complex OutputReflection(ScatteringMatrix s, Complex source) => s.S22 + (s.S12 * s.S21 * source / (1 - (s.S11 * source)));

    /// <summary>
    /// <c>(1 - S11 Gs)(1 - S22 Gl) - S12 S21 Gs Gl</c>: the transmission between mismatched ends is that in the reference divided by it.
    /// </summary>
    /// <param name="s">S-parameters in a real reference.</param>
    /// <param name="source">Reflection of the source in that reference.</param>
    /// <param name="load">Reflection of the load in that reference.</param>
    public static Complex MismatchDenominator(ScatteringMatrix s, Complex source, Complex load) =>
        ((1 - (s.S11 * source)) * (1 - (s.S22 * load))) - (s.S12 * s.S21 * source * load);

    private static ScatteringMatrix? FromVoltageAndCurrent(
        TwoPortMatrix voltage, TwoPortMatrix current, Complex reference1, Complex reference2)
    {
        (TwoPortMatrix z0, TwoPortMatrix conjugate) = References(reference1, reference2);
        return (voltage + (z0 * current)).Inverse() is { } inverse
            ? Normalised((voltage - (conjugate * current)) * inverse, reference1, reference2)
            : null;
    }

    private static (Complex P, Complex Q, Complex R, Complex T) Step(Complex from, Complex to)
    {
        double root = 2 * Math.Sqrt(from.Real * to.Real);
        Complex fromConjugate = Complex.Conjugate(from), toConjugate = Complex.Conjugate(to);
        return ((fromConjugate + to) / root, (from - to) / root, (fromConjugate - toConjugate) / root, (from + toConjugate) / root);
    }

    private static (TwoPortMatrix Reference, TwoPortMatrix Conjugate) References(Complex one, Complex two) => (
        new(one, Complex.Zero, Complex.Zero, two),
        new(Complex.Conjugate(one), Complex.Zero, Complex.Zero, Complex.Conjugate(two)));

    // F M F^-1 with F = diag(1 / (2 sqrt R)): from ratios of V -+ Z I to ratios of waves.
    private static ScatteringMatrix Normalised(TwoPortMatrix m, Complex one, Complex two)
    {
        double ratio = Math.Sqrt(one.Real / two.Real);
        return new(m.M11, m.M12 / ratio, m.M21 * ratio, m.M22);
    }

    private static TwoPortMatrix Plain(ScatteringMatrix s, Complex one, Complex two)
    {
        double ratio = Math.Sqrt(one.Real / two.Real);
        return new(s.S11, s.S12 * ratio, s.S21 / ratio, s.S22);
    }

    private static ScatteringMatrix AsScattering(TwoPortMatrix m) => new(m.M11, m.M12, m.M21, m.M22);

    private static double Norm(Complex z) => (z.Real * z.Real) + (z.Imaginary * z.Imaginary);
}
