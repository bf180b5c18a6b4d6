using Spurless.Circuits.Parts;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Families;

/// <summary>
/// Traps that leave the pass-band matched: low-pass and high-pass ladders in which a branch resonates at what is to be kept out. The branch
/// takes the
/// value that its plain element would have in the middle of the pass-band: <c>C = Ct/(1 - (f0/fn)^2)</c> of a series resonator to ground
/// that shorts fn above,
/// <c>L = Lt/(1 - (f0/fn)^2)</c> of a parallel one in line, and their duals for fn below.
/// </summary>
internal static class TrapFilters
{
    /// <summary>A T: series elements with series-resonant traps to ground between them.</summary>
    /// <param name="prototype">Odd order, one trap for each even element.</param>
    /// <param name="notchesHz">What to keep out, in hertz, all above or all below the pass-band.</param>
    /// <param name="centreHz">Middle of the pass-band in hertz.</param>
    /// <param name="edgeHz">Edge of the ladder in hertz.</param>
    /// <param name="ohms">Port impedance.</param>
    public static Blueprint SeriesTraps(Prototype prototype, IReadOnlyList<double> notchesHz, double centreHz, double edgeHz, double ohms)
    {
        bool above = notchesHz[0] > centreHz;
        double w = 2 * Math.PI * edgeHz;
        Draft d = new(ohms);
        string at = d.Node(), portIn = at;
        for (int i = 1; i <= prototype.Order; i++)
        {
            double g = prototype.G(i);
            if (i % 2 == 1)
            {
                string next = d.Node();
                _ = above ? d.Inductor(at, next, g * ohms / w) : d.Capacitor(at, next, 1 / (g * w * ohms));
                at = next;
                continue;
            }

            double notch = notchesHz[(i / 2) - 1];
            (double coil, double capacitor) = ToGround(above ? g / (w * ohms) : ohms / (g * w), notch, centreHz);
            string middle = d.Node();
            string l = d.Inductor(at, middle, coil), c = d.Capacitor(middle, Circuit.Ground, capacitor);
            d.Spot(TuningKind.Trap, at, c, l, notch);
        }

        return d.Done(Words(notchesHz, above, "to ground"), portIn, at);
    }

    /// <summary>A pi: elements to ground with parallel-resonant traps in line between them.</summary>
    /// <inheritdoc cref="SeriesTraps"/>
    public static Blueprint ParallelTraps(Prototype prototype, IReadOnlyList<double> notchesHz, double centreHz, double edgeHz, double ohms)
    {
        bool above = notchesHz[0] > centreHz;
        double w = 2 * Math.PI * edgeHz;
        Draft d = new(ohms);
        string at = d.Node(), portIn = at;
        for (int i = 1; i <= prototype.Order; i++)
        {
            double g = prototype.G(i);
            if (i % 2 == 1)
            {
                _ = above ? d.Capacitor(at, Circuit.Ground, g / (w * ohms)) : d.Inductor(at, Circuit.Ground, ohms / (g * w));
                continue;
            }

            double notch = notchesHz[(i / 2) - 1];
            (double coil, double capacitor) = InLine(above ? g * ohms / w : 1 / (g * w * ohms), notch, centreHz);
            string next = d.Node();
            string l = d.Inductor(at, next, coil), c = d.Capacitor(at, next, capacitor);
            d.Spot(TuningKind.Trap, at, c, l, notch);
            at = next;
        }

        return d.Done(Words(notchesHz, above, "in line"), portIn, at);
    }

    /// <summary>A bridged T: two capacitors in line, a coil across both, a resistor from their middle to ground, which takes out what the
    /// coil's loss leaves of the notch.</summary>
    public static Blueprint Bridged(double notchHz, double centreHz, double coilQ, double ohms)
    {
        // With reactance x of each capacitor at the notch the coil has 2x, and R = Q x/2 balances its loss (derived by star-mesh
        // transformation).
        double wn = 2 * Math.PI * notchHz, x = 0.6 * ohms;
        Draft d = new(ohms);
        string portIn = d.Node(), middle = d.Node(), portOut = d.Node();
        string c = d.Capacitor(portIn, middle, 1 / (wn * x));
        d.Capacitor(middle, portOut, 1 / (wn * x));
        string l = d.Inductor(portIn, portOut, 2 * x / wn);
        d.Resistor(middle, Circuit.Ground, Math.Max(1, coilQ * x / 2));
        d.Spot(TuningKind.Trap, portIn, c, l, notchHz);
        return d.Done($"bridged trap {(notchHz > centreHz ? "above" : "below")}", portIn, portOut);
    }

    /// <summary>Series resonators to ground at the ports of a filter, one or two, light enough to leave its pass-band nearly
    /// alone.</summary>
    public static Blueprint AtPorts(Blueprint filter, IReadOnlyList<double> notchesHz, double centreHz, double ohms)
    {
        List<Part> parts = [.. filter.Circuit.Parts];
        List<TuningSpot> spots = [.. filter.Spots];
        double w0 = 2 * Math.PI * centreHz;
        for (int i = 0; i < notchesHz.Count; i++)
        {
            // In the middle of the band the branch has three times the port's impedance.
            double r = notchesHz[i] / centreHz, node = 3 * ohms;
            (double coil, double capacitor) = r > 1 ? ToGround(1 / (w0 * node), notchesHz[i], centreHz)
                : ToGround(node / w0, notchesHz[i], centreHz);
            string at = i == 0 ? filter.Circuit.PortIn : filter.Circuit.PortOut, middle = i == 0 ? "x" : "y";
            string l = Next(parts, 'L');
            parts.Add(new Inductor { Name = l, From = at, To = middle, Inductance = PartValue.Known(coil) });
            string c = Next(parts, 'C');
            parts.Add(new Capacitor { Name = c, From = middle, To = Circuit.Ground, Capacitance = PartValue.Known(capacitor) });
            spots.Add(new(TuningKind.Trap, at, c, l, notchesHz[i]));
        }

        string words = filter.Family + (notchesHz.Count == 1 ? ", and a trap" : ", and two traps");
        return new Blueprint(words, filter.Circuit with { Name = words, Parts = parts }, spots);
    }

    // What a plain capacitor (notch above) or coil (below) to ground becomes.
    private static (double Coil, double Capacitor) ToGround(double plain, double notchHz, double centreHz)
    {
        double wn = 2 * Math.PI * notchHz, r = centreHz / notchHz * (centreHz / notchHz);
        if (notchHz > centreHz)
        {
            double c = plain * (1 - r);
            return (1 / (wn * wn * c), c);
        }

        double l = plain / (1 - (1 / r));
        return (l, 1 / (wn * wn * l));
    }

    // What a plain coil (notch above) or capacitor (below) in line becomes.
    private static (double Coil, double Capacitor) InLine(double plain, double notchHz, double centreHz)
    {
        double wn = 2 * Math.PI * notchHz, r = centreHz / notchHz * (centreHz / notchHz);
        if (notchHz > centreHz)
        {
            double l = plain * (1 - r);
            return (l, 1 / (wn * wn * l));
        }

        double c = plain / (1 - (1 / r));
        return (1 / (wn * wn * c), c);
    }

    private static string Next(List<Part> parts, char kind) => kind + (1 + parts.Count(p => p.Name[0] == kind))
        .ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static string Words(IReadOnlyList<double> notches, bool above, string where) =>
        (above ? "low-pass" : "high-pass")
        + " with " + (notches.Count == 1 ? "a trap" : notches.Count == 2 ? "two traps" : "three traps") + " " + where;
}
