using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Measured;

/// <summary>
/// The delay of a line in front of each port with which the phases of a sweep turn least from point to point. Taken out before, and put
/// back after,
/// interpolation, it lets a long cable be interpolated as well as a short one.
/// </summary>
/// <remarks>
/// Each S-parameter gives the median of <c>-d arg S/dw</c> between neighbouring points, weighted by its magnitude; twice port 1's delay
/// (S11), twice port
/// 2's (S22) and the sum of both (S21, S12) are fitted to these by least squares, weighted by power. The shift multiplies S by a phase on
/// either side,
/// which keeps a passive network passive. Steps of over half a turn cannot be told from smaller ones: <see cref="SweepDensity"/> says so.
/// </remarks>
/// <param name="FirstS">Port 1, in seconds.</param>
/// <param name="SecondS">Port 2, in seconds.</param>
public readonly record struct PortDelays(double FirstS, double SecondS)
{
    /// <summary>The delays of a sweep.</summary>
    /// <param name="ports">1 or 2.</param>
    /// <param name="frequenciesHz">Frequencies in hertz, rising.</param>
    /// <param name="points">S at each.</param>
    internal static PortDelays Of(int ports, ReadOnlySpan<double> frequenciesHz, ReadOnlySpan<ScatteringMatrix> points)
    {
        if (frequenciesHz.Length < 3)
        {
            return default;
        }

        (double d11, double w11) = Delay(frequenciesHz, points, static s => s.S11);
        if (ports == 1)
        {
            return new PortDelays(d11 / 2, 0);
        }

        (double d22, double w22) = Delay(frequenciesHz, points, static s => s.S22);
        (double d21, double w21) = Delay(frequenciesHz, points, static s => s.S21);
        (double d12, double w12) = Delay(frequenciesHz, points, static s => s.S12);
        double w = w21 + w12, d = w > 0 ? ((d21 * w21) + (d12 * w12)) / w : 0;

        // Normal equations of 2 t1 = d11, 2 t2 = d22, t1 + t2 = d; a grain of 'both alike' where only the sum is known.
        double grain = 1e-9 * (w11 + w22 + w + 1e-30);
        double a11 = (4 * w11) + w + grain, a22 = (4 * w22) + w + grain, a12 = w - grain;
        double b1 = (2 * w11 * d11) + (w * d), b2 = (2 * w22 * d22) + (w * d), determinant = (a11 * a22) - (a12 * a12);
        return determinant > 0 ? new PortDelays(((a22 * b1) - (a12 * b2)) / determinant, ((a11 * b2) - (a12 * b1)) / determinant) : default;
    }

    /// <summary>S with the lines taken out (1) or put back (-1).</summary>
    internal ScatteringMatrix Shift(in ScatteringMatrix s, double frequencyHz, int sign)
    {
        double turn = sign * 2 * Math.PI * frequencyHz;
        Complex first = Complex.FromPolarCoordinates(1, turn * FirstS), second = Complex.FromPolarCoordinates(1, turn * SecondS), both =
            first * second;
        return new ScatteringMatrix(s.S11 * first * first, s.S12 * both, s.S21 * both, s.S22 * second * second);
    }

    private static (double Delay, double Weight) Delay(ReadOnlySpan<double> f, ReadOnlySpan<ScatteringMatrix> points, Func<ScatteringMatrix,
        Complex> of)
    {
        (double Delay, double Weight)[] steps = new (double, double)[f.Length - 1];
        double power = 0;
        for (int i = 0; i + 1 < f.Length; i++)
        {
            Complex a = of(points[i]), b = of(points[i + 1]), product = b * Complex.Conjugate(a);
            steps[i] = (-product.Phase / (2 * Math.PI * (f[i + 1] - f[i])), Math.Sqrt(product.Magnitude));
            power += product.Magnitude;
        }

        if (!(power > 0))
        {
            return (0, 0);
        }

        Array.Sort(steps, static (p, q) => p.Delay.CompareTo(q.Delay));
        double whole = steps.Sum(static s => s.Weight), sum = 0;
        foreach ((double delay, double weight) in steps)
        {
            sum += weight;
            if (sum >= whole / 2)
            {
                return (delay, power);
            }
        }

        return (steps[^1].Delay, power);
    }
}
