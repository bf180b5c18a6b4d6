using Spurless.Design.Layout;

namespace Spurless.Design.Tests.Layout;

/// <summary>Mutual inductance where everything is known: far away, scaled, turned round, and of one coil cut in two.</summary>
public class MutualLimitsTests
{
    private const double Mu0 = 4e-7 * Math.PI;

    private static (int Turns, double DiameterM, double LengthM) Coil(Random random) =>
        (random.Next(1, 12), 3e-3 + (12e-3 * random.NextDouble()), 2e-3 + (15e-3 * random.NextDouble()));

    /// <summary>
    /// Far away two coils on one axis are dipoles, <c>mu0 m1 m2/(2 pi d^3)</c>: twice what they are side by side, and of the other sign.
    /// </summary>
    [Fact]
    public void CoaxialCoils_far_away_are_twice_the_coils_side_by_side()
    {
        Random random = new(3);
        for (int i = 0; i < 40; i++)
        {
            (var one, var other) = (Coil(random), Coil(random));
            const double far = 2;
            double axis = MutualInductance.CoaxialCoils(one, other, far), side = MutualInductance.ParallelCoils(one, other, far);
            double area = one.Turns * other.Turns * Math.Pow(Math.PI / 4 * one.DiameterM * other.DiameterM, 2);
            Assert.Equal(1, axis / (Mu0 * area / (2 * Math.PI * far * far * far)), 1e-3);
            Assert.Equal(-2, axis / side, 2e-3);
        }
    }

    /// <summary>
    /// Lengths alone are in it; far off the closed form of loops loses digits, as the difference of two nearly equal integrals.
    /// </summary>
    [Fact]
    public void Coils_k_times_as_large_and_as_far_have_k_times_as_much()
    {
        Random random = new(5);
        for (int i = 0; i < 40; i++)
        {
            (var one, var other) = (Coil(random), Coil(random));
            double d = 0.02 + (0.2 * random.NextDouble()), k = 0.2 + (4 * random.NextDouble());
            (int, double, double) Large((int Turns, double DiameterM, double LengthM) c) => (c.Turns, k * c.DiameterM, k * c.LengthM);
            Assert.Equal(1, MutualInductance.CoaxialCoils(Large(one), Large(other), k * d)
                / (k * MutualInductance.CoaxialCoils(one, other, d)), 1e-6);
            Assert.Equal(1, MutualInductance.ParallelCoils(Large(one), Large(other), k * d)
                / (k * MutualInductance.ParallelCoils(one, other, d)), 1e-6);
            Assert.Equal(1, MutualInductance.CoaxialCoils(other, one, d) / MutualInductance.CoaxialCoils(one, other, d), 1e-6);
        }
    }

    /// <summary>A coil of n turns seen from outside is its n loops; cut in the middle it is its halves.</summary>
    [Fact]
    public void A_coil_is_the_sum_of_its_parts()
    {
        Random random = new(9);
        for (int i = 0; i < 20; i++)
        {
            (int Turns, double DiameterM, double LengthM) one = Coil(random) with { Turns = 2 * random.Next(1, 6) }, other = Coil(random);
            double d = 0.06 + (0.2 * random.NextDouble());
            (int, double, double) half = (one.Turns / 2, one.DiameterM, one.LengthM / 2);
            double whole = MutualInductance.CoaxialCoils(one, other, d);
            double halves = MutualInductance.CoaxialCoils(half, other, d - (one.LengthM / 4))
                + MutualInductance.CoaxialCoils(half, other, d + (one.LengthM / 4));
            Assert.Equal(1, halves / whole, 1e-9);
            double nearer = MutualInductance.CoaxialCoils(one, other, d * 0.9);
            Assert.True(nearer > whole && whole > 0);
        }
    }

    /// <summary>
    /// No coupling of two loops exceeds what their self-inductances allow; loops of one size that close up come near a wire's own.
    /// </summary>
    [Fact]
    public void Loops_never_couple_more_than_fully()
    {
        Random random = new(11);
        for (int i = 0; i < 200; i++)
        {
            double a = 2e-3 + (10e-3 * random.NextDouble()), b = 2e-3 + (10e-3 * random.NextDouble()), wire = 0.2e-3;
            double d = 0.5e-3 + (5e-3 * random.NextDouble());

            // Self-inductance of a loop of round wire at high frequency: mu0 a (ln(16 a/wire) - 2), wire its diameter (textbook, from
            // memory).
            double Self(double r) => Mu0 * r * (Math.Log(16 * r / wire) - 2);
            double k = MutualInductance.CoaxialLoops(a, b, d) / Math.Sqrt(Self(a) * Self(b));
            Assert.InRange(k, 0, 1);
        }
    }
}
