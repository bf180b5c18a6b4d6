using System.Globalization;
using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Tests.Solving;

/// <summary>Circuits whose responses are known from outside the program.</summary>
internal static class KnownCircuits
{
    /// <summary>The demo's filter (docs/checks.md 9, an invented one).</summary>
    public static Circuit Demo(PartTolerance? tolerance = null)
    {
        PartLoss coil = PartLoss.QualityFactor(160, 145.05e6), capacitor = PartLoss.QualityFactor(400, 145.05e6);
        Part C(string name, double pF, string a, string b) =>
            new Capacitor
            {
                Name = name,
                From = a,
                To = b,
                Capacitance = PartValue.Known(pF * 1e-12),
                Loss = capacitor,
                Tolerance = tolerance,
            };
        Part L(string name, double nH, string a) =>
            new Inductor
            {
                Name = name,
                From = a,
                To = Circuit.Ground,
                Inductance = PartValue.Known(nH * 1e-9),
                Loss = coil,
                Tolerance = tolerance,
            };
        return new()
        {
            Name = "three coupled tanks, as traced",
            PortIn = "a",
            PortOut = "d",
            Parts =
            [
                C("C1", 6.8, "a", "b"),
                L("L1", 27.6, "b"),
                C("C2", 36, "b", Circuit.Ground),
                C("C3", 1.6, "b", "c"),
                L("L2", 28.6, "c"),
                C("C4", 39, "c", Circuit.Ground),
                C("C5", 1.6, "c", "e"), L("L3", 27.6, "e"), C("C6", 36, "e", Circuit.Ground), C("C7", 6.8, "e", "d"),
            ],
        };
    }

    /// <summary>
    /// A low-pass ladder from prototype values, series inductor first; an unequal load is brought to the port by an ideal transformer.
    /// </summary>
    /// <param name="g">g1 to gn.</param>
    /// <param name="load">g(n+1), a resistance after a shunt element and a conductance after a series one.</param>
    /// <param name="omega">Cut-off in radians per second.</param>
    public static Circuit LowPass(double[] g, double load, double omega)
    {
        List<Part> parts = [];
        string node = "in";
        for (int i = 0; i < g.Length; i++)
        {
            string number = (i + 1).ToString(CultureInfo.InvariantCulture);
            if (i % 2 == 0)
            {
                parts.Add(
                    new Inductor { Name = "L" + number, From = node, To = "n" + number, Inductance = PartValue.Known(g[i] * 50 / omega) });
                node = "n" + number;
            }
            else
            {
                parts.Add(
                    new Capacitor
                    {
                        Name = "C" + number,
                        From = node,
                        To = Circuit.Ground,
                        Capacitance = PartValue.Known(g[i] / 50 / omega),
                    });
            }
        }

        double resistance = g.Length % 2 == 0 ? load : 1 / load;
        if (Math.Abs(resistance - 1) > 1e-12)
        {
            parts.Add(
                new Transformer
                {
                    Name = "X1",
                    FirstTurns = Math.Sqrt(resistance),
                    SecondTurns = 1,
                    FirstFrom = node,
                    FirstTo = Circuit.Ground,
                    SecondFrom = "out",
                    SecondTo = Circuit.Ground,
                });
            node = "out";
        }

        return new() { Name = "ladder", PortIn = "in", PortOut = node, Parts = parts };
    }

    /// <summary>
    /// A band-pass of capacitively coupled shunt tanks; Q is that of the inductors as a parallel resistance proportional to frequency
    /// (docs/checks.md 3.4).
    /// </summary>
    public static Circuit TopCoupled(double end, double coupling, double[] shunt, double henry, double q, double frequencyHz)
    {
        List<Part> parts = [];
        string Node(int i) => "r" + i.ToString(CultureInfo.InvariantCulture);
        void C(string name, string a, string b, double pF) =>
            parts.Add(new Capacitor { Name = name, From = a, To = b, Capacitance = PartValue.Known(pF * 1e-12) });
        C("CIN", "in", Node(0), end);
        for (int i = 0; i < shunt.Length; i++)
        {
            string number = i.ToString(CultureInfo.InvariantCulture);
            C("C" + number, Node(i), Circuit.Ground, shunt[i]);
            parts.Add(new Inductor { Name = "L" + number, From = Node(i), To = Circuit.Ground, Inductance = PartValue.Known(henry) });
            if (double.IsFinite(q))
            {
                parts.Add(
                    new Resistor
                    {
                        Name = "R" + number,
                        From = Node(i),
                        To = Circuit.Ground,
                        Resistance = PartValue.Known(2 * Math.PI * frequencyHz * henry * q),
                    });
            }

            if (i > 0)
            {
                C("CC" + number, Node(i - 1), Node(i), coupling);
            }
        }

        C("COUT", Node(shunt.Length - 1), "out", end);
        return new() { Name = "top coupled", PortIn = "in", PortOut = "out", Parts = parts };
    }
}
