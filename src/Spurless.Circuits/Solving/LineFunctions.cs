using System.Numerics;
using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Solving;

/// <summary>Hyperbolic functions of a line's propagation, without loss of digits for short and for very lossy lines.</summary>
internal static class LineFunctions
{
    /// <summary>1 Np in dB: 20 lg e.</summary>
    private const double DbPerNeper = 8.685889638065037;

    /// <summary>Complex propagation of a metre, <c>alpha + j beta</c>.</summary>
    public static Complex Propagation(double omega, double delay, LineLoss loss) =>
        new(loss.DbPerMetre(omega / (2 * Math.PI)) / DbPerNeper, omega * delay);

    /// <summary>
    /// sinh and cosh of the propagation, both divided by e^alpha, so that no loss overflows; the ratio and the products are what is used.
    /// </summary>
    /// <param name="theta">Propagation over the whole length.</param>
    /// <param name="decay">e^-alpha.</param>
    public static (Complex Sinh, Complex Cosh) Scaled(Complex theta, out double decay)
    {
        double alpha = theta.Real;
        (double sin, double cos) = Math.SinCos(theta.Imaginary);
        decay = Math.Exp(-alpha);

        // (1 - e^-2a) / 2 by sinh where it would cancel.
        double s = alpha < 0.5 ? Math.Sinh(alpha) * decay : 0.5 * (1 - (decay * decay));
        double c = 0.5 * (1 + (decay * decay));
        return (new(s * cos, c * sin), new(c * cos, s * sin));
    }
}
