using System.Numerics;
using Spurless.Circuits.Coils;

namespace Spurless.Circuits.Tests.Coils;

/// <summary>A coil's inductance at the frequency asked for.</summary>
public sealed class CoilAtFrequencyTests
{
    [Theory]
    [InlineData(10.0)]
    [InlineData(3e3)]
    [InlineData(20e3)]
    [InlineData(100e3)]
    public void Internal_inductance_is_that_of_the_exact_series(double hertz)
    {
        // Z = rho z I0(z) / (2 pi a^2 I1(z)), z = (1 + j) a / delta, by the Bessel functions' power series.
        const double Radius = 0.5e-3;
        Complex z = new Complex(1, 1) * (Radius / Conductor.Copper.SkinDepthM(hertz)), quarter = z * z / 4;
        Complex i0 = 1, i1 = z / 2, t0 = 1, t1 = z / 2;
        for (int k = 1; k < 60; k++)
        {
            t0 *= quarter / (k * k);
            t1 *= quarter / (k * (k + 1));
            (i0, i1) = (i0 + t0, i1 + t1);
        }

        double exact = (Conductor.Copper.ResistivityOhmM * z * i0 / (2 * Math.PI * Radius * Radius * i1)).Imaginary / (2 * Math.PI * hertz);
        Assert.Equal(exact, RoundWire.InternalHenryPerMetre(Conductor.Copper, 2 * Radius, hertz), 1e-9 * exact);
    }

    [Fact]
    public void Internal_inductance_has_both_textbook_limits()
    {
        // mu0/(8 pi) = 50 nH/m where the current fills the wire; resistance over omega where it is a skin.
        Assert.Equal(50e-9, RoundWire.InternalHenryPerMetre(Conductor.Copper, 1e-3, 1), 1e-12);
        double thin = RoundWire.OhmPerMetre(Conductor.Copper, 1e-3, 1e9) / (2 * Math.PI * 1e9);
        Assert.Equal(thin, RoundWire.InternalHenryPerMetre(Conductor.Copper, 1e-3, 1e9), 0.01 * thin);
        Assert.Equal(1.09e-9, RoundWire.InternalHenryPerMetre(Conductor.Copper, 1e-3, 146e6), 0.01e-9);
    }

    [Fact]
    public void Coil_at_146_MHz_has_lost_the_inside_of_its_wire()
    {
        CoilGeometry geometry = new(2, 7e-3, 3.8e-3, 1e-3, 2e-3);
        CoilResult slow = CoilCalculator.Compute(geometry), coil = CoilCalculator.Compute(geometry, 146e6);
        Assert.Null(slow.InductanceAtFrequencyH);

        // 44.15 mm of wire in the winding, 48.9 nH/m less: 2.16 nH of 27.5 (hand).
        double less = coil.InductanceH + coil.LeadInductanceH - coil.InductanceAtFrequencyH!.Value;
        Assert.Equal(2.16e-9, less, 0.01e-9);
        double w = 2 * Math.PI * 146e6, l = coil.InductanceAtFrequencyH.Value;
        Assert.Equal(l / (1 - (w * w * l * coil.SelfCapacitanceF)), coil.ApparentInductanceH!.Value, 1e-15);
        Assert.InRange(coil.FormulaSigma!.Value, 0.02, 0.10);
        Assert.Null(CoilCalculator.Compute(geometry, 1.1 * coil.SelfResonanceHz).ApparentInductanceH);

        // At low frequency it is the calculator's own, and the formulas are good to a per cent.
        CoilResult low = CoilCalculator.Compute(geometry, 100);
        Assert.Equal(low.InductanceH + low.LeadInductanceH, low.InductanceAtFrequencyH!.Value, 1e-13);
        Assert.Equal(0.01, low.FormulaSigma!.Value, 1e-12);
    }

    /// <summary>
    /// Q is the reactance of the inductance at the frequency over the resistance (definition); at the ends it is that of the coil in
    /// parallel with its self-capacitance, which here is solved as a network: Im Z / Re Z.
    /// </summary>
    [Theory]
    [InlineData(2, 7e-3, 3.8e-3, 1e-3, 2e-3, 146e6)]
    [InlineData(8, 10e-3, 20e-3, 1.6e-3, 0, 70e6)]
    public void Q_is_of_the_inductance_at_the_frequency(
        double turns, double diameter, double length, double wire, double lead, double hertz)
    {
        CoilResult coil = CoilCalculator.Compute(new(turns, diameter, length, wire, lead), hertz);
        double w = 2 * Math.PI * hertz;
        Assert.Equal(w * coil.InductanceAtFrequencyH!.Value / coil.ResistanceOhm!.Value, coil.Q!.Value, 1e-9);
        Complex winding = new(coil.ResistanceOhm.Value, w * coil.InductanceAtFrequencyH.Value);
        Complex seen = winding / (1 + (new Complex(0, w * coil.SelfCapacitanceF) * winding));

        // To first order in 1/Q, as the definition is.
        Assert.Equal(seen.Imaginary / seen.Real, coil.ApparentQ!.Value, 1e-3 * coil.ApparentQ.Value);
        Assert.Null(CoilCalculator.Compute(coil.Geometry, 1.1 * coil.SelfResonanceHz).ApparentQ);
    }
}
