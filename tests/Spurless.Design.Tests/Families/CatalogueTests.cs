using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;
using Spurless.Design.Tests.Designing;
using Spurless.Design.Tests.RandomRequirements;

namespace Spurless.Design.Tests.Families;

/// <summary>Every circuit that is synthesised for any requirement: sound, reciprocal, passive, and without loss where it has no lossy
/// part.</summary>
public class CatalogueTests
{
    public static TheoryData<int> Requirements => [-1, 0, 7, 19, 23, 42, 61, 88];

    [Theory]
    [MemberData(nameof(Requirements))]
    public void For_any_requirement_every_blueprint_is_sound_and_what_is_aligned_is_in_it(int number) => Each(number, static (b, _) =>
    {
        Part[] parts = [.. b.Circuit.Parts];
        Assert.Equal(parts.Length, parts.Select(static p => p.Name).Distinct().Count());
        foreach (Part part in parts)
        {
            double value = part switch
            {
                Capacitor c => c.Capacitance.Require(),
                Inductor l => l.Inductance.Require(),
                Resistor r => r.Resistance.Require(),
                Line w => w.Length.Require(),
                Stub w => w.Length.Require(),
                Coupling m => Math.Abs(m.Coefficient.Require()),
                _ => throw new InvalidOperationException(part.GetType().Name),
            };
            Assert.True(value > 0 && double.IsFinite(value), $"{b.Family}: {part.Name} is {value}");
            Assert.True(part is not Coupling || value < 1);
        }

        foreach (TuningSpot spot in b.Spots)
        {
            Assert.True(spot.Capacitor is not null || spot.Coil is not null, $"{b.Family}: nothing to turn at {spot.Node}");
            Assert.All(new[] { spot.Capacitor, spot.Coil }.OfType<string>(), n => Assert.Contains(parts, p => p.Name == n));
            Assert.Contains(parts, p => p.Nodes.Contains(spot.Node));
        }

        Assert.NotNull(CircuitSolver.TryCreate(b.Circuit, out IReadOnlyList<CircuitFault> _));
    });

    [Theory]
    [MemberData(nameof(Requirements))]
    public void Blueprints_are_reciprocal_and_give_no_power_and_lose_none_without_a_lossy_part(int number) => Each(number, static (b, q) =>
    {
        bool lossless = b.Circuit.Parts.All(static p => p is Capacitor or Inductor or Coupling);
        foreach (ScatteringMatrix s in Solve(b.Circuit, q))
        {
            Assert.Equal(0, (s.S12 - s.S21).Magnitude, 1e-9);
            double first = Power(s.S11) + Power(s.S21), second = Power(s.S22) + Power(s.S12);
            Assert.True(first <= 1 + 1e-9 && second <= 1 + 1e-9, $"{b.Family} gives {first}, {second}");
            if (lossless)
            {
                // A lossless two-port is unitary: energy, and the phases of its reflections.
                Assert.Equal(1, first, 1e-9);
                Assert.Equal(1, second, 1e-9);
                Assert.Equal(0, ((s.S11 * Complex.Conjugate(s.S12)) + (s.S21 * Complex.Conjugate(s.S22))).Magnitude, 1e-9);
            }
        }
    });

    [Theory]
    [MemberData(nameof(Requirements))]
    public void Mirrored_blueprints_have_their_reflections_changed_over(int number) => Each(number, static (b, q) =>
    {
        Circuit mirrored = b.Circuit with { PortIn = b.Circuit.PortOut, PortOut = b.Circuit.PortIn };
        foreach ((ScatteringMatrix s, ScatteringMatrix m) in Solve(b.Circuit, q).Zip(Solve(mirrored, q)))
        {
            Assert.Equal(0, (s.S11 - m.S22).Magnitude, 1e-9);
            Assert.Equal(0, (s.S22 - m.S11).Magnitude, 1e-9);
            Assert.Equal(0, (s.S21 - m.S21).Magnitude, 1e-9);
        }
    });

    // With all impedances and the ports' k times as great, and all frequencies m times as high, the response is the same one.
    [Theory]
    [InlineData(3, 1)]
    [InlineData(1, 2)]
    [InlineData(1.5, 0.5)]
    public void Blueprints_scale_with_impedance_and_frequency(double k, double m)
    {
        DesignQuestion question = DemoRequirement.Question with { Parts = new PartLimits() };
        foreach (Blueprint b in FamilyCatalogue.For(question).Select(static g => g[0])
            .Where(static b => b.Circuit.Parts.All(static p => p is Capacitor or Inductor)))
        {
            Circuit scaled = b.Circuit with
            {
                ImpedanceOhm = k * b.Circuit.ImpedanceOhm,
                Parts =
                [
                    .. b.Circuit.Parts.Select(p => p switch
                    {
                        Capacitor c => RealCircuit.WithValue(c, c.Capacitance.Require() / (k * m)),
                        Inductor l => RealCircuit.WithValue(l, l.Inductance.Require() * k / m),
                        _ => p,
                    }),
                ],
            };
            double[] f = [120e6, 145.05e6, 160e6, 300e6];
            foreach ((ScatteringMatrix a, ScatteringMatrix s) in CircuitSolver.Create(b.Circuit).Solve(f)
                .Zip(CircuitSolver.Create(scaled).Solve([.. f.Select(x => m * x)])))
            {
                Assert.Equal(0, (a.S21 - s.S21).Magnitude, 1e-8);
                Assert.Equal(0, (a.S11 - s.S11).Magnitude, 1e-8);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Requirements))]
    public void With_the_losses_of_real_parts_every_circuit_turns_some_power_into_heat(int number) => Each(number, static (b, q) =>
    {
        DesignQuestion lossy = q with { Parts = q.Parts with { InductorQ = new(150, q.CentreHz), CapacitorQ = new(400, q.CentreHz) } };
        RealCircuit real = RealCircuit.Of(b, lossy)!;
        foreach (ScatteringMatrix s in Solve(real.Solver.Circuit, q))
        {
            Assert.True(Power(s.S11) + Power(s.S21) < 1 && Power(s.S22) + Power(s.S12) < 1, b.Family);
        }

        // What may move stands between its bounds or is brought there: bounds are bounds.
        Assert.All(Enumerable.Range(0, real.Variables.Length), i => Assert.True(real.Low[i] < real.High[i]));
        Assert.All(real.Solver.Circuit.Parts.OfType<Inductor>(), static l => Assert.NotNull(l.Loss));
    });

    private static IEnumerable<ScatteringMatrix> Solve(Circuit circuit, DesignQuestion q)
    {
        CircuitSolver solver = CircuitSolver.Create(circuit);
        double centre = q.CentreHz;
        foreach (double f in new[] { 0.61 * centre, q.PassFromHz, centre * 1.00001, q.PassToHz, 1.37 * centre, 3.1 * centre })
        {
            ScatteringMatrix[] s = new ScatteringMatrix[1];
            if (solver.Solve([f], solver.NominalValues(), solver.CreateWorkspace(), s) is null)
            {
                yield return s[0];
            }
        }
    }

    private static double Power(Complex s) => (s.Real * s.Real) + (s.Imaginary * s.Imaginary);

    private static void Each(int number, Action<Blueprint, DesignQuestion> check)
    {
        DesignQuestion question = number < 0 ? DemoRequirement.Question : RandomRequirement.Make(number);
        IReadOnlyList<IReadOnlyList<Blueprint>> groups = FamilyCatalogue.For(question);
        Assert.NotEmpty(groups);
        foreach (IReadOnlyList<Blueprint> group in groups)
        {
            // The first and the last of each family: the widest and the narrowest.
            check(group[0], question);
            check(group[^1], question);
        }
    }
}
