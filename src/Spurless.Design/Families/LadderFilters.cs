using Spurless.Circuits.Parts;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Families;

/// <summary>Low-pass, high-pass and band-pass ladders straight from a prototype: exact at every frequency, beginning with an element to
/// ground.</summary>
internal static class LadderFilters
{
    /// <summary>A low-pass ladder with its edge at a frequency.</summary>
    public static Blueprint LowPass(Prototype prototype, double edgeHz, double ohms) =>
        Make(prototype, ohms, "low-pass ladder", (d, g, from, to, shunt) =>
    {
        double w = 2 * Math.PI * edgeHz;
        if (shunt)
        {
            d.Capacitor(from, to, g / (w * ohms));
        }
        else
        {
            d.Inductor(from, to, g * ohms / w);
        }
    });

    /// <summary>A high-pass ladder with its edge at a frequency.</summary>
    public static Blueprint HighPass(Prototype prototype, double edgeHz, double ohms) =>
        Make(prototype, ohms, "high-pass ladder", (d, g, from, to, shunt) =>
    {
        double w = 2 * Math.PI * edgeHz;
        if (shunt)
        {
            d.Inductor(from, to, ohms / (g * w));
        }
        else
        {
            d.Capacitor(from, to, 1 / (g * w * ohms));
        }
    });

    /// <summary>A band-pass ladder of tanks and series resonators.</summary>
    public static Blueprint BandPass(Prototype prototype, double centreHz, double widthHz, double ohms) =>
        Make(prototype, ohms, "band-pass ladder", (d, g, from, to, shunt) =>
    {
        double w0 = 2 * Math.PI * centreHz, w = widthHz / centreHz;
        if (shunt)
        {
            string coil = d.Inductor(from, to, w * ohms / (g * w0)), capacitor = d.Capacitor(from, to, g / (w * w0 * ohms));
            d.Spot(TuningKind.Tank, from, capacitor, coil);
        }
        else
        {
            string middle = d.Node();
            string coil = d.Inductor(from, middle, g * ohms / (w * w0)), capacitor = d.Capacitor(middle, to, w / (g * w0 * ohms));
            d.Spot(TuningKind.Mesh, from, capacitor, coil);
        }
    });

    // g1 to ground, g2 in series, and so on; only orders that end on the source's resistance are of use between equal ports.
    private static Blueprint Make(Prototype prototype, double ohms, string family, Action<Draft, double, string, string, bool> element)
    {
        Draft d = new(ohms);
        string at = d.Node(), portIn = at;
        for (int i = 1; i <= prototype.Order; i++)
        {
            if (i % 2 == 1)
            {
                element(d, prototype.G(i), at, Circuit.Ground, true);
            }
            else
            {
                string next = d.Node();
                element(d, prototype.G(i), at, next, false);
                at = next;
            }
        }

        return d.Done(family, portIn, at);
    }
}
