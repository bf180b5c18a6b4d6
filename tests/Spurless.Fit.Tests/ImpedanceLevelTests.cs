using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit.Tests;

/// <summary>
/// The freedom that the ports do not see: parts moved along it leave every S-parameter as it is, and where a part of it is held, there is
/// no such freedom.
/// </summary>
public sealed class ImpedanceLevelTests
{
    private static readonly double[] Frequencies = DemoFilter.Grid(100e6, 200e6, 21);

    // Two coupled tanks and what is at the ports: all parts free, so that the level of either inner node is.
    [Fact]
    public void Direction_leaves_every_S_parameter_as_it_is_to_first_order() =>
        Gen.Select(Gen.Double[0.3, 3].Array[9], Gen.Bool).Sample(static (scale, second) =>
        {
            Circuit circuit = Ladder(scale);
            IReadOnlyList<FitUnknown> unknowns = Unknowns();
            Assert.Equal(["m", "n"], ImpedanceLevel.Nodes(circuit).Order(StringComparer.Ordinal));
            double[] direction = ImpedanceLevel.Direction(circuit, unknowns, second ? "n" : "m")!;
            Assert.NotNull(direction);

            // A change that the ports do not see to first order falls with the square of the step; any other falls with the step.
            double whole = Change(circuit, unknowns, direction, 2e-3), half = Change(circuit, unknowns, direction, 1e-3);
            double[] other = [.. direction.Select(static (d, i) => i % 2 == 0 ? d : -d)];
            double seen = Change(circuit, unknowns, other, 1e-3);
            Assert.True(half < 1e-9 || whole / half > 3.5, $"{whole} at twice the step of {half}");
            Assert.True(half < 0.05 * seen, $"{half} against {seen} of another direction");
        });

    // Row and column of a node scaled by one factor: what the algebra says of a filter worked by hand. Node m has L1 and C1 to ground and
    // C2 to the port, where Ca lies: for a factor of e, L1 falls by 2 parts, C1 rises by 2 + C2 / C1, C2 by 1, Ca falls by C2 / Ca.
    [Fact]
    public void Direction_of_a_small_filter_is_that_worked_by_hand()
    {
        (Circuit traced, Circuit circuit) = Small("Ca: { capacitor: unknown, between: [a, gnd] }");
        (_, _, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(traced);

        double[] direction = ImpedanceLevel.Direction(circuit, unknowns, "m")!;

        Dictionary<string, double> by = unknowns.Select((u, i) => (u.Part, direction[i]))
            .ToDictionary(static p => p.Part, static p => p.Item2);
        Assert.Equal(-2, by["L1"], 1e-12);
        Assert.Equal(2 + (5.0 / 20), by["C1"], 1e-12);
        Assert.Equal(1, by["C2"], 1e-12);
        Assert.Equal(-5.0 / 10, by["Ca"], 1e-12);
    }

    [Theory]
    [InlineData("Ca: { capacitor: 10 pF, between: [a, gnd] }")]
    [InlineData("Cb: { capacitor: unknown, between: [b, gnd] }")]
    public void There_is_no_such_freedom_where_what_must_follow_is_known_or_missing(string part)
    {
        (Circuit traced, Circuit circuit) = Small(part);
        (_, _, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(traced);

        Assert.Null(ImpedanceLevel.Direction(circuit, unknowns, "m"));
    }

    [Fact]
    public void A_node_of_a_line_and_the_ports_have_no_level_of_their_own()
    {
        Circuit circuit = DemoFilter.Read("""
            spurless_circuit: 1
            ports: { in: a, out: b }
            parts:
              C1: { capacitor: 5 pF, between: [a, m] }
              L1: { inductor: 40 nH, between: [m, gnd] }
              W1: { line: { impedance: 50 ohm, length: 0.1 m }, between: [m, b] }
            """);

        Assert.Empty(ImpedanceLevel.Nodes(circuit));
    }

    private static double Change(Circuit circuit, IReadOnlyList<FitUnknown> unknowns, double[] direction, double step)
    {
        Dictionary<string, double> by = unknowns.Select((u, i) => (u.Part, direction[i]))
            .ToDictionary(static p => p.Part, static p => p.Item2);
        Circuit moved = circuit with
        {
            Parts =
            [
                .. circuit.Parts.Select(p => p switch
                {
                    Capacitor c => c with { Capacitance = PartValue.Known(c.Capacitance.Require() * Math.Exp(step * by[c.Name])) },
                    Inductor l => l with { Inductance = PartValue.Known(l.Inductance.Require() * Math.Exp(step * by[l.Name])) },
                    _ => p,
                }),
            ],
        };
        return DemoFilter.Response(circuit, Frequencies).Zip(DemoFilter.Response(moved, Frequencies), static (a, b) =>
            Math.Max((a.S11 - b.S11).Magnitude, Math.Max((a.S21 - b.S21).Magnitude, (a.S22 - b.S22).Magnitude))).Max();
    }

    private static Circuit Ladder(double[] scale)
    {
        (string Name, string From, string To, double Value)[] parts =
        [
            ("Ca", "a", "gnd", 12e-12), ("C1", "a", "m", 5e-12), ("C2", "m", "gnd", 25e-12), ("C3", "m", "n", 3e-12),
            ("C4", "n", "gnd", 25e-12), ("C5", "n", "b", 5e-12), ("Cb", "b", "gnd", 12e-12),
        ];
        return new Circuit
        {
            Name = "ladder",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                .. parts.Select((p, i) => new Capacitor
                {
                    Name = p.Name,
                    From = p.From,
                    To = p.To,
                    Capacitance = PartValue.Known(p.Value * scale[i]),
                }),
                new Inductor { Name = "L1", From = "m", To = Circuit.Ground, Inductance = PartValue.Known(40e-9 * scale[7]) },
                new Inductor { Name = "L2", From = "n", To = Circuit.Ground, Inductance = PartValue.Known(40e-9 * scale[8]) },
            ],
        };
    }

    private static IReadOnlyList<FitUnknown> Unknowns()
    {
        Circuit circuit = Ladder([.. Enumerable.Repeat(1.0, 9)]);
        return FitUnknown.Of(circuit with
        {
            Parts =
            [
                .. circuit.Parts.Select(static p => p switch
                {
                    Capacitor c => c with { Capacitance = PartValue.Unknown() },
                    Inductor l => (Part)(l with { Inductance = PartValue.Unknown() }),
                    _ => p,
                }),
            ],
        }).Unknowns;
    }

    private static (Circuit Traced, Circuit Known) Small(string more)
    {
        string text = $$"""
            spurless_circuit: 1
            ports: { in: a, out: b }
            parts:
              {{more}}
              C1: { capacitor: unknown, between: [m, gnd] }
              L1: { inductor: unknown, between: [m, gnd] }
              C2: { capacitor: unknown, between: [a, m] }
              R1: { resistor: 10 ohm, between: [a, b] }
            """;
        Circuit traced = DemoFilter.Read(text);
        (string, CircuitQuantity, double)[] values =
        [
            ("Ca", CircuitQuantity.CapacitanceF, 10e-12), ("Cb", CircuitQuantity.CapacitanceF, 10e-12),
            ("C1", CircuitQuantity.CapacitanceF, 20e-12), ("C2", CircuitQuantity.CapacitanceF, 5e-12),
            ("L1", CircuitQuantity.InductanceH, 50e-9),
        ];
        return (traced, FittedCircuit.With(traced, values));
    }
}
