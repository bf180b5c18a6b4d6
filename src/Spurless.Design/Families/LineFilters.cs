using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Families;

/// <summary>A kind of line resonator: its impedance, unloaded Q, velocity, and what to build.</summary>
/// <param name="Words">The words of the family.</param>
/// <param name="ImpedanceOhm">Characteristic impedance in ohms.</param>
/// <param name="Q">Unloaded Q.</param>
/// <param name="Build">How it is built.</param>
internal sealed record LineResonator(string Words, double ImpedanceOhm, double Q, ResonatorBuild Build);

/// <summary>Filters of shorted quarter-wave lines with small capacitors, and traps of cable stubs.</summary>
internal static class LineFilters
{
    private const double SpeedOfLight = 299792458;

    /// <summary>Velocity in solid polyethylene (common practice).</summary>
    private const double CableVelocity = 0.66;

    /// <summary>The line resonators worth trying at a frequency: helices in boxes of 25 to 60 mm, coaxial cavities of 60 to 100
    /// mm.</summary>
    public static IReadOnlyList<LineResonator> Resonators(double centreHz)
    {
        List<LineResonator> all = [];
        double size = Math.Clamp(1600 / (centreHz / 1e6 * 5.5) * 0.0254, 0.02, 0.06);
        HelicalResonator helix = HelicalResonator.For(centreHz, size, ShieldShape.Square);
        if (helix.Turns >= 3 && centreHz is > 40e6 and < 1e9)
        {
            all.Add(new(
                "helical resonators",
                helix.ImpedanceOhm,
                0.8 * helix.Q,
                new ResonatorBuild.Helix(helix.Turns, helix.WireM, helix.CoilDiameterM, helix.CoilLengthM, size, helix.ShieldHeightM)));
        }

        if (centreHz is > 100e6 and < 2e9)
        {
            double outer = Math.Min(0.1, 0.2 * SpeedOfLight / centreHz), inner = outer / 3.6;
            CoaxialResonator cavity = CoaxialResonator.For(centreHz, inner, outer);
            all.Add(new(
                "cavities",
                cavity.ImpedanceOhm,
                0.7 * cavity.Q,
                new ResonatorBuild.Cavity(inner, outer, cavity.LengthM)));
        }

        return all;
    }

    /// <summary>Shorted lines as tanks, joined and fed by capacitors (or probes that make them).</summary>
    public static Blueprint? Tanks(Prototype prototype, double centreHz, double widthHz, LineResonator kind, double ohms)
    {
        int n = prototype.Order;
        double w0 = 2 * Math.PI * centreHz, w = widthHz / centreHz;

        // Slope of -Y0 cot(theta) at a quarter wave.
        double b = Math.PI / 4 / kind.ImpedanceOhm;
        double[] load = new double[n];
        double first = Math.Sqrt(b / prototype.FirstQ(w) * ohms), last = Math.Sqrt(b / prototype.LastQ(w) * ohms);
        if (first >= 0.999 || last >= 0.999)
        {
            return null;
        }

        double x1 = first / Math.Sqrt(1 - (first * first)), x2 = last / Math.Sqrt(1 - (last * last));
        load[0] += x1 / ohms / (1 + (x1 * x1));
        load[^1] += x2 / ohms / (1 + (x2 * x2));
        for (int i = 0; i + 1 < n; i++)
        {
            double j = b * prototype.Coupling(i + 1, w);
            load[i] += j;
            load[i + 1] += j;
        }

        Draft d = new(ohms);
        string portIn = d.Node(), at = d.Node();
        d.Capacitor(portIn, at, x1 / (w0 * ohms));
        LineLoss loss = Loss(kind.Q, centreHz);
        for (int i = 0; i < n; i++)
        {
            double angle = Math.Atan(1 / (kind.ImpedanceOhm * load[i]));
            string line = d.Stub(at, kind.ImpedanceOhm, angle * SpeedOfLight / w0, 1, loss, StubEnd.Short);
            d.Spot(TuningKind.Tank, at, null, line);
            string next = d.Node();
            d.Capacitor(at, next, i == n - 1 ? x2 / (w0 * ohms) : b * prototype.Coupling(i + 1, w) / w0);
            at = next;
        }

        return d.Done($"{(n == 2 ? "two" : n == 3 ? "three" : "four")} {kind.Words}", portIn, at);
    }

    /// <summary>Traps of cable: an open quarter-wave stub that shorts what is to be kept out, a shorted one beside it that makes the pair
    /// vanish in the pass-band.</summary>
    /// <param name="notchesHz">What to keep out, one or two.</param>
    /// <param name="centreHz">Middle of the pass-band in hertz.</param>
    /// <param name="ohms">Port impedance, taken as the cable's too.</param>
    public static Blueprint? Stubs(IReadOnlyList<double> notchesHz, double centreHz, double ohms)
    {
        // RG-213 or the like: about 0.09 dB/m at 150 MHz (common practice).
        LineLoss loss = LineLoss.At(0.09, 150e6);
        double phase = 2 * Math.PI * centreHz / (CableVelocity * SpeedOfLight);
        Draft d = new(ohms);
        string at = d.Node(), portIn = at;
        if (notchesHz.Count == 1)
        {
            string next = d.Node();
            d.Line(at, next, ohms, 0.05 * Math.PI / phase, CableVelocity, loss);
            at = next;
        }

        for (int i = 0; i < notchesHz.Count; i++)
        {
            double open = CableVelocity * SpeedOfLight / (4 * notchesHz[i]);
            double b = Math.Tan(phase * open);
            double angle = Math.Atan(1 / b);
            if (Math.Abs(b) > 20)
            {
                return null;
            }

            string stub = d.Stub(at, ohms, open, CableVelocity, loss, StubEnd.Open);
            d.Stub(at, ohms, (angle <= 0 ? angle + Math.PI : angle) / phase, CableVelocity, loss, StubEnd.Short);
            d.Spot(TuningKind.Trap, at, null, stub, notchesHz[i]);
            string next = d.Node();
            d.Line(at, next, ohms, (i + 1 < notchesHz.Count ? 0.5 : 0.05) * Math.PI / phase, CableVelocity, loss);
            at = next;
        }

        return d.Done(notchesHz.Count == 1 ? "cable stubs, one notch" : "cable stubs, two notches", portIn, at);
    }

    /// <summary>The loss of a line whose resonator has an unloaded Q: <c>alpha = beta/(2 Q)</c>.</summary>
    public static LineLoss Loss(double q, double centreHz) =>
        LineLoss.At(20 / Math.Log(10) * (2 * Math.PI * centreHz / SpeedOfLight) / (2 * q), centreHz);
}
