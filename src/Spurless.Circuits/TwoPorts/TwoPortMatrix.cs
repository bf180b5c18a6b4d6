using System.Numerics;

namespace Spurless.Circuits.TwoPorts;

/// <summary>
/// A complex 2 x 2 matrix that relates the voltages and currents of a two-port: impedance, admittance, chain or hybrid parameters, as the
/// holder says. Both currents flow into the two-port, except in chain parameters, where the second flows out.
/// </summary>
/// <param name="M11">Row 1, column 1.</param>
/// <param name="M12">Row 1, column 2.</param>
/// <param name="M21">Row 2, column 1.</param>
/// <param name="M22">Row 2, column 2.</param>
public readonly record struct TwoPortMatrix(Complex M11, Complex M12, Complex M21, Complex M22)
{
    /// <summary>The unit matrix.</summary>
    public static TwoPortMatrix Identity { get; } = new(Complex.One, Complex.Zero, Complex.Zero, Complex.One);

    /// <summary>The determinant.</summary>
    public Complex Determinant => (M11 * M22) - (M12 * M21);

    /// <summary>The matrix product.</summary>
    public static TwoPortMatrix operator *(TwoPortMatrix a, TwoPortMatrix b) => new(
        (a.M11 * b.M11) + (a.M12 * b.M21),
        (a.M11 * b.M12) + (a.M12 * b.M22),
        (a.M21 * b.M11) + (a.M22 * b.M21),
        (a.M21 * b.M12) + (a.M22 * b.M22));

    /// <summary>The sum.</summary>
    public static TwoPortMatrix operator +(TwoPortMatrix a, TwoPortMatrix b) =>
        new(a.M11 + b.M11, a.M12 + b.M12, a.M21 + b.M21, a.M22 + b.M22);

    /// <summary>The difference.</summary>
    public static TwoPortMatrix operator -(TwoPortMatrix a, TwoPortMatrix b) =>
        new(a.M11 - b.M11, a.M12 - b.M12, a.M21 - b.M21, a.M22 - b.M22);

    /// <summary>The inverse; null where there is none (determinant 0, or so near it that an element overflows).</summary>
    public TwoPortMatrix? Inverse()
    {
        Complex d = Determinant;
        if (d == Complex.Zero)
        {
            return null;
        }

        TwoPortMatrix inverse = new(M22 / d, -M12 / d, -M21 / d, M11 / d);
        return inverse.IsFinite ? inverse : null;
    }

    /// <summary>Whether every element is a finite number.</summary>
    public bool IsFinite => Complex.IsFinite(M11) && Complex.IsFinite(M12) && Complex.IsFinite(M21) && Complex.IsFinite(M22);
}
