using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Layout;
using Spurless.Design.Winding;

namespace Spurless.Design.Tests.Families;

/// <summary>A coil with a tap: its synthesis against the ideal autotransformer and the solver, its winding against Maxwell's
/// loops.</summary>
public class TappedCoilTests
{
    private const double Omega = 2 * Math.PI * 145e6;

    // The ideal autotransformer (a textbook result): with k = 1 a conductance g at the tap is g Lb/L at the hot end, and L alone resonates.
    [Theory]
    [InlineData(0.001, 0.05)]
    [InlineData(0.005, 0.02)]
    public void Make_with_full_coupling_is_the_autotransformer(double conductance, double susceptance)
    {
        const double k = 1 - 1e-9;
        (double upper, double lower) = TappedCoil.Make(conductance, susceptance, k, Omega, 50)!.Value;
        double whole = TappedCoil.Whole(upper, lower, k);
        Assert.Equal(conductance, lower / whole / 50, 1e-6 * conductance);
        Assert.Equal(1 / (Omega * susceptance), whole, 1e-6 * whole);
    }

    // Without coupling: two coils in series, the lower one in parallel with the port, worked out by complex arithmetic here.
    [Theory]
    [InlineData(0.002, 0.05, 1e-6)]
    [InlineData(0.001, 0.03, 1e-6)]
    public void Make_with_hardly_any_coupling_is_two_coils_in_series(double conductance, double susceptance, double k)
    {
        (double upper, double lower) = TappedCoil.Make(conductance, susceptance, k, Omega, 50)!.Value;
        System.Numerics.Complex j = System.Numerics.Complex.ImaginaryOne;
        System.Numerics.Complex seen = 1 / ((j * Omega * upper) + (1 / ((1 / 50.0) + (1 / (j * Omega * lower)))));
        Assert.Equal(conductance, seen.Real, 1e-5 * conductance);
        Assert.Equal(-susceptance, seen.Imaginary, 1e-5 * susceptance);
    }

    // At any coupling by the plain solver: a port of as much resistance as is wanted, the susceptance resonated, is matched.
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.4)]
    [InlineData(0.7)]
    public void Make_matches_a_port_of_its_own_conductance(double k)
    {
        const double susceptance = 0.05, conductance = 0.02 / 9; // tank of Q 22.5, at its top 9 times the port's resistance
        (double upper, double lower) = TappedCoil.Make(conductance, susceptance, k, Omega, 50)!.Value;
        Circuit circuit = new()
        {
            Name = "tap",
            PortIn = "p",
            PortOut = "q",
            ImpedanceOhm = 50,
            Parts =
            [
                // An ideal 3 to 1 transformer makes the port 450 ohm at the hot end.
                new Transformer
                {
                    Name = "T1",
                    FirstTurns = 1,
                    SecondTurns = 3,
                    FirstFrom = "p",
                    FirstTo = Circuit.Ground,
                    SecondFrom = "a",
                    SecondTo = Circuit.Ground,
                },
                new Capacitor { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(susceptance / Omega) },
                new Inductor { Name = "L1", From = "a", To = "q", Inductance = PartValue.Known(upper) },
                new Inductor { Name = "L2", From = "q", To = Circuit.Ground, Inductance = PartValue.Known(lower) },
                new Coupling { Name = "M12", First = "L1", Second = "L2", Coefficient = PartValue.Known(k) },
            ],
        };
        double loss = CircuitSolver.Create(circuit).Solve([145e6])[0].InsertionLossDb;
        Assert.Equal(0, loss, 1e-9);
    }

    // Mutual inductance of both parts by Maxwell's formula for loops, summed turn by turn (held to Neumann's integral elsewhere): whole
    // turns on either side, wire whose field has left its inside.
    [Theory]
    [InlineData(6, 2)]
    [InlineData(8, 3)]
    [InlineData(10, 5)]
    public void Values_of_a_winding_have_the_mutual_inductance_of_its_turns(int turns, int tap)
    {
        CoilGeometry coil = new(turns, 6e-3, turns * 1.4e-3, 0.8e-3);
        TappedValues values = TappedWinding.Values(coil, tap, 145e6);
        double found = values.Coupling * Math.Sqrt(values.UpperH * values.LowerH), pitch = coil.LengthM / turns;
        double loops = MutualInductance.CoaxialCoils(
            (tap, coil.DiameterM, tap * pitch), (turns - tap, coil.DiameterM, (turns - tap) * pitch), turns * pitch / 2);
        Assert.Equal(1, found / loops, 0.06);
    }

    [Fact]
    public void TurnsFor_finds_the_tap_again()
    {
        CoilGeometry coil = new(7, 6e-3, 9e-3, 0.8e-3, 3e-3);
        double lower = TappedWinding.Values(coil, 2.35, 145e6).LowerH;
        Assert.Equal(2.35, TappedWinding.TurnsFor(coil, lower, 145e6)!.Value, 1e-9);
        Assert.Null(TappedWinding.TurnsFor(coil, 0.1 * lower, 145e6));
        Assert.Null(TappedWinding.TurnsFor(coil, 20 * lower, 145e6));
    }
}
