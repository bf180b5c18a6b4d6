using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Solving;

/// <summary>
/// Ladders against chain (ABCD) matrices multiplied out stage by stage, with no nodes and no equations to solve: the laws of the parts'
/// losses are those of docs/method/circuits.md, written out once more. Every kind of two-terminal part, in series and to ground, and lines.
/// </summary>
public sealed class ChainMatrixTests
{
    private const double C = 299_792_458;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 80)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Solve_a_ladder_is_the_product_of_its_chain_matrices(int seed)
    {
        Random random = new(seed);
        List<(Func<double, Complex[]> Stage, Func<string, string, Part> Make, bool Series)> stages =
            [.. Enumerable.Range(0, random.Next(1, 9)).Select(_ => Stage(random))];
        double reference = random.Next(3) == 0 ? 75 : 50;
        (Circuit circuit, _) = Build(stages, reference);
        double[] hertz = [2e6, 33.7e6, 145.05e6, 433.5e6, 1.29e9];
        ScatteringMatrix[] found = CircuitSolver.Create(circuit).Solve(hertz);
        for (int i = 0; i < hertz.Length; i++)
        {
            Complex[] chain = [1, 0, 0, 1];
            foreach ((Func<double, Complex[]> stage, _, _) in stages)
            {
                chain = Times(chain, stage(hertz[i]));
            }

            (Complex a, Complex b, Complex c, Complex d) = (chain[0], chain[1] / reference, chain[2] * reference, chain[3]);
            Complex sum = a + b + c + d;
            ScatteringMatrix expected = new((a + b - c - d) / sum, 2 * ((a * d) - (b * c)) / sum, 2 / sum, (-a + b - c + d) / sum);
            Near(expected.S11, found[i].S11, seed, hertz[i]);
            Near(expected.S22, found[i].S22, seed, hertz[i]);

            // Far down in a stop band digits are lost in both: as many as the level is down.
            Near(expected.S21, found[i].S21, seed, hertz[i]);
            Near(found[i].S21, found[i].S12, seed, hertz[i]);
        }
    }

    /// <summary>A ladder turned round is the same with its ports exchanged.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Solve_a_ladder_turned_round_exchanges_its_ports(int seed)
    {
        Random random = new(seed + 1000);
        List<(Func<double, Complex[]> Stage, Func<string, string, Part> Make, bool Series)> stages =
            [.. Enumerable.Range(0, random.Next(2, 8)).Select(_ => Stage(random))];
        double[] hertz = [14.2e6, 145.05e6, 439e6];
        ScatteringMatrix[] there = CircuitSolver.Create(Build(stages, 50).Circuit).Solve(hertz);
        stages.Reverse();
        ScatteringMatrix[] back = CircuitSolver.Create(Build(stages, 50).Circuit).Solve(hertz);
        for (int i = 0; i < hertz.Length; i++)
        {
            Near(there[i].S11, back[i].S22, seed, hertz[i]);
            Near(there[i].S22, back[i].S11, seed, hertz[i]);
            Near(there[i].S21, back[i].S12, seed, hertz[i]);
        }
    }

    /// <summary>
    /// All impedances k times as large at a port k times as large is the same filter; all values k times as small is the filter k times as
    /// high in frequency (lossless parts, as the laws of loss know their own frequencies).
    /// </summary>
    [Theory]
    [InlineData(0.2)]
    [InlineData(3)]
    [InlineData(12.5)]
    public void Solve_scaling_of_impedance_and_frequency_changes_nothing(double k)
    {
        Circuit Filter(double ohm, double l, double c) => new()
        {
            Name = "low-pass",
            PortIn = "a",
            PortOut = "c",
            ImpedanceOhm = ohm,
            Parts =
            [
                new Capacitor { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(22e-12 * c) },
                new Inductor { Name = "L1", From = "a", To = "b", Inductance = PartValue.Known(91e-9 * l) },
                new Capacitor { Name = "C2", From = "b", To = Circuit.Ground, Capacitance = PartValue.Known(39e-12 * c) },
                new Inductor { Name = "L2", From = "b", To = "c", Inductance = PartValue.Known(68e-9 * l) },
            ],
        };
        double[] hertz = [10e6, 100e6, 145e6, 300e6];
        ScatteringMatrix[] plain = CircuitSolver.Create(Filter(50, 1, 1)).Solve(hertz);
        ScatteringMatrix[] impedance = CircuitSolver.Create(Filter(50 * k, k, 1 / k)).Solve(hertz);
        ScatteringMatrix[] frequency = CircuitSolver.Create(Filter(50, 1 / k, 1 / k)).Solve([.. hertz.Select(f => f * k)]);
        for (int i = 0; i < hertz.Length; i++)
        {
            Near(plain[i].S21, impedance[i].S21, 0, hertz[i]);
            Near(plain[i].S11, impedance[i].S11, 0, hertz[i]);
            Near(plain[i].S21, frequency[i].S21, 0, hertz[i]);
            Near(plain[i].S11, frequency[i].S11, 0, hertz[i]);
        }
    }

    /// <summary>Names and order of parts and names of nodes are only names.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Solve_names_and_order_change_nothing(int seed)
    {
        Circuit c = RandomCircuits.Make(
            new(Lossy: true, Lines: true, Couplings: true, Transformers: true, Blocks: true), 8, new Random(seed));
        Random random = new(seed);
        Circuit mixed = c with { Parts = [.. c.Parts.OrderBy(_ => random.Next())] };
        double[] hertz = [20e6, 145e6, 450e6];
        ScatteringMatrix[] a = CircuitSolver.Create(c).Solve(hertz);
        ScatteringMatrix[] b = CircuitSolver.Create(mixed).Solve(hertz);
        for (int i = 0; i < hertz.Length; i++)
        {
            Assert.True((a[i].S21 - b[i].S21).Magnitude < 1e-8 * (1 + a[i].S21.Magnitude), $"seed {seed}: {a[i].S21} and {b[i].S21}");
            Assert.True((a[i].S11 - b[i].S11).Magnitude < 1e-8 * (1 + a[i].S11.Magnitude), $"seed {seed}: {a[i].S11} and {b[i].S11}");
        }
    }

    private static void Near(Complex expected, Complex actual, int seed, double hertz) =>
        Assert.True((expected - actual).Magnitude < 1e-9, $"seed {seed} at {hertz / 1e6} MHz: {expected} expected, {actual} found");

    private static (Circuit Circuit, int Nodes) Build(
        List<(Func<double, Complex[]> Stage, Func<string, string, Part> Make, bool Series)> stages, double ohm)
    {
        List<Part> parts = [];
        int node = 0;
        for (int i = 0; i < stages.Count; i++)
        {
            (_, Func<string, string, Part> make, bool series) = stages[i];
            Part part = make($"n{node}", series ? $"n{node + 1}" : Circuit.Ground);
            parts.Add(part with { Name = $"P{i}" });
            node += series ? 1 : 0;
        }

        // The least resistor that is allowed keeps a ladder of shunts alone on two ports.
        if (node == 0)
        {
            parts.Add(new Resistor { Name = "R0", From = "n0", To = "n1", Resistance = PartValue.Known(1e-9) });
            node = 1;
        }

        return (new Circuit { Name = "ladder", PortIn = "n0", PortOut = $"n{node}", ImpedanceOhm = ohm, Parts = [.. parts] }, node);
    }

    /// <summary>One stage by chance: its chain matrix at a frequency, the part, and whether it stands in the line or to ground.</summary>
    private static (Func<double, Complex[]> Stage, Func<string, string, Part> Make, bool Series) Stage(Random random)
    {
        bool series = random.Next(2) == 0;
        double q = 30 + random.Next(400);
        switch (random.Next(7))
        {
            case 0:
                double r = Math.Exp(random.NextDouble() * 6);
                Resistor Ohms(string a, string b) => new() { Name = "", From = a, To = b, Resistance = PartValue.Known(r) };
                return (Of(series, _ => r), Ohms, series);
            case 1:
                double l = 2e-9 * Math.Exp(random.NextDouble() * 5);
                double self = random.Next(2) * 0.3e-12;
                Complex Coil(double f)
                {
                    Complex z = new(2 * Math.PI * 100e6 * l / q * Math.Sqrt(f / 100e6), 2 * Math.PI * f * l);
                    return 1 / ((1 / z) + new Complex(0, 2 * Math.PI * f * self));
                }

                return (Of(series, Coil), (a, b) => new Inductor
                {
                    Name = "",
                    From = a,
                    To = b,
                    Inductance = PartValue.Known(l),
                    Loss = PartLoss.QualityFactor(q, 100e6),
                    SelfCapacitanceF = self,
                }, series);
            case 2:
                double c = 1e-12 * Math.Exp(random.NextDouble() * 5);
                double esl = random.Next(2) * 0.6e-9;
                Complex Capacitance(double f) => new(
                    1 / (2 * Math.PI * 146e6 * c * q), (2 * Math.PI * f * esl) - (1 / (2 * Math.PI * f * c)));
                return (Of(series, Capacitance), (a, b) => new Capacitor
                {
                    Name = "",
                    From = a,
                    To = b,
                    Capacitance = PartValue.Known(c),
                    Loss = PartLoss.QualityFactor(q, 146e6),
                    SeriesInductanceH = esl,
                }, series);
            case 3:
                double ohm = 0.05 + random.NextDouble();
                double cap = 1e-12 * Math.Exp(random.NextDouble() * 4);
                return (Of(series, f => new Complex(ohm, -1 / (2 * Math.PI * f * cap))), (a, b) => new Capacitor
                {
                    Name = "",
                    From = a,
                    To = b,
                    Capacitance = PartValue.Known(cap),
                    Loss = PartLoss.SeriesResistance(ohm),
                }, series);
            case 4:
                return Stub(random, series);
            default:
                return Line(random);
        }
    }

    private static (Func<double, Complex[]>, Func<string, string, Part>, bool) Stub(Random random, bool series)
    {
        double z0 = 25 + random.Next(100);
        double metres = 0.05 + (random.NextDouble() / 2);
        double velocity = 0.5 + (random.NextDouble() / 2);
        LineLoss loss = new(1e-5 * random.NextDouble(), 1e-10 * random.NextDouble());
        StubEnd end = random.Next(2) == 0 ? StubEnd.Open : StubEnd.Short;
        Complex Impedance(double f)
        {
            Complex tanh = Complex.Tanh(Gamma(f, velocity, loss) * metres);
            return end == StubEnd.Short ? z0 * tanh : z0 / tanh;
        }

        return (Of(series, Impedance), (a, b) => new Stub
        {
            Name = "",
            From = a,
            To = b,
            ImpedanceOhm = z0,
            Length = PartValue.Known(metres),
            Velocity = velocity,
            Loss = loss,
            End = end,
        }, series);
    }

    private static (Func<double, Complex[]>, Func<string, string, Part>, bool) Line(Random random)
    {
        double z0 = 25 + random.Next(100);
        double metres = 0.05 + (random.NextDouble() * 3);
        double velocity = 0.5 + (random.NextDouble() / 2);
        LineLoss loss = new(1e-5 * random.NextDouble(), 1e-10 * random.NextDouble());
        Complex[] Chain(double f)
        {
            Complex gl = Gamma(f, velocity, loss) * metres;
            return [Complex.Cosh(gl), z0 * Complex.Sinh(gl), Complex.Sinh(gl) / z0, Complex.Cosh(gl)];
        }

        return (Chain, (a, b) => new Line
        {
            Name = "",
            From = a,
            To = b,
            ImpedanceOhm = z0,
            Length = PartValue.Known(metres),
            Velocity = velocity,
            Loss = loss,
        }, true);
    }

    /// <summary>Per metre: the loss in nepers (a decibel is ln 10 / 20 of one) and the phase.</summary>
    private static Complex Gamma(double f, double velocity, LineLoss loss) =>
        new(loss.DbPerMetre(f) * Math.Log(10) / 20, 2 * Math.PI * f / (velocity * C));

    private static Func<double, Complex[]> Of(bool series, Func<double, Complex> impedance) =>
        f => series ? [1, impedance(f), 0, 1] : [1, 0, 1 / impedance(f), 1];

    private static Complex[] Times(Complex[] x, Complex[] y) =>
    [
        (x[0] * y[0]) + (x[1] * y[2]), (x[0] * y[1]) + (x[1] * y[3]), (x[2] * y[0]) + (x[3] * y[2]), (x[2] * y[1]) + (x[3] * y[3]),
    ];
}
