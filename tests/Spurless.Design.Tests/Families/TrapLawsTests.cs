using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Design.Families;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Tests.Families;

/// <summary>Filters with traps: duality, balance, and what stubs do, by network theory.</summary>
public class TrapLawsTests
{
    private const double Centre = 145e6;

    public static TheoryData<int, double, bool> Cases()
    {
        TheoryData<int, double, bool> all = [];
        Random random = new(7);
        for (int i = 0; i < 12; i++)
        {
            all.Add(i % 3 == 0 ? 3 : 5, 1.15 + random.NextDouble(), i % 2 == 0);
        }

        return all;
    }

    private static double[] Notches(int order, double ratio, bool above)
    {
        double[] up = order == 3 ? [ratio] : [ratio, ratio * 1.3];
        return [.. up.Select(r => above ? Centre * r : Centre / r)];
    }

    private static ScatteringMatrix[] Solve(Circuit circuit, double[] hertz) => CircuitSolver.Create(circuit).Solve(hertz);

    /// <summary>
    /// Traps to ground in a ladder that begins in series, and traps in line in one that begins to ground, are each other's dual in the
    /// port's impedance: every admittance an impedance over Z0 squared. Duals have one S21, and reflections of opposite sign (textbook).
    /// </summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void Traps_to_ground_and_in_line_are_duals(int order, double ratio, bool above)
    {
        double edge = above ? 1.1 * Centre : Centre / 1.1;
        double[] notches = Notches(order, ratio, above), hertz = [60e6, 101e6, 139e6, 145e6, 151e6, 214e6, 470e6];
        foreach (double ohms in new[] { 50.0, 75 })
        {
            Prototype p = Prototype.Chebyshev(order, 0.1);
            ScatteringMatrix[] ground = Solve(TrapFilters.SeriesTraps(p, notches, Centre, edge, ohms).Circuit, hertz);
            ScatteringMatrix[] line = Solve(TrapFilters.ParallelTraps(p, notches, Centre, edge, ohms).Circuit, hertz);
            for (int i = 0; i < hertz.Length; i++)
            {
                Assert.True((ground[i].S21 - line[i].S21).Magnitude < 1e-9, $"{hertz[i] / 1e6} MHz: {ground[i].S21} and {line[i].S21}");
                Assert.True((ground[i].S11 + line[i].S11).Magnitude < 1e-9);
                Assert.True((ground[i].S22 + line[i].S22).Magnitude < 1e-9);
            }
        }
    }

    /// <summary>
    /// A high-pass is its low-pass mirrored about the middle: frequencies f and f0^2/f, edges, notches and all (the transformation of the
    /// textbooks).
    /// </summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void Traps_below_mirror_those_above(int order, double ratio, bool above)
    {
        if (!above)
        {
            return;
        }

        Prototype p = Prototype.Chebyshev(order, 0.1);
        double[] hertz = [60e6, 101e6, 139e6, 151e6, 214e6, 470e6], mirrored = [.. hertz.Select(static f => Centre * Centre / f)];
        ScatteringMatrix[] low = Solve(TrapFilters.SeriesTraps(p, Notches(order, ratio, true), Centre, 1.2 * Centre, 50).Circuit, hertz);
        ScatteringMatrix[] high = Solve(TrapFilters.SeriesTraps(p, Notches(order, ratio, false), Centre, Centre / 1.2, 50).Circuit,
            mirrored);
        for (int i = 0; i < hertz.Length; i++)
        {
            // Mirroring turns every reactance round: the conjugate.
            Assert.True((low[i].S21 - Complex.Conjugate(high[i].S21)).Magnitude < 1e-9, $"{hertz[i] / 1e6} MHz");
        }
    }

    /// <summary>
    /// The bridged trap's resistor balances a coil of the Q that was told: with just that loss nothing passes the notch, with another Q,
    /// better or worse, something does (bridge balance, by hand: R = Q x/2).
    /// </summary>
    [Theory]
    [InlineData(160e6, 60)]
    [InlineData(120e6, 150)]
    [InlineData(300e6, 25)]
    public void Bridged_trap_is_balanced_for_the_coil_that_it_was_made_for(double notch, double q)
    {
        Circuit circuit = TrapFilters.Bridged(notch, Centre, q, 50).Circuit;
        double At(double quality) => Solve(circuit with
        {
            Parts = [.. circuit.Parts.Select(p => p is Inductor l ? l with { Loss = PartLoss.QualityFactor(quality, notch) } : p)],
        }, [notch])[0].S21.Magnitude;
        Assert.True(At(q) < 1e-9, $"{At(q)}");
        Assert.True(At(q * 1.05) > 1e-4 && At(q / 1.05) > 1e-4);
        Assert.True(At(q * 1.2) > At(q * 1.05) && At(q / 1.2) > At(q / 1.05));
    }

    /// <summary>
    /// A quarter wave of open cable shorts its notch; the shorted one beside it takes its susceptance away in the middle of the band, so
    /// that only the cables' loss is left there.
    /// </summary>
    [Theory]
    [InlineData(165e6)]
    [InlineData(127e6)]
    [InlineData(200e6)]
    public void Stubs_short_their_notch_and_vanish_in_the_middle(double notch)
    {
        Circuit circuit = LineFilters.Stubs([notch], Centre, 50)!.Circuit;
        double[] hertz = [.. Enumerable.Range(0, 2001).Select(i => notch * (0.95 + (i * 5e-5)))];
        double[] loss = [.. Solve(circuit, hertz).Select(static s => s.InsertionLossDb)];
        Assert.Equal(1, hertz[Array.IndexOf(loss, loss.Max())] / notch, 2e-3);
        Assert.True(loss.Max() > 20);
        ScatteringMatrix middle = Solve(circuit, [Centre])[0];
        Assert.InRange(middle.InsertionLossDb, 0, 1.5);
        Assert.True(middle.ReturnLoss1Db > 15, $"{middle.ReturnLoss1Db} dB");

        // The same without loss: nothing but the mirrored susceptances, which cancel.
        Circuit ideal = circuit with
        {
            Parts = [.. circuit.Parts.Select(static p =>
                p switch { Stub s => s with { Loss = default }, Line l => l with { Loss = default }, _ => p })],
        };
        Assert.Equal(0, Solve(ideal, [Centre])[0].InsertionLossDb, 1e-9);
        Assert.True(Solve(ideal, [notch * (1 + 1e-9)])[0].InsertionLossDb > 100);
    }

    /// <summary>
    /// Traps at the ports of a filter leave the middle of the band to the filter but for the reactance of three port impedances that they
    /// have there.
    /// </summary>
    [Theory]
    [InlineData(190e6)]
    [InlineData(110e6)]
    public void AtPorts_has_three_port_impedances_in_the_middle_and_none_at_the_notch(double notch)
    {
        Blueprint plain = TankFilters.Make(
            Prototype.Butterworth(2), Centre, 4e6, 40e-9, 50, TankEnds.SeriesCapacitor, TankJoint.Capacitor)!;
        Blueprint with = TrapFilters.AtPorts(plain, [notch], Centre, 50);
        Part[] added = [.. with.Circuit.Parts.Where(p => plain.Circuit.Parts.All(o => o.Name != p.Name))];
        double l = added.OfType<Inductor>().Single().Inductance.Value!.Value,
            c = added.OfType<Capacitor>().Single().Capacitance.Value!.Value;
        Assert.Equal(1, 1 / (2 * Math.PI * Math.Sqrt(l * c)) / notch, 1e-9);
        double w = 2 * Math.PI * Centre;
        Assert.Equal(150, Math.Abs((w * l) - (1 / (w * c))), 1e-6);
        Assert.True(Solve(with.Circuit, [notch * (1 + 1e-8)])[0].InsertionLossDb > 100);
        Assert.Equal(plain.Spots.Count + 1, with.Spots.Count);
    }
}
