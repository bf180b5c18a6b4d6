using Spurless.Circuits.Parts;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Families;

/// <summary>
/// Band-pass filters of series resonators with capacitors to ground between them: the dual of tanks with top capacitors. Impedance
/// inverters <c>K = w x / sqrt(g g')</c>,
/// <c>x = w0 L</c>; a capacitor across each port takes its resistance down to <c>K01^2/R</c> (Matthaei, Young, Jones, chapter 8; from
/// memory).
/// </summary>
internal static class MeshFilters
{
    /// <summary>The filter, or null where the prototype cannot be had with these coils.</summary>
    /// <param name="prototype">The prototype.</param>
    /// <param name="centreHz">Middle in hertz.</param>
    /// <param name="widthHz">Bandwidth in hertz between the prototype's edges.</param>
    /// <param name="coilH">Inductance of every mesh in henries.</param>
    /// <param name="ohms">Port impedance.</param>
    public static Blueprint? Make(Prototype prototype, double centreHz, double widthHz, double coilH, double ohms)
    {
        int n = prototype.Order;
        double w0 = 2 * Math.PI * centreHz, w = widthHz / centreHz, x = w0 * coilH;
        double first = x / prototype.FirstQ(w), last = x / prototype.LastQ(w);
        if (first >= 0.999 * ohms || last >= 0.999 * ohms)
        {
            return null;
        }

        // R parallel C: resistance R/(1 + q^2), reactance -R q/(1 + q^2).
        double q1 = Math.Sqrt((ohms / first) - 1), q2 = Math.Sqrt((ohms / last) - 1);
        double[] reactance = new double[n];
        Array.Fill(reactance, x);
        reactance[0] -= first * q1;
        reactance[^1] -= last * q2;
        for (int i = 0; i + 1 < n; i++)
        {
            double k = x * prototype.Coupling(i + 1, w);
            reactance[i] -= k;
            reactance[i + 1] -= k;
        }

        Draft d = new(ohms);
        string at = d.Node(), portIn = at;
        d.Capacitor(at, Circuit.Ground, q1 / (w0 * ohms));
        for (int i = 0; i < n; i++)
        {
            if (reactance[i] <= 0)
            {
                return null;
            }

            string middle = d.Node(), next = d.Node();
            string coil = d.Inductor(at, middle, coilH), series = d.Capacitor(middle, next, 1 / (w0 * reactance[i]));
            d.Spot(TuningKind.Mesh, at, series, coil);
            d.Capacitor(next, Circuit.Ground, i == n - 1 ? q2 / (w0 * ohms) : 1 / (w0 * x * prototype.Coupling(i + 1, w)));
            at = next;
        }

        string meshes = n switch { 1 => "one mesh", 2 => "two meshes", 3 => "three meshes", 4 => "four meshes", _ => "five meshes" };
        return d.Done($"{meshes}, capacitors between", portIn, at);
    }
}
