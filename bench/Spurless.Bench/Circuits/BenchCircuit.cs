using System.Globalization;
using Spurless.Circuits.Parts;

namespace Spurless.Bench.Circuits;

/// <summary>
/// The benchmark network: 20 nodes, 59 elements; a ladder of 20 tanks with Q, coupled by capacitors, and bypassed in places. Nothing in it
/// is special but its size.
/// </summary>
internal static class BenchCircuit
{
    public const int Nodes = 20;

    public static Circuit Make(PartTolerance? tolerance = null)
    {
        List<Part> parts = [];
        PartLoss coil = PartLoss.QualityFactor(160, 145e6), capacitor = PartLoss.QualityFactor(400, 145e6);
        static string Node(int i) => "n" + i.ToString(CultureInfo.InvariantCulture);
        string Name(string letter) => letter + parts.Count.ToString(CultureInfo.InvariantCulture);
        for (int i = 0; i < Nodes; i++)
        {
            parts.Add(
                new Inductor
                {
                    Name = Name("L"),
                    From = Node(i),
                    To = Circuit.Ground,
                    Inductance = PartValue.Known((27 + (i % 3)) * 1e-9),
                    Loss = coil,
                    Tolerance = tolerance,
                });
            parts.Add(
                new Capacitor
                {
                    Name = Name("C"),
                    From = Node(i),
                    To = Circuit.Ground,
                    Capacitance = PartValue.Known((36 + (i % 2)) * 1e-12),
                    Loss = capacitor,
                    Tolerance = tolerance,
                });
            if (i > 0)
            {
                parts.Add(
                    new Capacitor
                    {
                        Name = Name("C"),
                        From = Node(i - 1),
                        To = Node(i),
                        Capacitance = PartValue.Known(4e-12),
                        Loss = capacitor,
                        Tolerance = tolerance,
                    });
            }
        }

        return new Circuit { Name = "bench", PortIn = Node(0), PortOut = Node(Nodes - 1), Parts = parts };
    }

    public static double[] Frequencies(int points) => [.. Enumerable.Range(0, points).Select(i => 120e6 + (60e6 * i / (points - 1)))];
}
