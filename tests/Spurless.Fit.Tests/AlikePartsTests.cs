using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit.Tests;

/// <summary>
/// Parts whose sum alone the ports see: found whatever their order and number, and with intervals that hold every split. The splits are
/// solved: what the solver cannot tell apart must not be called known.
/// </summary>
public sealed class AlikePartsTests
{
    private const double Hertz = 145.05e6;

    public static TheoryData<string, bool, int> Sets => new()
    {
        { "C", true, 2 }, { "C", true, 3 }, { "C", false, 2 }, { "C", false, 3 }, { "C", false, 5 },
        { "L", true, 2 }, { "L", false, 3 }, { "R", true, 3 }, { "R", false, 4 },
    };

    [Theory]
    [MemberData(nameof(Sets))]
    public void Find_names_all_of_a_set_whatever_the_order_of_the_file(string kind, bool sideBySide, int count)
    {
        Random random = new(count);
        for (int i = 0; i < 6; i++)
        {
            Circuit circuit = Made(kind, sideBySide, Values(kind, count, i + 1));
            circuit = circuit with { Parts = [.. circuit.Parts.OrderBy(_ => random.Next())] };
            (string[] parts, bool side) = Assert.Single(AlikeParts.Find(circuit, Unknowns(circuit, kind)));
            Assert.Equal(sideBySide, side);
            Assert.Equal(Enumerable.Range(0, count).Select(n => $"{kind}{n}"), parts.Order(StringComparer.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(Sets))]
    public void Reach_holds_every_split_that_the_ports_cannot_tell_apart(string kind, bool sideBySide, int count)
    {
        double[] truth = Values(kind, count, 7);
        Circuit circuit = Made(kind, sideBySide, truth);
        FitUnknown[] unknowns = Unknowns(circuit, kind);
        FittedValue[] found = [.. AlikeParts.Reach(circuit, unknowns, [.. unknowns.Select((u, i) => Value(u, truth[i]))])];
        ScatteringMatrix seen = CircuitSolver.Create(circuit).Solve([Hertz])[0];
        bool adds = kind == "C" == sideBySide;
        for (int seed = 1; seed <= 20; seed++)
        {
            double[] split = Split(truth, adds, seed);
            ScatteringMatrix other = CircuitSolver.Create(Made(kind, sideBySide, split)).Solve([Hertz])[0];
            Assert.True((seen.S21 - other.S21).Magnitude < 1e-9, $"{seen.S21} and {other.S21}");
            for (int i = 0; i < count; i++)
            {
                FittedValue v = found[i];
                bool within = split[i] >= v.RangeLow && split[i] <= v.RangeHigh;
                Assert.True(
                    !within || (split[i] >= v.Low && split[i] <= v.High), $"{v.Part} {split[i]:E3} is outside {v.Low:E3} to {v.High:E3}");
            }
        }

        Assert.All(found, static v => Assert.False(v.Identifiable));
    }

    [Fact]
    public void Find_what_is_tapped_coupled_or_known_is_in_no_set()
    {
        Circuit chain = Made("C", false, [10e-12, 22e-12, 47e-12]);

        // A part hangs on the node between two of them: the ports see more than their sum.
        Circuit tapped = chain with
        {
            Parts = [.. chain.Parts, new Resistor { Name = "RX", From = "m1", To = Circuit.Ground, Resistance = PartValue.Known(1e3) }],
        };
        (string[] parts, _) = Assert.Single(AlikeParts.Find(tapped, Unknowns(chain, "C")));
        Assert.Equal(["C1", "C2"], parts.Order(StringComparer.Ordinal));

        // One of three that is not looked for parts the rest.
        Assert.Empty(AlikeParts.Find(chain, [.. Unknowns(chain, "C").Where(static u => u.Part != "C1")]));
        Circuit coils = Made("L", false, [100e-9, 200e-9]);
        Circuit coupled = coils with
        {
            Parts =
            [
                .. coils.Parts, new Inductor { Name = "LX", From = "a", To = Circuit.Ground, Inductance = PartValue.Known(1e-6) },
                new Coupling { Name = "M", First = "L0", Second = "LX", Coefficient = PartValue.Known(0.1) },
            ],
        };
        Assert.Empty(AlikeParts.Find(coupled, Unknowns(coils, "L")));
    }

    [Fact]
    public void Reach_leaves_a_part_that_was_estimated_beforehand_as_it_was_found()
    {
        Circuit circuit = Made("C", true, [35e-12, 4e-12]);
        FitUnknown[] unknowns = Unknowns(circuit, "C");
        FittedValue[] values = [Value(unknowns[0], 35e-12) with { Estimate = 35e-12 }, Value(unknowns[1], 4e-12)];
        FittedValue[] found = [.. AlikeParts.Reach(circuit, unknowns, values)];
        Assert.Equal(values[0], found[0]);
        Assert.NotEqual(values[1], found[1]);
    }

    private static FittedValue Value(FitUnknown unknown, double value) =>
        new(unknown.Part, unknown.Quantity, value, value * 0.99, value * 1.01) { RangeLow = value / 1e4, RangeHigh = value * 1e4 };

    private static double[] Values(string kind, int count, int seed)
    {
        Random random = new(seed);
        double scale = kind switch { "C" => 10e-12, "L" => 50e-9, _ => 30 };
        return [.. Enumerable.Range(0, count).Select(_ => scale * (0.5 + (4 * random.NextDouble())))];
    }

    /// <summary>Other values with the same sum, or the same sum of reciprocals.</summary>
    private static double[] Split(double[] truth, bool adds, int seed)
    {
        Random random = new(seed);
        double whole = adds ? truth.Sum() : truth.Sum(static v => 1 / v);
        double[] share = [.. truth.Select(_ => Math.Exp(3 * random.NextDouble()))];
        double sum = share.Sum();
        return [.. share.Select(s => adds ? whole * s / sum : 1 / (whole * s / sum))];
    }

    private static FitUnknown[] Unknowns(Circuit circuit, string kind)
    {
        CircuitSolver solver = CircuitSolver.Create(circuit);
        (CircuitQuantity quantity, double low, double high) = kind switch
        {
            "C" => (CircuitQuantity.CapacitanceF, 1e-15, 1e-6),
            "L" => (CircuitQuantity.InductanceH, 1e-12, 1e-3),
            _ => (CircuitQuantity.ResistanceOhm, 1e-3, 1e6),
        };
        return
        [
            .. circuit.Parts.Where(p => p.Name.StartsWith(kind, StringComparison.Ordinal))
                .OrderBy(static p => p.Name, StringComparer.Ordinal)
                .Select(p => FitUnknown.Within(solver, p.Name, quantity, low, high)),
        ];
    }

    /// <summary>Between port 1 and port 2: the parts, and a shunt of another kind at either end.</summary>
    private static Circuit Made(string kind, bool sideBySide, double[] values)
    {
        string Node(int i) => i == 0 ? "a" : i == values.Length ? "b" : $"m{i}";
        Part Of(double value, int i)
        {
            (string from, string to) = sideBySide ? ("a", "b") : (Node(i), Node(i + 1));
            return kind switch
            {
                "C" => new Capacitor { Name = $"C{i}", From = from, To = to, Capacitance = PartValue.Known(value) },
                "L" => new Inductor { Name = $"L{i}", From = from, To = to, Inductance = PartValue.Known(value) },
                _ => new Resistor { Name = $"R{i}", From = from, To = to, Resistance = PartValue.Known(value) },
            };
        }

        Part Shunt(string node) => kind == "L"
            ? new Capacitor { Name = "S" + node, From = node, To = Circuit.Ground, Capacitance = PartValue.Known(12e-12) }
            : new Inductor { Name = "S" + node, From = node, To = Circuit.Ground, Inductance = PartValue.Known(70e-9) };
        return new Circuit
        {
            Name = "made for a test",
            PortIn = "a",
            PortOut = "b",
            Parts = [Shunt("a"), .. values.Select(Of), Shunt("b")],
        };
    }
}
