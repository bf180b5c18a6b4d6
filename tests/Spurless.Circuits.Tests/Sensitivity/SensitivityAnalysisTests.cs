using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Sensitivity;

/// <summary>
/// Every slope against a difference of two whole analyses with the part itself changed: a way that shares nothing with the adjoint.
/// </summary>
public sealed class SensitivityAnalysisTests
{
    private const double Step = 1e-5;

    public static TheoryData<string> Circuits => [.. All().Keys];

    [Theory]
    [MemberData(nameof(Circuits))]
    public void TryRun_every_number_of_every_part_equals_a_difference(string name)
    {
        Circuit c = All()[name];
        double[] frequencies = [90e6, 145e6, 311e6];
        SensitivityResult result = Run(c, frequencies);
        Assert.NotEmpty(result.Parts);
        foreach (PartSensitivity p in result.Parts)
        {
            ScatteringMatrix[] up = CircuitSolver.Create(With(c, p, p.Nominal * (1 + Step))).Solve(frequencies);
            ScatteringMatrix[] down = CircuitSolver.Create(With(c, p, p.Nominal * (1 - Step))).Solve(frequencies);
            for (int k = 0; k < frequencies.Length; k++)
            {
                // Differences of S of size 1 over 2e-5: rounding 1e-16/1e-5 and the third derivative's part, both far below 1e-6 of a
                // change of one nominal.
                Complex s21 = (up[k].S21 - down[k].S21) / (2 * Step), s11 = (up[k].S11 - down[k].S11) / (2 * Step);
                Near(s21, p.S21[k] * p.Nominal, $"{name}: S21 by {p.Part} {p.Quantity} at {frequencies[k]}");
                Near(s11, p.S11[k] * p.Nominal, $"{name}: S11 by {p.Part} {p.Quantity} at {frequencies[k]}");
            }
        }
    }

    [Fact]
    public void TryRun_holds_every_kind_of_number()
    {
        PartQuantity[] seen = [.. All().Values.SelectMany(static c => Run(c, [145e6]).Parts).Select(static p => p.Quantity).Distinct()];
        Assert.Empty(Enum.GetValues<PartQuantity>().Except(seen));
    }

    [Fact]
    public void TryRun_of_the_demo_filter_equals_the_batch_kernel_s_gradient()
    {
        CircuitSolver solver = CircuitSolver.Create(KnownCircuits.Demo());
        double[] f = [140e6, 145.05e6, 160e6];
        SensitivityResult result = Run(KnownCircuits.Demo(), f);
        GradientBuffer gradient = new(solver, f.Length, GradientParts.All);
        Assert.Null(solver.SolveWithGradient(f, solver.NominalValues(), solver.CreateWorkspace(), new ScatteringMatrix[3], gradient));
        Assert.Equal(solver.Parameters.Count, result.Parts.Count);
        foreach (PartSensitivity p in result.Parts)
        {
            int number = solver.ParameterNumber(p.Part, Enum.Parse<CircuitQuantity>(p.Quantity.ToString()));
            for (int k = 0; k < f.Length; k++)
            {
                Near(gradient.S21(number, k) * p.Nominal, p.S21[k] * p.Nominal, p.Part, 1e-10);
                Near(gradient.S11(number, k) * p.Nominal, p.S11[k] * p.Nominal, p.Part, 1e-10);
            }
        }
    }

    /// <summary>
    /// 100 ohm in series between 50 ohm: S21 = 100/(100 + R), d(20 lg S21)/dR x 1 ohm = -20/ln 10 / 200 = -0.0434 dB for one per cent (by
    /// hand).
    /// </summary>
    [Fact]
    public void S21DbPerPercent_of_a_resistor_by_hand()
    {
        SensitivityResult result = Run(Of(new Resistor { Name = "R1", From = "a", To = "b", Resistance = PartValue.Known(100) }), [1e6]);
        Assert.Equal(-20 / Math.Log(10) / 200, result.S21DbPerPercent(result.Parts[0], 0), 1e-12);
    }

    [Fact]
    public void TryRun_unknown_value_is_a_fault()
    {
        Circuit c = Of(new Resistor { Name = "R1", From = "a", To = "b", Resistance = PartValue.Unknown() });
        Assert.Null(SensitivityAnalysis.TryRun(CircuitSolver.Create(c), [1e6], out CircuitFault? fault));
        Assert.Equal(CircuitFaultKind.UnknownValue, fault!.Kind);
    }

    private static Dictionary<string, Circuit> All() => new()
    {
        ["lumped parts with their parasitics"] = Of(
            new Inductor
            {
                Name = "L1",
                From = "a",
                To = "m",
                Inductance = PartValue.Known(60e-9),
                Loss = PartLoss.SeriesResistance(0.8),
                SelfCapacitanceF = 0.6e-12,
            },
            new Capacitor
            {
                Name = "C1",
                From = "m",
                To = Circuit.Ground,
                Capacitance = PartValue.Known(18e-12),
                Loss = PartLoss.SeriesResistance(0.3),
                SeriesInductanceH = 1.1e-9,
            },
            new Capacitor
            {
                Name = "C2",
                From = "m",
                To = "b",
                Capacitance = PartValue.Known(9e-12),
                Loss = PartLoss.QualityFactor(250, 145e6),
                SeriesInductanceH = 0.7e-9,
            },
            new Inductor
            {
                Name = "L2",
                From = "b",
                To = Circuit.Ground,
                Inductance = PartValue.Known(90e-9),
                Loss = PartLoss.QualityFactor(120, 145e6),
                SelfCapacitanceF = 0.4e-12,
            },
            new Resistor { Name = "R1", From = "m", To = "b", Resistance = PartValue.Known(330) }),
        ["coils by their dimensions"] = Of(
            new Coil
            {
                Name = "K1",
                From = "a",
                To = "b",
                Turns = 3.3,
                DiameterM = 7.1e-3,
                LengthM = 6.3e-3,
                WireM = 1.03e-3,
                LeadM = 4e-3,
            },
            new Coil
            {
                Name = "K2",
                From = "b",
                To = Circuit.Ground,
                Turns = 5.2,
                DiameterM = 6.1e-3,
                LengthM = 8.7e-3,
                WireM = 0.81e-3,
                LeadM = 2e-3,
                Loss = PartLoss.QualityFactor(150, 145e6),
            },
            new Coil
            {
                Name = "K3",
                From = "a",
                To = Circuit.Ground,
                Turns = 4.4,
                DiameterM = 8.3e-3,
                LengthM = 9.1e-3,
                WireM = 0.9e-3,
                Loss = PartLoss.SeriesResistance(0.4),
                SelfCapacitanceF = 0.5e-12,
            },
            new Capacitor { Name = "C1", From = "b", To = Circuit.Ground, Capacitance = PartValue.Known(12e-12) }),
        ["coupled windings"] = Of(
            new Inductor
            {
                Name = "L1",
                From = "a",
                To = Circuit.Ground,
                Inductance = PartValue.Known(45e-9),
                Loss = PartLoss.SeriesResistance(0.5),
                SelfCapacitanceF = 0.5e-12,
            },
            new Inductor
            {
                Name = "L2",
                From = "b",
                To = Circuit.Ground,
                Inductance = PartValue.Known(70e-9),
                Loss = PartLoss.QualityFactor(130, 145e6),
            },
            new Coil { Name = "K3", From = "a", To = "b", Turns = 4.1, DiameterM = 7.3e-3, LengthM = 7.7e-3, WireM = 0.9e-3 },
            new Coupling { Name = "M12", First = "L1", Second = "L2", Coefficient = PartValue.Known(0.21) },
            new Coupling { Name = "M23", First = "L2", Second = "K3", Coefficient = PartValue.Known(-0.13) }),
        ["lines and stubs, lossy"] = Of(
            new Line
            {
                Name = "W1",
                From = "a",
                To = "m",
                ImpedanceOhm = 75,
                Length = PartValue.Known(0.41),
                Velocity = 0.66,
                Loss = new LineLoss(2e-5, 1e-10),
            },
            new Stub
            {
                Name = "S1",
                From = "m",
                To = Circuit.Ground,
                ImpedanceOhm = 60,
                Length = PartValue.Known(0.23),
                Velocity = 0.8,
                End = StubEnd.Open,
                Loss = LineLoss.At(0.2, 146e6),
            },
            new Stub
            {
                Name = "S2",
                From = "m",
                To = "b",
                ImpedanceOhm = 90,
                Length = PartValue.Known(0.31),
                Velocity = 0.7,
                End = StubEnd.Short,
            },
            new Resistor { Name = "R1", From = "b", To = Circuit.Ground, Resistance = PartValue.Known(220) }),
        ["a line between unearthed nodes"] = Of(
            new Line
            {
                Name = "W1",
                From = "a",
                To = "m",
                FromReturn = "r",
                ToReturn = Circuit.Ground,
                ImpedanceOhm = 50,
                Length = PartValue.Known(0.37),
                Velocity = 0.7,
            },
            new Resistor { Name = "R1", From = "r", To = Circuit.Ground, Resistance = PartValue.Known(30) },
            new Resistor { Name = "R2", From = "m", To = "b", Resistance = PartValue.Known(20) }),
        ["transformer and a one-way block"] = Of(
            new Transformer
            {
                Name = "X1",
                FirstFrom = "a",
                FirstTo = Circuit.Ground,
                SecondFrom = "m",
                SecondTo = Circuit.Ground,
                FirstTurns = 3,
                SecondTurns = 5,
            },
            new Capacitor { Name = "C1", From = "m", To = "n", Capacitance = PartValue.Known(20e-12), Loss = PartLoss.SeriesResistance(2) },
            new TwoPortBlock { Name = "N1", From = "n", To = "o", Source = new OneWay() },
            new Line
            {
                Name = "W1",
                From = "o",
                To = "b",
                ImpedanceOhm = 60,
                Length = PartValue.Known(0.2),
                Velocity = 0.9,
                Loss = LineLoss.At(0.1, 146e6),
            },
            new Inductor
            {
                Name = "L1",
                From = "a",
                To = "b",
                Inductance = PartValue.Known(300e-9),
                Loss = PartLoss.QualityFactor(60, 145e6),
            }),
    };

    private static Circuit Of(params Part[] parts) => new() { Name = "test", PortIn = "a", PortOut = "b", Parts = parts };

    private static SensitivityResult Run(Circuit c, double[] frequencies)
    {
        SensitivityResult? result = SensitivityAnalysis.TryRun(CircuitSolver.Create(c), frequencies, out CircuitFault? fault);
        Assert.Null(fault);
        return result!;
    }

    private static void Near(Complex expected, Complex actual, string what, double tolerance = 1e-6) =>
        Assert.True((expected - actual).Magnitude < tolerance * (1 + expected.Magnitude), $"{what}: {actual} for {expected}");

    private static Circuit With(Circuit c, PartSensitivity of, double value) =>
        c with { Parts = [.. c.Parts.Select(p => p.Name == of.Part ? Changed(p, of.Quantity, value) : p)] };

    private static Part Changed(Part part, PartQuantity quantity, double value) => (part, quantity) switch
    {
        (Resistor r, PartQuantity.ResistanceOhm) => r with { Resistance = PartValue.Known(value) },
        (Inductor l, PartQuantity.InductanceH) => l with { Inductance = PartValue.Known(value) },
        (Inductor l, PartQuantity.Q) => l with { Loss = PartLoss.QualityFactor(value, l.Loss!.QFrequencyHz) },
        (Inductor l, PartQuantity.SeriesResistanceOhm) => l with { Loss = PartLoss.SeriesResistance(value) },
        (Inductor l, PartQuantity.SelfCapacitanceF) => l with { SelfCapacitanceF = value },
        (Capacitor k, PartQuantity.CapacitanceF) => k with { Capacitance = PartValue.Known(value) },
        (Capacitor k, PartQuantity.Q) => k with { Loss = PartLoss.QualityFactor(value, k.Loss!.QFrequencyHz) },
        (Capacitor k, PartQuantity.SeriesResistanceOhm) => k with { Loss = PartLoss.SeriesResistance(value) },
        (Capacitor k, PartQuantity.SeriesInductanceH) => k with { SeriesInductanceH = value },
        (Coupling m, PartQuantity.Coupling) => m with { Coefficient = PartValue.Known(value) },
        (Line w, PartQuantity.LengthM) => w with { Length = PartValue.Known(value) },
        (Line w, PartQuantity.LineImpedanceOhm) => w with { ImpedanceOhm = value },
        (Line w, PartQuantity.Velocity) => w with { Velocity = value },
        (Stub w, PartQuantity.LengthM) => w with { Length = PartValue.Known(value) },
        (Stub w, PartQuantity.LineImpedanceOhm) => w with { ImpedanceOhm = value },
        (Stub w, PartQuantity.Velocity) => w with { Velocity = value },
        (Transformer t, PartQuantity.TurnsRatio) => t with { FirstTurns = value * t.SecondTurns },
        (Coil k, PartQuantity.Turns) => k with { Turns = value },
        (Coil k, PartQuantity.DiameterM) => k with { DiameterM = value },
        (Coil k, PartQuantity.WindingLengthM) => k with { LengthM = value },
        (Coil k, PartQuantity.WireM) => k with { WireM = value },
        (Coil k, PartQuantity.LeadM) => k with { LeadM = value },
        (Coil k, PartQuantity.Q) => k with { Loss = PartLoss.QualityFactor(value, k.Loss!.QFrequencyHz) },
        (Coil k, PartQuantity.SeriesResistanceOhm) => k with { Loss = PartLoss.SeriesResistance(value) },
        (Coil k, PartQuantity.SelfCapacitanceF) => k with { SelfCapacitanceF = value },

        // The inductance of a coil by itself: the inductor that it resolves to, with that changed.
        (Coil k, PartQuantity.InductanceH) => k.Resolve() with { Inductance = PartValue.Known(value) },
        _ => throw new InvalidOperationException($"{part.GetType().Name} has no {quantity}."),
    };

    /// <summary>An amplifier that lets next to nothing back: no reciprocity to lean on.</summary>
    private sealed class OneWay : ITwoPort
    {
        public double LowestHz => 0;

        public double HighestHz => double.PositiveInfinity;

        public Complex Reference1 => 50;

        public Complex Reference2 => new(60, 10);

        public ScatteringMatrix At(double frequencyHz) => new(new(0.2, -0.3), new(0.01, 0.02), new(-1.7, 0.9), new(0.3, 0.1));
    }
}
