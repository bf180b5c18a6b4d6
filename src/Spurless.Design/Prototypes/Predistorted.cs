using System.Numerics;

namespace Spurless.Design.Prototypes;

/// <summary>
/// A prototype whose response is that of Butterworth or Chebyshev once all its elements have one and the same loss: its corners stay sharp,
/// and the price is a loss that is the same at every frequency.
/// </summary>
/// <remarks>
/// S. Darlington, 'Synthesis of reactance 4-poles', J. Math. Phys. 18, 1939; M. Dishal, 'Design of dissipative band-pass filters producing
/// desired exact amplitude-frequency characteristics', Proc. IRE 37, 1949 (both from memory). An element of value g with the loss d behaves
/// as one without at <c>s + d</c>: so the poles are moved by d towards the right beforehand. The lossless two-port of the moved poles with
/// the greatest gain there is, <c>K^2 = min |E(jw)|^2</c>, is made a ladder by Feldtkeller's equation and a continued fraction.
/// </remarks>
/// <param name="Prototype">The element values; of unequal ends. Its ripple and loss are those that it has with the loss d in it.</param>
/// <param name="Dissipation">The loss d of every element, relative to the edge: <c>1/(w Qu)</c> of a band-pass filter.</param>
/// <param name="FlatLossDb">Loss in dB with which the whole response is shifted.</param>
public sealed record Predistorted(Prototype Prototype, double Dissipation, double FlatLossDb)
{
    /// <summary>So near to the poles' own distance from the axis the flat loss is past all use.</summary>
    private const double MostShare = 0.95;

    private const int ScanPoints = 4000;

    /// <summary>Butterworth's; null where so much loss leaves no filter.</summary>
    /// <param name="order">2 to 5.</param>
    /// <param name="dissipation">The loss of every element, above 0.</param>
    public static Predistorted? Butterworth(int order, double dissipation) =>
        Of(null, [.. Angles(order).Select(static a => -Complex.FromPolarCoordinates(1, a))], dissipation, 1);

    /// <summary>Chebyshev's; null where so much loss leaves no filter.</summary>
    /// <param name="order">2 to 5.</param>
    /// <param name="rippleDb">Ripple in dB, above 0.</param>
    /// <param name="dissipation">The loss of every element, above 0.</param>
    public static Predistorted? Chebyshev(int order, double rippleDb, double dissipation)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rippleDb);
        double epsilon = Math.Sqrt(Math.Pow(10, rippleDb / 10) - 1), a = Math.Asinh(1 / epsilon) / order;
        Complex[] poles = [.. Angles(order).Select(t => new Complex(-Math.Sinh(a) * Math.Cos(t), Math.Cosh(a) * Math.Sin(t)))];
        return Of(rippleDb, poles, dissipation, 1 / (epsilon * Math.Pow(2, order - 1)));
    }

    // Angles of the poles from the negative real axis.
    private static IEnumerable<double> Angles(int order)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(order, 5);
        return Enumerable.Range(0, order).Select(i => ((2 * i) + 1 - order) * Math.PI / (2 * order));
    }

    private static Predistorted? Of(double? rippleDb, Complex[] poles, double dissipation, double leastOfShape)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(dissipation);
        if (dissipation >= MostShare * poles.Min(static p => -p.Real))
        {
            return null;
        }

        double[] e = Real(poles.Select(p => p + dissipation)), power = PowerOf(e);
        double at = Lowest(power), least = At(power, at);
        double[] f = Reflection(power, at, least);
        return Ladder(e, f, rippleDb) is { } prototype
            ? new(prototype, dissipation, 20 * Math.Log10(leastOfShape / Math.Sqrt(least)))
            : null;
    }

    // The real polynomial of given zeros, lowest power first.
    private static double[] Real(IEnumerable<Complex> zeros)
    {
        Complex[] p = [Complex.One];
        foreach (Complex zero in zeros)
        {
            Complex[] next = new Complex[p.Length + 1];
            for (int i = 0; i < p.Length; i++)
            {
                next[i + 1] += p[i];
                next[i] -= zero * p[i];
            }

            p = next;
        }

        return [.. p.Select(static c => c.Real)];
    }

    // |E(jw)|^2 as a polynomial in u = w^2: even part squared, and u times the odd part squared.
    private static double[] PowerOf(double[] e)
    {
        double[] power = new double[e.Length];
        for (int i = 0; i < e.Length; i++)
        {
            for (int k = 0; k < e.Length; k++)
            {
                if ((i + k) % 2 == 0)
                {
                    // j^i times the conjugate of j^k.
                    power[(i + k) / 2] += e[i] * e[k] * ((i - k) / 2 % 2 == 0 ? 1 : -1);
                }
            }
        }

        return power;
    }

    private static double At(double[] p, double x)
    {
        double sum = 0;
        for (int i = p.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + p[i];
        }

        return sum;
    }

    // Where on u from 0 a power is least: 0, or a zero of its derivative.
    private static double Lowest(double[] power)
    {
        double best = 0;
        for (int i = 1; i <= ScanPoints; i++)
        {
            double u = 1.5 * i / ScanPoints;
            best = At(power, u) < At(power, best) ? u : best;
        }

        if (best == 0)
        {
            return 0;
        }

        double[] slope = Derivative(power), bend = Derivative(slope);
        for (int i = 0; i < 60; i++)
        {
            double step = At(slope, best) / At(bend, best);
            best -= step;
            if (Math.Abs(step) < 1e-16)
            {
                break;
            }
        }

        return best > 0 ? best : 0;
    }

    private static double[] Derivative(double[] p) => [.. p.Skip(1).Select(static (c, i) => c * (i + 1))];

    // F of F F* = E E* - K^2, all its zeros to the left or on the axis. The double zero where all power passes is taken out beforehand.
    private static double[] Reflection(double[] power, double at, double least)
    {
        double[] rest = [.. power];
        rest[0] -= least;
        rest = Without(rest, at);
        List<Complex> zeros = [];
        if (at > 0)
        {
            rest = Without(rest, at);
            zeros.AddRange([new Complex(0, Math.Sqrt(at)), new Complex(0, -Math.Sqrt(at))]);
        }
        else
        {
            zeros.Add(Complex.Zero);
        }

        foreach (Complex u in Zeros(rest))
        {
            Complex s = Complex.Sqrt(-u);
            zeros.Add(s.Real > 0 ? -s : s);
        }

        return Real(zeros);
    }

    // Division by (u - zero).
    private static double[] Without(double[] p, double zero)
    {
        double[] q = new double[p.Length - 1];
        double carry = 0;
        for (int i = q.Length - 1; i >= 0; i--)
        {
            carry = p[i + 1] + (carry * zero);
            q[i] = carry;
        }

        return q;
    }

    // All zeros of a polynomial of few powers together (Durand and Kerner; from memory).
    private static Complex[] Zeros(double[] p)
    {
        int n = p.Length - 1;
        Complex[] z = [.. Enumerable.Range(0, n).Select(static i => Complex.Pow(new Complex(0.4, 0.9), i))];
        for (int round = 0; round < 500; round++)
        {
            double moved = 0;
            for (int i = 0; i < n; i++)
            {
                Complex value = Complex.Zero, others = p[n];
                for (int k = n; k >= 0; k--)
                {
                    value = (value * z[i]) + p[k];
                }

                for (int k = 0; k < n; k++)
                {
                    others *= k == i ? Complex.One : z[i] - z[k];
                }

                Complex step = value / others;
                z[i] -= step;
                moved = Math.Max(moved, step.Magnitude);
            }

            if (moved < 1e-15)
            {
                break;
            }
        }

        return z;
    }

    // (E + F)/(E - F) as a continued fraction: element after element, and what is left is the load.
    private static Prototype? Ladder(double[] e, double[] f, double? rippleDb)
    {
        int n = e.Length - 1;
        double[] over = [.. e.Zip(f, static (a, b) => a + b)], under = [.. e.Zip(f, static (a, b) => a - b).Take(n)];
        double[] g = new double[n + 2];
        g[0] = 1;
        for (int i = 1; i <= n; i++)
        {
            g[i] = over[^1] / under[^1];
            double[] left = new double[under.Length];
            for (int k = 0; k < left.Length; k++)
            {
                left[k] = over[k] - (k > 0 ? g[i] * under[k - 1] : 0);
            }

            (over, under) = (under, left[..^1]);
            if (i == n)
            {
                g[n + 1] = over[0] / left[0];
            }
        }

        return Array.TrueForAll(g, static v => v > 0 && double.IsFinite(v)) ? Prototype.Of(g, rippleDb) : null;
    }
}
