using System.Globalization;
using Spurless.Circuits.Parts;

namespace Spurless.Fit.Tests;

/// <summary>
/// Makes a random band-pass circuit of a family: what it is, and what a person with a ruler and no capacitance meter writes down.
/// </summary>
/// <remarks>
/// Tanks are near one frequency and couplings a few per cent of their capacitance or inductance, as in a filter; nothing is designed. A
/// coil's true inductance lies normally (10 %, in ratio) about what is written down. Capacitors are written as unknown within 0.3 to 3,000
/// pF scaled by wavelength, couplings 0.005 to 0.5, stub lengths over a factor of 20, coils' Q unknown; capacitors' Q (400) is written as
/// it is.
/// </remarks>
internal sealed class FitCircuitMaker(SeededNoise noise, FitTopology topology)
{
    private readonly List<Part> _truth = [];
    private readonly List<Part> _traced = [];
    private double _scale;
    private int _number;

    /// <summary>The frequency of the tanks in hertz.</summary>
    public double CentreHz { get; private set; }

    public (Circuit Truth, Circuit Traced) Make()
    {
        CentreHz = noise.Ratio(80e6, 450e6);
        _scale = 145e6 / CentreHz;
        int tanks = 2 + (int)(3 * noise.Uniform());
        switch (topology)
        {
            case FitTopology.SeriesMesh:
                Mesh(tanks);
                break;
            case FitTopology.InductiveCoupling:
                TopCapacitor(tanks, magnetic: true);
                break;
            default:
                TopCapacitor(tanks, magnetic: false);
                break;
        }

        if (topology == FitTopology.Traps)
        {
            Traps(tanks);
        }
        else if (topology == FitTopology.Stub)
        {
            Stub();
        }

        return (Of(_truth, "truth"), Of(_traced, "traced"));
    }

    private static Circuit Of(List<Part> parts, string name) => new() { Name = name, PortIn = "in", PortOut = "out", Parts = parts };

    private static string Node(int i) => "n" + i.ToString(CultureInfo.InvariantCulture);

    private void TopCapacitor(int tanks, bool magnetic)
    {
        double omega = 2 * Math.PI * CentreHz;
        Capacitor("in", Node(0), 6.5e-12 * _scale * noise.Ratio(0.6, 1.6));
        string previous = "";
        for (int i = 0; i < tanks; i++)
        {
            double henries = 28e-9 * _scale * noise.Ratio(0.7, 1.5), tuned = 1 / (omega * omega * henries);
            string coil = Coil(Node(i), Circuit.Ground, henries);
            double stolen = i == 0 || i == tanks - 1 ? 0.16 : 0.06;
            Capacitor(Node(i), Circuit.Ground, tuned * (1 - stolen) * noise.Between(0.97, 1.03));
            if (i > 0)
            {
                double k = noise.Ratio(0.02, 0.07);
                if (magnetic)
                {
                    Couple(previous, coil, k);
                }
                else
                {
                    Capacitor(Node(i - 1), Node(i), k * tuned);
                }
            }

            previous = coil;
        }

        Capacitor(Node(tanks - 1), "out", 6.5e-12 * _scale * noise.Ratio(0.6, 1.6));
    }

    private void Mesh(int tanks)
    {
        double omega = 2 * Math.PI * CentreHz;
        string at = "in";
        for (int i = 0; i < tanks; i++)
        {
            double henries = 350e-9 * _scale * noise.Ratio(0.7, 1.4), tuned = 1 / (omega * omega * henries);
            string middle = "m" + i.ToString(CultureInfo.InvariantCulture), next = i == tanks - 1 ? "out" : Node(i);
            Coil(at, middle, henries);
            Capacitor(middle, next, tuned * noise.Between(1.03, 1.10));
            if (i < tanks - 1)
            {
                Capacitor(next, Circuit.Ground, tuned * noise.Ratio(10, 25));
            }

            at = next;
        }
    }

    private void Traps(int tanks)
    {
        double omega = 2 * Math.PI * CentreHz;
        int count = 1 + (int)(2 * noise.Uniform());
        for (int i = 0; i < count; i++)
        {
            // One at the input, one at the output: above and below the pass-band.
            double at = omega * (i == 0 ? noise.Between(1.15, 1.45) : noise.Between(0.68, 0.88));
            double henries = 60e-9 * _scale * noise.Ratio(0.7, 1.5);
            string foot = "t" + i.ToString(CultureInfo.InvariantCulture);
            string node = i == 0 ? "in" : "out";
            Coil(node, foot, henries);
            Capacitor(foot, Circuit.Ground, 1 / (at * at * henries));
        }

        _ = tanks;
    }

    private void Stub()
    {
        StubEnd end = noise.Uniform() < 0.5 ? StubEnd.Open : StubEnd.Short;
        double metres = 0.66 * 2.998e8 / CentreHz * noise.Between(0.15, 0.35);
        Part Make(PartValue length) => new Stub
        {
            Name = "W1",
            From = "in",
            To = Circuit.Ground,
            ImpedanceOhm = 50,
            Length = length,
            Velocity = 0.66,
            Loss = LineLoss.At(0.15, 146e6),
            End = end,
        };
        _truth.Add(Make(PartValue.Known(metres)));
        double low = 0.66 * 2.998e8 / CentreHz * 0.03;
        _traced.Add(Make(PartValue.Unknown(low, 20 * low)));
    }

    private string Next(string letter) => letter + (++_number).ToString(CultureInfo.InvariantCulture);

    private void Capacitor(string from, string to, double farads)
    {
        string name = Next("C");
        Capacitor truth = new()
        {
            Name = name,
            From = from,
            To = to,
            Capacitance = PartValue.Known(farads),
            Loss = PartLoss.QualityFactor(400, CentreHz),
        };
        _truth.Add(truth);
        _traced.Add(truth with { Capacitance = PartValue.Unknown(0.3e-12 * _scale, 3e-9 * _scale) });
    }

    private string Coil(string from, string to, double henries)
    {
        string name = Next("L");
        double estimate = henries * Math.Exp(0.1 * noise.Normal());
        Inductor truth = new()
        {
            Name = name,
            From = from,
            To = to,
            Inductance = PartValue.Known(henries),
            Loss = PartLoss.QualityFactor(noise.Ratio(90, 250), CentreHz),
        };
        _truth.Add(truth);
        _traced.Add(
            truth with
            {
                Inductance = PartValue.Known(estimate),
                About = 0.1,
                Loss = PartLoss.QualityFactor(PartValue.Unknown(), CentreHz),
            });
        return name;
    }

    private void Couple(string first, string second, double k)
    {
        string name = Next("K");
        Coupling truth = new() { Name = name, First = first, Second = second, Coefficient = PartValue.Known(k) };
        _truth.Add(truth);
        _traced.Add(truth with { Coefficient = PartValue.Unknown(0.005, 0.5) });
    }
}
