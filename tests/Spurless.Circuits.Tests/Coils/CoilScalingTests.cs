using CsCheck;
using Spurless.Circuits.Coils;

namespace Spurless.Circuits.Tests.Coils;

/// <summary>How coils and resonators scale: dimensional analysis, and limits of a textbook.</summary>
public sealed class CoilScalingTests
{
    private const double Mu0 = 4e-7 * Math.PI;

    private static readonly Gen<CoilGeometry> _coils = Gen.Select(
        Gen.Double[2, 20], Gen.Double[3e-3, 30e-3], Gen.Double[1.2, 4],
            Gen.Double[0.02, 0.15]).Select(static (turns, diameter, spacing, wire) =>
        {
            double wireM = diameter * wire;
            return new CoilGeometry(turns, diameter, turns * spacing * wireM, wireM);
        });

    /// <summary>
    /// A coil k times as large in everything: inductance and self-capacitance k times (both are lengths times a constant of the field), its
    /// self-resonance k times lower; at a k^2 times lower frequency the skin is k times as deep, and the Q is the same.
    /// </summary>
    [Fact]
    public void Compute_of_a_coil_k_times_as_large() => Gen.Select(_coils, Gen.Double[0.3, 4]).Sample(static (coil, k) =>
    {
        CoilGeometry large = new(coil.Turns, coil.DiameterM * k, coil.LengthM * k, coil.WireM * k);
        CoilResult one = CoilCalculator.Compute(coil, 40e6), other = CoilCalculator.Compute(large, 40e6 / (k * k));
        Assert.Equal(1, other.InductanceH / (k * one.InductanceH), 1e-12);
        Assert.Equal(1, other.SheetInductanceH / (k * one.SheetInductanceH), 1e-12);
        Assert.Equal(1, other.SelfCapacitanceF / (k * one.SelfCapacitanceF), 1e-12);
        Assert.Equal(1, other.WireLengthM / (k * one.WireLengthM), 1e-12);
        Assert.Equal(one.ProximityFactor, other.ProximityFactor, 1e-12);

        // The skin has the same share of the wire: resistance 1/k times, w L 1/k times, and so the same Q, to the last digit.
        Assert.Equal(1, other.InductanceAtFrequencyH!.Value / (k * one.InductanceAtFrequencyH!.Value), 1e-9);
        Assert.Equal(1, k * other.ResistanceOhm!.Value / one.ResistanceOhm!.Value, 1e-9);
        Assert.Equal(1, other.Q!.Value / one.Q!.Value, 1e-9);
    });

    /// <summary>
    /// The self-resonance goes by the inductance at high frequency, of which the inside of the wire takes no part that scales: within 3 %.
    /// </summary>
    [Fact]
    public void Compute_self_resonance_is_that_of_its_own_L_and_C() => _coils.Sample(static coil =>
    {
        CoilResult result = CoilCalculator.Compute(coil);
        double plain = 1 / (2 * Math.PI * Math.Sqrt(result.InductanceH * result.SelfCapacitanceF));
        Assert.Equal(1, result.SelfResonanceHz / plain, 0.03);
    });

    /// <summary>Current sheets: N turns on one former go as N squared, and a long one comes to <c>mu0 N^2 A/l</c> from below.</summary>
    [Fact]
    public void SheetHenries_has_its_limits() => Gen.Select(Gen.Double[1, 50], Gen.Double[1e-3, 0.1], Gen.Double[0.02, 50]).Sample(
        static (turns, diameter, ratio) =>
        {
            double length = diameter * ratio;
            double sheet = CoilInductance.SheetHenries(turns, diameter, length);
            Assert.Equal(1, CoilInductance.SheetHenries(2 * turns, diameter, length) / (4 * sheet), 1e-12);
            double solenoid = Mu0 * turns * turns * Math.PI * diameter * diameter / 4 / length;
            Assert.InRange(sheet / solenoid, 0, 1);

            // Two terms of the long solenoid's series, 1 - 4/(3 pi) D/l + (D/l)^2/8 (textbook, from memory): the next is under (D/l)^4/60;
            // 3e-6 are the closed form's.
            double u = 1 / ratio;
            if (u < 1)
            {
                Assert.Equal(1 - (4 / (3 * Math.PI) * u) + (u * u / 8), sheet / solenoid, (Math.Pow(u, 4) / 60) + 3e-6);
            }

            // Longer at the same turns is less, wider is more, and half of it is less than half: its halves help each other.
            Assert.True(CoilInductance.SheetHenries(turns, diameter, length * 1.01) < sheet);
            Assert.True(CoilInductance.SheetHenries(turns, diameter * 1.01, length) > sheet);
            Assert.True(2 * CoilInductance.SheetHenries(turns / 2, diameter, length / 2) < sheet);
        }, iter: 300);

    /// <summary>
    /// Neumann's integral over two sheets side by side: L of the whole less L of both halves is twice their mutual inductance, here summed
    /// ring by ring in plain quadrature (Maxwell's formula for two rings written as its integral).
    /// </summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(1)]
    [InlineData(3)]
    public void SheetHenries_of_two_halves_differs_by_their_mutual_inductance(double lengthOverDiameter)
    {
        const double diameter = 0.01, turns = 10;
        const int rings = 60;
        double length = diameter * lengthOverDiameter, half = length / 2;
        double mutual = 0;
        for (int i = 0; i < rings; i++)
        {
            for (int k = 0; k < rings; k++)
            {
                double apart = half + ((k - i) * half / rings);
                mutual += Rings(diameter / 2, apart) * (turns / 2 / rings) * (turns / 2 / rings);
            }
        }

        double whole = CoilInductance.SheetHenries(turns, diameter, length);
        double parts = 2 * CoilInductance.SheetHenries(turns / 2, diameter, half);
        Assert.Equal(1, (whole - parts) / (2 * mutual), 0.01);
    }

    // M = mu0 r^2 / 2 times the integral over the angle of cos t / sqrt(2 r^2 (1 - cos t) + z^2), from 0 to 2 pi.
    private static double Rings(double radius, double apart)
    {
        const int steps = 400;
        double sum = 0;
        for (int i = 0; i < steps; i++)
        {
            double t = 2 * Math.PI * (i + 0.5) / steps;
            sum += Math.Cos(t) / Math.Sqrt((2 * radius * radius * (1 - Math.Cos(t))) + (apart * apart));
        }

        return Mu0 * radius * radius / 2 * sum * 2 * Math.PI / steps;
    }

    [Fact]
    public void Leads_longer_or_thinner_have_more() =>
        Gen.Select(Gen.Double[1e-3, 0.1], Gen.Double[2e-4, 3e-3]).Sample(static (lead, wire) =>
    {
        double one = CoilInductance.LeadHenries(lead, wire);
        Assert.True(one >= 0);
        Assert.True(CoilInductance.LeadHenries(lead * 1.1, wire) >= one);
        Assert.True(CoilInductance.LeadHenries(lead, wire * 0.9) >= one);
        Assert.Equal(3 * one, CoilInductance.LeadHenries(lead * 3, wire * 3), 1e-15);
    });

    /// <summary>Skin depth <c>sqrt(2 rho/(w mu0))</c> and the resistance of a square of surface, rho over it (textbook).</summary>
    [Fact]
    public void Skin_of_a_conductor_goes_with_the_roots() =>
        Gen.Select(Gen.Double[1e-8, 1e-7], Gen.Double[1e6, 1e9]).Sample(static (rho, hertz) =>
    {
        Conductor metal = new("any", rho);
        double depth = Math.Sqrt(2 * rho / (2 * Math.PI * hertz * Mu0));
        Assert.Equal(1, metal.SkinDepthM(hertz) / depth, 1e-9);
        Assert.Equal(1, metal.SurfaceOhm(hertz) * depth / rho, 1e-9);
        Assert.Equal(1, metal.SurfaceOhm(4 * hertz) / (2 * metal.SurfaceOhm(hertz)), 1e-9);
    });
}
