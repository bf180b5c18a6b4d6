using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Solving;

/// <summary>
/// Identities that tie three computations to each other which share no code: S-parameters, their derivatives by the parts' values, and the
/// currents and voltages of the parts.
/// </summary>
public sealed class EnergyIdentityTests
{
    private static readonly Gen<Circuit> _lossless =
        RandomCircuits.Of(new(Lossy: false), 7).Select(static c => c with { Parts = [.. c.Parts.Select(Ideal)] });

    private static readonly Gen<Circuit> _resistive = RandomCircuits.Of(new(Lossy: true), 7).Select(static c => c with
    {
        Parts = [.. c.Parts.Select(static p => Ideal(p) switch { Inductor l => l with { Loss = null }, Capacitor k =>
            k with { Loss = null }, var o => o })],
    });

    /// <summary>
    /// Euler's theorem: frequency stands in a network of L, C and lines only as wL, wC and w times length, so that <c>sum x dS/dx = w
    /// dS/dw</c> over all of them.
    /// </summary>
    [Fact]
    public void Gradient_by_all_reactances_is_the_slope_over_frequency() => Gen.Select(
        RandomCircuits.Of(new(Lossy: false, Lines: true), 7).Select(static c => c with { Parts = [.. c.Parts.Select(Ideal)] }),
        RandomCircuits.Frequency).Sample(static (circuit, hertz) =>
    {
        (CircuitSolver solver, ScatteringMatrix _, Complex s11, Complex s21) = Euler(circuit, hertz, static _ => 1);
        (Complex d11, Complex d21, double spread) = Slope(f => solver.Solve([f])[0], hertz);
        Near(d11, s11, spread);
        Near(d21, s21, spread);
    }, iter: 150);

    /// <summary>
    /// The same by impedance: S knows only L/Z0, C Z0 and R/Z0, and Q is a plain number: <c>sum L dS/dL + sum R dS/dR - sum C dS/dC = -Z0
    /// dS/dZ0</c>.
    /// </summary>
    [Fact]
    public void Gradient_by_all_impedances_is_the_slope_over_the_port_s() => Gen.Select(
        RandomCircuits.Of(new(Lossy: true), 7).Select(static c => c with
        {
            Parts = [.. c.Parts.Select(static p => Ideal(p) switch
            {
                Inductor { Loss.SeriesResistanceOhm: not null } l => l with { Loss = null },
                Capacitor { Loss.SeriesResistanceOhm: not null } k => k with { Loss = null },
                var other => other,
            })],
        }),
        RandomCircuits.Frequency).Sample(static (circuit, hertz) =>
    {
        (_, _, Complex s11, Complex s21) = Euler(circuit, hertz, static q => q switch
        {
            CircuitQuantity.InductanceH or CircuitQuantity.ResistanceOhm => 1,
            CircuitQuantity.CapacitanceF => -1,
            _ => 0,
        });
        (Complex d11, Complex d21, double spread) = Slope(
            z => CircuitSolver.Create(circuit with { ImpedanceOhm = z }).Solve([hertz])[0], circuit.ImpedanceOhm);
        Near(-d11, s11, spread);
        Near(-d21, s21, spread);
    }, iter: 150);

    /// <summary>
    /// The energy stored in a lossless network for each watt that comes in at port 1, the other port matched, is <c>Re(j (S11* dS11/dw +
    /// S21* dS21/dw))</c>: the delay matrix of scattering theory (F. T. Smith, Phys. Rev. 118, 1960, from memory). In it are <c>L I^2/2</c>
    /// of each coil and <c>C V^2/2</c> of each capacitor, in rms values.
    /// </summary>
    [Fact]
    public void Stored_energy_is_the_delay_of_what_comes_in() =>
        Gen.Select(_lossless, RandomCircuits.Frequency).Sample(static (circuit, hertz) =>
    {
        const double watts = 3;
        (CircuitSolver solver, ScatteringMatrix s, _, _) = Euler(circuit, hertz, static _ => 1);
        (Complex d11, Complex d21, double spread) = Slope(f => solver.Solve([f])[0], hertz);
        double w = 2 * Math.PI * hertz;
        double delay = (Complex.ImaginaryOne * ((Complex.Conjugate(s.S11) * d11) + (Complex.Conjugate(s.S21) * d21))).Real / w;
        (double magnetic, double electric) = Energies(solver, hertz, watts);
        Assert.True(delay > 0);
        double off = Math.Abs((magnetic + electric) - (watts * delay));
        Assert.True(off < (1e-6 * watts * delay) + (1e-6 * watts * spread / w), $"{magnetic + electric} J against {watts * delay} J");
    }, iter: 150);

    /// <summary>
    /// Poynting's theorem for circuits: what the coils hold more than the capacitors is the reactive power at the port, <c>2 w (Wm - We) =
    /// 2 P Im S11</c> with a matched load, and resistors have no part in it.
    /// </summary>
    [Fact]
    public void Difference_of_the_energies_is_the_reactive_power() => Gen.Select(_resistive, RandomCircuits.Frequency).Sample(
        static (circuit, hertz) =>
    {
        const double watts = 20;
        CircuitSolver solver = CircuitSolver.Create(circuit);
        (double magnetic, double electric) = Energies(solver, hertz, watts);
        double expected = watts * solver.Solve([hertz])[0].S11.Imaginary / (2 * Math.PI * hertz);
        Assert.Equal(expected, magnetic - electric, 1e-8 * (magnetic + electric));
    }, iter: 200);

    /// <summary>
    /// A one-port of coils and capacitors alone has a susceptance that only rises, and by no less than <c>dB/dw = |B|/w</c>, what one coil
    /// or one capacitor has (R. M. Foster, 1924, in the form of the textbooks of network theory).
    /// </summary>
    [Fact]
    public void Susceptance_of_a_lossless_one_port_only_rises() =>
        Gen.Select(_lossless, RandomCircuits.Frequency).Sample(static (circuit, hertz) =>
    {
        // Both ports at one node see the shunt y (over Z0): S21 = 1/(1 + y/2).
        const double step = 1e-6;
        CircuitSolver solver = CircuitSolver.Create(circuit with { PortOut = circuit.PortIn });
        ScatteringMatrix[] s = solver.Solve([hertz, hertz * (1 + step)]);
        (Complex one, Complex two) = (2 * (1 - s[0].S21) / s[0].S21, 2 * (1 - s[1].S21) / s[1].S21);
        Assert.True(Math.Abs(one.Real) < 1e-9 * (1 + (one.Magnitude * one.Magnitude)), $"{one}");
        double rise = two.Imaginary - one.Imaginary, least = step * Math.Abs(one.Imaginary);
        bool pole = one.Imaginary > 1e3 && two.Imaginary < -1e3;
        Assert.True(pole || rise > (least * (1 - 1e-4)) - 1e-10, $"{rise} after {least}");
    }, iter: 400);

    private static Part Ideal(Part part) => part switch
    {
        Inductor l => l with { SelfCapacitanceF = 0 },
        Capacitor c => c with { SeriesInductanceH = 0 },
        _ => part,
    };

    private static (CircuitSolver Solver, ScatteringMatrix S, Complex S11, Complex S21) Euler(
        Circuit circuit, double hertz, Func<CircuitQuantity, double> weight)
    {
        CircuitSolver solver = CircuitSolver.Create(circuit);
        GradientBuffer gradient = new(solver, 1, GradientParts.All);
        ScatteringMatrix[] s = new ScatteringMatrix[1];
        double[] values = solver.NominalValues();
        Assert.Null(solver.SolveWithGradient([hertz], values, solver.CreateWorkspace(), s, gradient));
        Complex s11 = default, s21 = default;
        for (int p = 0; p < values.Length; p++)
        {
            double w = weight(solver.Parameters[p].Quantity) * values[p];
            s11 += w * gradient.S11(p, 0);
            s21 += w * gradient.S21(p, 0);
        }

        return (solver, s[0], s11, s21);
    }

    // x dS/dx by central differences in two steps (Richardson), and how much the two differ.
    private static (Complex S11, Complex S21, double Spread) Slope(Func<double, ScatteringMatrix> at, double x)
    {
        (Complex S11, Complex S21) Of(double h)
        {
            ScatteringMatrix up = at(x * (1 + h)), down = at(x * (1 - h));
            return ((up.S11 - down.S11) / (2 * h), (up.S21 - down.S21) / (2 * h));
        }

        (Complex a11, Complex a21) = Of(2e-4);
        (Complex b11, Complex b21) = Of(1e-4);
        return (((4 * b11) - a11) / 3, ((4 * b21) - a21) / 3,
            1 + b11.Magnitude + b21.Magnitude + (1e6 * ((a11 - b11).Magnitude + (a21 - b21).Magnitude) / 5));
    }

    private static void Near(Complex expected, Complex found, double spread) =>
        Assert.True((expected - found).Magnitude < 1e-6 * spread, $"{expected} by difference, {found} by the gradient");

    private static (double Magnetic, double Electric) Energies(CircuitSolver solver, double hertz, double watts)
    {
        StressResult? stress = StressAnalysis.TryRun(solver, new(watts, hertz, StressLoad.Matched), out CircuitFault? fault);
        Assert.True(stress is not null, fault?.ToString());
        double magnetic = 0, electric = 0;
        foreach (Part part in solver.Circuit.Parts)
        {
            PartStress p = stress.Parts.Single(x => x.Part == part.Name);
            magnetic += part is Inductor l ? l.Inductance.Value!.Value * p.RmsCurrentA * p.RmsCurrentA / 2 : 0;
            electric += part is Capacitor c ? c.Capacitance.Value!.Value * p.PeakVoltageV * p.PeakVoltageV / 4 : 0;
        }

        return (magnetic, electric);
    }
}
