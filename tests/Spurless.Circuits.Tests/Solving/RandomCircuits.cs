using System.Globalization;
using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Solving;

/// <summary>Random networks round 100 MHz in which every node is touched twice and has a way to ground.</summary>
internal static class RandomCircuits
{
    /// <summary>What may occur beside R (if lossy), L and C.</summary>
    public sealed record Kinds(bool Lossy, bool Lines = false, bool Couplings = false, bool Transformers = false, bool Blocks = false);

    public static readonly Gen<double> Frequency = Gen.Double[30e6, 500e6];

    public static Gen<Circuit> Of(Kinds kinds, int mostNodes = 9) =>
        Gen.Select(Gen.Int[2, mostNodes], Gen.Int[0, int.MaxValue - 1], (nodes, seed) => Make(kinds, nodes, new Random(seed)));

    public static Circuit Make(Kinds kinds, int nodes, Random random, double decades = 1)
    {
        List<Part> parts = [];
        string Node(int i) => i < 0 ? Circuit.Ground : "n" + i.ToString(CultureInfo.InvariantCulture);
        for (int i = 0; i < nodes; i++)
        {
            parts.Add(Lumped(Node(i), Circuit.Ground));
            if (i > 0)
            {
                parts.Add(kinds.Lines && random.Next(4) == 0 ? NewLine(Node(i - 1), Node(i)) : Lumped(Node(i - 1), Node(i)));
            }
        }

        for (int extra = random.Next(nodes + 1); extra > 0; extra--)
        {
            int a = random.Next(nodes), b = random.Next(-1, nodes);
            if (a == b)
            {
                continue;
            }

            parts.Add(random.Next(5) switch
            {
                0 when kinds.Lines && b >= 0 => NewLine(Node(a), Node(b)),
                1 when kinds.Lines => new Stub
                {
                    Name = Next("W"),
                    From = Node(a),
                    To = Node(b),
                    ImpedanceOhm = 20 + (130 * random.NextDouble()),
                    Length = PartValue.Known(0.1 + random.NextDouble()),
                    Velocity = 0.66,
                    Loss = kinds.Lossy ? LineLoss.At(0.1, 100e6) : default,
                    End = random.Next(2) == 0 ? StubEnd.Open : StubEnd.Short,
                },
                2 when kinds.Transformers && !parts.Exists(static p => p is Transformer) && Other(a, b) is { } other => new Transformer
                {
                    Name = Next("X"),
                    FirstTurns = 1 + random.Next(4),
                    SecondTurns = 1 + random.Next(4),
                    FirstFrom = Node(a),
                    FirstTo = Node(b),
                    SecondFrom = Node(other),
                    SecondTo = Circuit.Ground,
                },
                3 when kinds.Blocks && b >= 0 =>
                    new TwoPortBlock { Name = Next("N"), From = Node(a), To = Node(b), Source = new FixedTwoPort(random) },
                _ => Lumped(Node(a), Node(b)),
            });
        }

        if (kinds.Couplings)
        {
            string[] inductors = [.. parts.OfType<Inductor>().Select(static l => l.Name)];
            for (int i = 0; i + 1 < inductors.Length; i += 2)
            {
                parts.Add(
                    new Coupling
                    {
                        Name = Next("K"),
                        Coefficient = PartValue.Known(-0.9 + (1.8 * random.NextDouble())),
                        First = inductors[i],
                        Second = inductors[i + 1],
                    });
            }

            if (inductors.Length >= 4)
            {
                parts.RemoveAt(parts.Count - 1);

                // Both pairs at most 0.9: (1 - 0.81)^2 = 0.036 leaves room for 0.15^2, and the four windings can be.
                parts.Add(
                    new Coupling { Name = Next("K"), Coefficient = PartValue.Known(0.15), First = inductors[0], Second = inductors[2] });
            }
        }

        return new Circuit { Name = "random", PortIn = "n0", PortOut = Node(nodes - 1), Parts = parts };

        // A second transformer, or one whose windings share a node, may make a loop of ideal parts that has no solution.
        int? Other(int a, int b) => nodes < 3 ? null : Enumerable.Range(0, nodes).First(i => i != a && i != b);
        string Next(string letter) => letter + parts.Count.ToString(CultureInfo.InvariantCulture);
        double Log(double low, double high) =>
            low * Math.Pow(high / low, random.NextDouble()) * Math.Pow(10, (random.NextDouble() - 0.5) * (decades - 1));
        PartLoss? Loss(double least) => !kinds.Lossy || random.Next(3) == 0 ? null
            : random.Next(3) == 0
                ? PartLoss.SeriesResistance(0.05 + random.NextDouble())
                : PartLoss.QualityFactor(random.Next(2) == 0 ? least : least * (1 + random.NextDouble()), 100e6);
        Line NewLine(string a, string b) => new()
        {
            Name = Next("W"),
            From = a,
            To = b,
            ImpedanceOhm = 20 + (130 * random.NextDouble()),
            Length = PartValue.Known(0.1 + random.NextDouble()),
            Velocity = 0.8,
            Loss = kinds.Lossy ? new LineLoss(1e-5, 1e-10) : default,
        };
        Part Lumped(string a, string b) => random.Next(kinds.Lossy ? 5 : 4) switch
        {
            0 or 1 => new Inductor
            {
                Name = Next("L"),
                From = a,
                To = b,
                Inductance = PartValue.Known(Log(5e-9, 500e-9)),
                Loss = Loss(60),
                SelfCapacitanceF = random.Next(3) == 0 ? 0.4e-12 : 0,
            },
            2 or 3 => new Capacitor
            {
                Name = Next("C"),
                From = a,
                To = b,
                Capacitance = PartValue.Known(Log(1e-12, 100e-12)),
                Loss = Loss(300),
                SeriesInductanceH = random.Next(3) == 0 ? 0.6e-9 : 0,
            },
            _ => new Resistor { Name = Next("R"), From = a, To = b, Resistance = PartValue.Known(Log(2, 2000)) },
        };
    }

    /// <summary>A non-reciprocal two-port with complex references, the same at all frequencies.</summary>
    private sealed class FixedTwoPort(Random random) : ITwoPort
    {
        private readonly ScatteringMatrix _s = new(Any(random), Any(random), Any(random) + 1, Any(random));

        public double LowestHz => 0;

        public double HighestHz => double.PositiveInfinity;

        public Complex Reference1 { get; } = new(30 + (40 * random.NextDouble()), 20);

        public Complex Reference2 { get; } = new(75, -10);

        public ScatteringMatrix At(double frequencyHz) => _s;

        private static Complex Any(Random random) => new(0.8 * (random.NextDouble() - 0.5), 0.8 * (random.NextDouble() - 0.5));
    }
}
