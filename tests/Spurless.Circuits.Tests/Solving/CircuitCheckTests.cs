using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Solving;

public sealed class CircuitCheckTests
{
    [Fact]
    public void Faults_sound_circuit_has_none() => Assert.Empty(CircuitCheck.Faults(KnownCircuits.Demo()));

    [Fact]
    public void Faults_part_on_one_node_is_named()
    {
        CircuitFault fault = One(Make(R("R1", "a", "b"), R("R2", "b", "b")));
        Assert.Equal(CircuitFaultKind.BothEndsOnOneNode, fault.Kind);
        Assert.Equal(["R2"], fault.Parts);
    }

    [Fact]
    public void Faults_node_touched_once_is_floating()
    {
        CircuitFault fault = One(Make(R("R1", "a", "b"), R("R2", "b", "x")));
        Assert.Equal(CircuitFaultKind.FloatingNode, fault.Kind);
        Assert.Equal(["R2"], fault.Parts);
        Assert.Contains("'x'", fault.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Faults_winding_without_ground_is_floating()
    {
        CircuitFault fault = One(
            Make(R("R1", "a", "b"), L("L1", "a", "gnd"), L("L2", "x", "y"), R("R2", "x", "y"), K("M", 0.1, "L1", "L2")));
        Assert.Equal(CircuitFaultKind.FloatingNode, fault.Kind);
        Assert.Equal(["L2", "R2"], fault.Parts);
    }

    [Fact]
    public void Faults_island_of_its_own_is_named()
    {
        CircuitFault fault = One(Make(R("R1", "a", "b"), L("L7", "x", "gnd"), R("R8", "x", "gnd")));
        Assert.Equal(CircuitFaultKind.FloatingNode, fault.Kind);
        Assert.Equal(["L7", "R8"], fault.Parts);
    }

    [Fact]
    public void Faults_port_that_no_part_touches()
    {
        CircuitFault fault = One(Make(R("R1", "a", "gnd")));
        Assert.Equal(CircuitFaultKind.PortsNotConnected, fault.Kind);
        Assert.Contains("'b'", fault.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Faults_no_way_between_the_ports() =>
        Assert.Equal(CircuitFaultKind.PortsNotConnected, One(Make(R("R1", "a", "gnd"), R("R2", "b", "gnd"))).Kind);

    [Fact]
    public void Faults_coupled_halves_are_connected() =>
        Assert.Empty(CircuitCheck.Faults(Make(L("L1", "a", "gnd"), L("L2", "b", "gnd"), K("M", 0.1, "L1", "L2"))));

    [Fact]
    public void Faults_short_across_a_port_names_the_parts()
    {
        CircuitFault fault = One(Make(R("R1", "a", "b"), R("R2", "a", "x", 0), R("R3", "x", "gnd", 0)));
        Assert.Equal(CircuitFaultKind.ShortedPort, fault.Kind);
        Assert.Equal(["R2", "R3"], fault.Parts);
        Assert.Equal(CircuitFaultKind.ShortedPort, One(Make(R("R1", "a", "gnd")) with { PortOut = "gnd" }).Kind);
    }

    [Fact]
    public void Faults_coupling_of_no_inductor()
    {
        CircuitFault fault = One(Make(R("R1", "a", "b"), L("L1", "a", "gnd"), K("M", 0.1, "L1", "R1")));
        Assert.Equal(CircuitFaultKind.BadCoupling, fault.Kind);
        Assert.Equal(["M", "R1"], fault.Parts);
        Assert.Contains(
            "does not exist", One(Make(R("R1", "a", "b"), L("L1", "a", "gnd"), K("M", 0.1, "L1", "L9"))).What, StringComparison.Ordinal);
        Assert.Contains(
            "itself", One(Make(R("R1", "a", "b"), L("L1", "a", "gnd"), K("M", 0.1, "L1", "L1"))).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Faults_same_pair_twice()
    {
        CircuitFault fault = One(Make(L("L1", "a", "gnd"), L("L2", "b", "gnd"), K("M1", 0.1, "L1", "L2"), K("M2", 0.2, "L2", "L1")));
        Assert.Equal(["M1", "M2"], fault.Parts);
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(-1.0)]
    [InlineData(1.5)]
    public void Faults_coupling_of_one_and_more_is_impossible(double k) =>
        Assert.Equal(CircuitFaultKind.ImpossibleCoupling, One(Make(L("L1", "a", "gnd"), L("L2", "b", "gnd"), K("M", k, "L1", "L2"))).Kind);

    /// <summary>k12 = k23 = 0.9 forces k13 above 2 x 0.81 - 1 = 0.62; 0 is impossible (positive definiteness, hand calculation).</summary>
    [Fact]
    public void Faults_three_couplings_that_contradict_each_other()
    {
        Part[] parts = [L("L1", "a", "gnd"), L("L2", "b", "gnd"), L("L3", "b", "gnd"), K("M1", 0.9, "L1", "L2"), K("M2", 0.9, "L2", "L3")];
        CircuitFault fault = One(Make(parts));
        Assert.Equal(CircuitFaultKind.ImpossibleCoupling, fault.Kind);
        Assert.Equal(["L1", "L2", "L3"], fault.Parts);
        Assert.Empty(CircuitCheck.Faults(Make([.. parts, K("M3", 0.63, "L1", "L3")])));
    }

    [Fact]
    public void Faults_all_at_once()
    {
        IReadOnlyList<CircuitFault> faults = CircuitCheck.Faults(Make(R("R1", "a", "a"), R("R1", "b", "gnd", -5), K("M", 2, "R1", "Z")));
        Assert.Contains(faults, static f => f.Kind == CircuitFaultKind.DuplicateName);
        Assert.Contains(faults, static f => f.Kind == CircuitFaultKind.BothEndsOnOneNode);
        Assert.Contains(faults, static f => f.Kind == CircuitFaultKind.BadValue);
        Assert.Contains(faults, static f => f.Kind == CircuitFaultKind.BadCoupling);
        Assert.Contains(faults, static f => f.Kind == CircuitFaultKind.ImpossibleCoupling);
    }

    [Fact]
    public void Faults_coil_that_cannot_be() => Assert.Equal(CircuitFaultKind.BadValue, One(Make(
        R("R1", "a", "b"),
        new Coil { Name = "L1", From = "a", To = "gnd", Turns = 3, DiameterM = 1e-3, LengthM = 5e-3, WireM = 2e-3 })).Kind);

    [Fact]
    public void Solve_unknown_value_is_refused_with_the_part()
    {
        CircuitSolver solver = CircuitSolver.Create(
            Make(R("R1", "a", "b"), new Capacitor { Name = "C2", From = "b", To = "gnd", Capacitance = PartValue.Unknown(1e-12, 47e-12) }));
        Assert.True(solver.HasUnknowns);
        CircuitException e = Assert.Throws<CircuitException>(() => solver.Solve([145e6]));
        Assert.Equal(CircuitFaultKind.UnknownValue, e.Fault.Kind);
        Assert.Equal(["C2"], e.Fault.Parts);
        Assert.Contains("fit", e.Fault.Remedy, StringComparison.Ordinal);
        double[] values = solver.NominalValues();
        values[solver.ParameterNumber("C2", CircuitQuantity.CapacitanceF)] = 10e-12;
        Assert.Null(solver.Solve([145e6], values, solver.CreateWorkspace(), new ScatteringMatrix[1]));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Solve_frequency_that_is_none_is_refused(double f) =>
        Assert.Equal(
            CircuitFaultKind.FrequencyOutOfRange,
            Assert.Throws<CircuitException>(() => CircuitSolver.Create(KnownCircuits.Demo()).Solve([f])).Fault.Kind);

    [Fact]
    public void Solve_block_outside_its_data_is_refused_with_the_part()
    {
        CircuitSolver solver = CircuitSolver.Create(Make(new TwoPortBlock { Name = "N1", From = "a", To = "b", Source = new Narrow() }));
        Assert.Equal(144e6, solver.LowestHz);
        CircuitFault fault = Assert.Throws<CircuitException>(() => solver.Solve([145e6, 150e6])).Fault;
        Assert.Equal(CircuitFaultKind.FrequencyOutOfRange, fault.Kind);
        Assert.Equal(["N1"], fault.Parts);
    }

    /// <summary>Two ideal transformers side by side with different turns allow no voltage and any current round the loop.</summary>
    [Fact]
    public void Solve_loop_of_ideal_parts_is_singular_and_named()
    {
        Part X(string name, double turns) =>
            new Transformer
            {
                Name = name,
                FirstTurns = turns,
                SecondTurns = 1,
                FirstFrom = "a",
                FirstTo = "gnd",
                SecondFrom = "b",
                SecondTo = "gnd",
            };
        CircuitFault fault = Assert.Throws<CircuitException>(() => CircuitSolver.Create(Make(X("X1", 2), X("X2", 2))).Solve([145e6])).Fault;
        Assert.Equal(CircuitFaultKind.Singular, fault.Kind);
        Assert.NotEmpty(fault.Parts);
        Assert.All(fault.Parts, static p => Assert.Contains(p, new[] { "X1", "X2" }));
    }

    [Fact]
    public void Solve_both_ports_on_one_node_sees_the_shunt()
    {
        // Shunt 25 ohm: S21 = 2 / (2 + 50/25) = 0.5.
        ScatteringMatrix s = CircuitSolver.Create(Make(R("R1", "a", "gnd", 25)) with { PortOut = "a" }).Solve([1e6])[0];
        Assert.Equal(0.5, s.S21.Real, 1e-14);
        Assert.Equal(-0.5, s.S11.Real, 1e-14);
    }

    private static CircuitFault One(Circuit c) => Assert.Single(CircuitCheck.Faults(c));

    private static Circuit Make(params Part[] parts) => new() { Name = "t", PortIn = "a", PortOut = "b", Parts = parts };

    private static Resistor R(string name, string a, string b, double ohm = 100) =>
        new() { Name = name, From = a, To = b, Resistance = PartValue.Known(ohm) };

    private static Inductor L(string name, string a, string b) =>
        new() { Name = name, From = a, To = b, Inductance = PartValue.Known(1e-7) };

    private static Coupling K(string name, double k, string a, string b) =>
        new() { Name = name, Coefficient = PartValue.Known(k), First = a, Second = b };

    private sealed class Narrow : ITwoPort
    {
        public double LowestHz => 144e6;

        public double HighestHz => 146e6;

        public Complex Reference1 => 50;

        public Complex Reference2 => 50;

        public ScatteringMatrix At(double frequencyHz) => ScatteringMatrix.Through;
    }
}
