namespace Spurless.Design.Layout;

/// <summary>Mutual inductance of air coils: what couples the tanks of a filter without being in its drawing.</summary>
public static class MutualInductance
{
    private const double Mu0 = 4e-7 * Math.PI;

    /// <summary>Two circular filaments on one axis.</summary>
    /// <param name="firstM">Radius of the first in metres, above 0.</param>
    /// <param name="secondM">Radius of the second in metres, above 0.</param>
    /// <param name="distanceM">Distance of their planes in metres; above 0 where the radii are equal.</param>
    /// <returns>Henries.</returns>
    /// <remarks>
    /// Maxwell's formula (Treatise on Electricity and Magnetism, 1873, article 701; from memory): <c>M = mu0 sqrt(a b) [(2/k - k) K(k) -
    /// (2/k) E(k)]</c>,
    /// <c>k^2 = 4 a b/((a + b)^2 + d^2)</c>, the complete elliptic integrals by the arithmetic-geometric mean. Held to Neumann's double
    /// integral by a test.
    /// </remarks>
    public static double CoaxialLoops(double firstM, double secondM, double distanceM)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(firstM);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(secondM);
        double k2 = 4 * firstM * secondM / (((firstM + secondM) * (firstM + secondM)) + (distanceM * distanceM)), k = Math.Sqrt(k2);
        (double first, double second) = Elliptic(k2);
        return Mu0 * Math.Sqrt(firstM * secondM) * ((((2 / k) - k) * first) - (2 / k * second));
    }

    /// <summary>Two single-layer coils on one axis, turn by turn.</summary>
    /// <param name="first">Turns, mean diameter and length in metres of the first.</param>
    /// <param name="second">The same of the second.</param>
    /// <param name="distanceM">Distance of their middles in metres, so far that they do not overlap.</param>
    public static double CoaxialCoils((int Turns, double DiameterM, double LengthM) first,
        (int Turns, double DiameterM, double LengthM) second, double distanceM)
    {
        double sum = 0;
        for (int i = 0; i < first.Turns; i++)
        {
            double a = first.LengthM * (((i + 0.5) / first.Turns) - 0.5);
            for (int j = 0; j < second.Turns; j++)
            {
                double b = distanceM + (second.LengthM * (((j + 0.5) / second.Turns) - 0.5));
                sum += CoaxialLoops(first.DiameterM / 2, second.DiameterM / 2, Math.Abs(b - a));
            }
        }

        return sum;
    }

    /// <summary>Two coils side by side with parallel axes, seen as magnetic dipoles: <c>-mu0 N1 A1 N2 A2/(4 pi d^3)</c>.</summary>
    /// <param name="first">Turns, mean diameter and length in metres of the first.</param>
    /// <param name="second">The same of the second.</param>
    /// <param name="distanceM">Distance of their axes in metres; true within a tenth from three times the greater of diameter and length
    /// on.</param>
    /// <returns>Henries; negative: the field of the one passes the other backwards.</returns>
    public static double ParallelCoils((int Turns, double DiameterM, double LengthM) first,
        (int Turns, double DiameterM, double LengthM) second, double distanceM)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(distanceM);
        double Area((int Turns, double DiameterM, double LengthM) c) => c.Turns * Math.PI * c.DiameterM * c.DiameterM / 4;
        return -Mu0 * Area(first) * Area(second) / (4 * Math.PI * distanceM * distanceM * distanceM);
    }

    // Complete elliptic integrals K and E of modulus k, k^2 below 1, to the last digits.
    private static (double K, double E) Elliptic(double k2)
    {
        double a = 1, g = Math.Sqrt(1 - k2), c2 = k2, sum = c2 / 2, power = 1;
        while (Math.Abs(a - g) > 1e-16 * a && power < 1e6)
        {
            double next = (a + g) / 2, c = (a - g) / 2;
            g = Math.Sqrt(a * g);
            a = next;
            sum += power * c * c;
            power *= 2;
        }

        double first = Math.PI / (2 * a);
        return (first, first * (1 - sum));
    }
}
