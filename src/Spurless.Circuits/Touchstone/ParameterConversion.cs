using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Touchstone;

/// <summary>S-parameters from the parameters of a file; power waves as in <see cref="TwoPortAlgebra"/>.</summary>
internal static class ParameterConversion
{
    /// <summary>Two-port parameters to S; null where no finite S-parameters exist.</summary>
    /// <param name="parameter">What <paramref name="p"/> holds.</param>
    /// <param name="p">The parameters in ohms, siemens or pure numbers (not normalised).</param>
    /// <param name="z1">Reference of port 1 in ohms, real part above 0.</param>
    /// <param name="z2">Reference of port 2 in ohms, real part above 0.</param>
    public static ScatteringMatrix? ToScattering(TouchstoneParameter parameter, TwoPortMatrix p, Complex z1, Complex z2)
    {
        ScatteringMatrix? s = parameter switch
        {
            TouchstoneParameter.S => new ScatteringMatrix(p.M11, p.M12, p.M21, p.M22),
            TouchstoneParameter.Z => TwoPortAlgebra.FromImpedance(p, z1, z2),
            TouchstoneParameter.Y => TwoPortAlgebra.FromAdmittance(p, z1, z2),
            TouchstoneParameter.H => TwoPortAlgebra.FromHybrid(p, z1, z2),
            _ => TwoPortAlgebra.FromInverseHybrid(p, z1, z2),
        };
        return s is { IsFinite: true } ? s : null;
    }

    /// <summary>One-port parameter to S11 (Z and H are impedances, Y and G admittances); null where there is none.</summary>
    public static Complex? ToScattering(TouchstoneParameter parameter, Complex p, Complex z0)
    {
        (Complex top, Complex bottom) = parameter switch
        {
            TouchstoneParameter.S => (p, Complex.One),
            TouchstoneParameter.Z or TouchstoneParameter.H => (p - Complex.Conjugate(z0), p + z0),
            _ => (1 - (p * Complex.Conjugate(z0)), 1 + (p * z0)),
        };
        return Ratio(top, bottom);
    }

    /// <summary>S11 of a one-port in another reference; null where there is none.</summary>
    public static Complex? Renormalise(Complex s11, Complex z0, Complex to)
    {
        // V and I but for a common factor.
        Complex v = Complex.Conjugate(z0) + (z0 * s11);
        Complex i = 1 - s11;
        return Ratio(v - (Complex.Conjugate(to) * i), v + (to * i));
    }

    private static Complex? Ratio(Complex top, Complex bottom)
    {
        Complex ratio = top / bottom;
        return bottom != Complex.Zero && Complex.IsFinite(ratio) ? ratio : null;
    }
}
