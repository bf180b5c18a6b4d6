using System.Numerics;

namespace Spurless.Circuits.TwoPorts;

/// <summary>
/// The S-parameters of a two-port at one frequency, as plain ratios, time convention e^{+jwt}. S21 is the transmission from port 1 to port
/// 2. The reference impedance is not part of it: whoever holds one says so. Waves are power waves, see <see cref="TwoPortAlgebra"/>.
/// </summary>
/// <param name="S11">Reflection at port 1.</param>
/// <param name="S12">Transmission from port 2 to port 1.</param>
/// <param name="S21">Transmission from port 1 to port 2.</param>
/// <param name="S22">Reflection at port 2.</param>
public readonly record struct ScatteringMatrix(Complex S11, Complex S12, Complex S21, Complex S22)
{
    /// <summary>A through connection between equal references.</summary>
    public static ScatteringMatrix Through { get; } = new(Complex.Zero, Complex.One, Complex.One, Complex.Zero);

    /// <summary>Determinant <c>S11 S22 - S12 S21</c>.</summary>
    public Complex Determinant => (S11 * S22) - (S12 * S21);

    /// <summary>Insertion loss in dB from port 1 to port 2, <c>-20 lg |S21|</c>; positive infinity where nothing passes.</summary>
    public double InsertionLossDb => -20 * Math.Log10(S21.Magnitude);

    /// <summary>Return loss of port 1 in dB, <c>-20 lg |S11|</c>.</summary>
    public double ReturnLoss1Db => -20 * Math.Log10(S11.Magnitude);

    /// <summary>Return loss of port 2 in dB, <c>-20 lg |S22|</c>.</summary>
    public double ReturnLoss2Db => -20 * Math.Log10(S22.Magnitude);

    /// <summary>The same two-port seen from the other side.</summary>
    public ScatteringMatrix Reversed => new(S22, S21, S12, S11);

    /// <summary>Linear on the complex parameters, from one two-port to another.</summary>
    /// <param name="from">At 0.</param>
    /// <param name="to">At 1.</param>
    /// <param name="part">How far, 0 to 1.</param>
    public static ScatteringMatrix Between(ScatteringMatrix from, ScatteringMatrix to, double part) => new(
        from.S11 + (part * (to.S11 - from.S11)),
        from.S12 + (part * (to.S12 - from.S12)),
        from.S21 + (part * (to.S21 - from.S21)),
        from.S22 + (part * (to.S22 - from.S22)));

    /// <summary>Whether every parameter is a finite number.</summary>
    public bool IsFinite => Complex.IsFinite(S11) && Complex.IsFinite(S12) && Complex.IsFinite(S21) && Complex.IsFinite(S22);

    /// <summary>
    /// The largest singular value: the square root of the greatest ratio of power leaving to power entering. Above 1 the two-port is not
    /// passive.
    /// </summary>
    public double LargestSingularValue
    {
        get
        {
            // Eigenvalues of the Hermitian S^H S, [p, q; q*, r].
            double p = Norm(S11) + Norm(S21);
            double r = Norm(S12) + Norm(S22);
            double q = Norm((Complex.Conjugate(S11) * S12) + (Complex.Conjugate(S21) * S22));
            double half = (p - r) / 2;
            return Math.Sqrt(((p + r) / 2) + Math.Sqrt((half * half) + q));
        }
    }

    private static double Norm(Complex z) => (z.Real * z.Real) + (z.Imaginary * z.Imaginary);
}
