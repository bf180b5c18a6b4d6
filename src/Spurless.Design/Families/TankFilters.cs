using Spurless.Circuits.Parts;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Families;

/// <summary>How the ends of a filter of tanks meet the ports.</summary>
internal enum TankEnds
{
    /// <summary>A series capacitor.</summary>
    SeriesCapacitor,

    /// <summary>The port at a tap of the tank's capacitor.</summary>
    CapacitorTap,

    /// <summary>The port at a tap of the tank's coil.</summary>
    CoilTap,
}

/// <summary>What joins neighbouring tanks.</summary>
internal enum TankJoint
{
    /// <summary>A capacitor between their hot ends.</summary>
    Capacitor,

    /// <summary>A coil between their hot ends: the band's upper side is the steeper one.</summary>
    Coil,

    /// <summary>Magnetic coupling of their coils.</summary>
    Magnetic,

    /// <summary>Coil and capacitor in parallel between their hot ends: a notch where they resonate.</summary>
    NotchBranch,

    /// <summary>A capacitor that works against the magnetic coupling: a notch where both cancel.</summary>
    Mixed,
}

/// <summary>
/// Band-pass filters of tanks from nodes to ground. Admittance inverters and slope parameters after Matthaei, Young, Jones, chapter 8 (from
/// memory): <c>b = w0 C</c>,
/// <c>J01 = sqrt(G b w/(g0 g1))</c>, <c>J = w b / sqrt(g g')</c>. All formulas hold at the middle of the band: the response is the
/// prototype's for narrow bands.
/// </summary>
internal static class TankFilters
{
    /// <summary>The filter, or null where the prototype cannot be had with these parts.</summary>
    /// <param name="prototype">The prototype.</param>
    /// <param name="centreHz">Middle in hertz.</param>
    /// <param name="widthHz">Bandwidth in hertz between the prototype's edges.</param>
    /// <param name="coilH">Inductance of every tank in henries.</param>
    /// <param name="ohms">Port impedance.</param>
    /// <param name="ends">How the ends meet the ports.</param>
    /// <param name="joint">What joins the tanks.</param>
    /// <param name="notchesHz">Frequency of the notch of each joint that has one; the joints beyond are plain capacitors.</param>
    public static Blueprint? Make(
        Prototype prototype, double centreHz, double widthHz, double coilH, double ohms, TankEnds ends, TankJoint joint,
            IReadOnlyList<double>? notchesHz = null)
    {
        int n = prototype.Order;
        double w0 = 2 * Math.PI * centreHz, w = widthHz / centreHz, c = 1 / (w0 * w0 * coilH), b = w0 * c;
        Draft d = new(ohms);
        string portIn = d.Node();
        string[] node = [.. Enumerable.Range(0, n).Select(_ => d.Node())];
        string portOut = d.Node();

        // Susceptance that the joints put on each tank at the middle; what is over is the tank's own capacitor.
        double[] load = new double[n];
        double[] j = new double[n - 1];
        for (int i = 0; i + 1 < n; i++)
        {
            j[i] = b * prototype.Coupling(i + 1, w);
        }

        double first = b / prototype.FirstQ(w), last = b / prototype.LastQ(w);
        string?[] coils = new string?[n], shunts = new string?[n];
        for (int i = 0; i < n; i++)
        {
            if (i > 0)
            {
                load[i] += Joint(joint, i - 1, j[i - 1], w0, notchesHz).Load;
            }

            if (i + 1 < n)
            {
                load[i] += Joint(joint, i, j[i], w0, notchesHz).Load;
            }
        }

        bool good = true;
        void End(bool isFirst)
        {
            int i = isFirst ? 0 : n - 1;
            string port = isFirst ? portIn : portOut;
            double g = isFirst ? first : last;
            good &= ends switch
            {
                TankEnds.SeriesCapacitor => SeriesCapacitor(d, port, node[i], g, w0, ohms, ref load[i]),
                TankEnds.CapacitorTap when n > 1 => Tap(d, port, node[i], g, b - load[i], w0, ohms, ref load[i], out shunts[i]),
                TankEnds.CoilTap when n > 1 => CoilTap(d, port, node[i], g, b, w0, ohms, out coils[i]),
                _ => false,
            };
        }

        End(true);
        for (int i = 0; i < n && good; i++)
        {
            if (i == n - 1)
            {
                End(false);
            }

            coils[i] ??= d.Inductor(node[i], Circuit.Ground, coilH);
            double left = (b - load[i]) / w0;
            if (left > 0.03 * c && shunts[i] is null)
            {
                shunts[i] = d.Capacitor(node[i], Circuit.Ground, left);
            }

            good &= left > -0.02 * c;
            if (i + 1 < n)
            {
                (double farads, double henries, _) = Joint(joint, i, j[i], w0, notchesHz);
                string? top = farads > 0 ? d.Capacitor(node[i], node[i + 1], farads) : null;
                string? across = henries > 0 ? d.Inductor(node[i], node[i + 1], henries) : null;
                if (across is not null && joint == TankJoint.NotchBranch)
                {
                    d.Spot(TuningKind.Trap, node[i], top, across, notchesHz![i]);
                }
            }
        }

        for (int i = 0; i + 1 < n && good; i++)
        {
            double k = j[i] / b;
            if (joint is TankJoint.Magnetic or TankJoint.Mixed)
            {
                double notch = joint == TankJoint.Mixed && notchesHz is { Count: > 0 } ? notchesHz[Math.Min(i, notchesHz.Count - 1)] : 0;
                d.Coupling(coils[i]!, coils[i + 1]!, joint == TankJoint.Magnetic ? k : MixedShare(k, notch, centreHz).Magnetic);
            }
        }

        if (!good)
        {
            return null;
        }

        for (int i = 0; i < n; i++)
        {
            d.Spot(TuningKind.Tank, node[i], shunts[i], coils[i]);
        }

        return d.Done(Words(n, ends, joint, notchesHz, centreHz), portIn, portOut);
    }

    /// <summary>The magnetic coefficient and the capacitive one (as a share of the tank) that make a coupling and cancel at a
    /// notch.</summary>
    /// <remarks>
    /// Two coils of coefficient m have the transfer admittance <c>m/(1 - m^2)</c> over <c>w L</c>. Off the middle the capacitive part of
    /// the joint goes as f, the magnetic one as
    /// 1/f: they cancel where <c>kc (f/f0)^2 = m/(1 - m^2)</c>.
    /// </remarks>
    public static (double Magnetic, double Capacitive) MixedShare(double k, double notchHz, double centreHz)
    {
        // k = |kc r - kc|, r = (fn/f0)^2: a notch above the band has the greater magnetic part.
        double r = notchHz / centreHz * (notchHz / centreHz);
        double kc = k / Math.Abs(r - 1), q = kc * r;
        return ((Math.Sqrt(1 + (4 * q * q)) - 1) / (2 * q), kc);
    }

    // Capacitor and coil of a joint, and the susceptance that they put on either tank.
    private static (double Farads, double Henries, double Load) Joint(
        TankJoint joint, int i, double j, double w0, IReadOnlyList<double>? notches)
    {
        switch (joint)
        {
            case TankJoint.Magnetic:
                return (0, 0, 0);
            case TankJoint.Coil:
                return (0, 1 / (w0 * j), -j);
            case TankJoint.NotchBranch when notches is not null && i < notches.Count:
                double x = 2 * Math.PI * notches[i] / w0, wn = 2 * Math.PI * notches[i];
                double farads = j / (w0 * Math.Abs(1 - (x * x)));
                return (farads, 1 / (wn * wn * farads), x > 1 ? -j : j);
            case TankJoint.Mixed when notches is { Count: > 0 }:
                double r = 2 * Math.PI * notches[Math.Min(i, notches.Count - 1)] / w0;
                double c = j / Math.Abs((r * r) - 1);
                return (c / w0, 0, c);
            default:
                return (j / w0, 0, j);
        }
    }

    private static bool SeriesCapacitor(Draft d, string port, string node, double conductance, double w0, double ohms, ref double load)
    {
        // J01^2 = G g: the series capacitor shows the tank the conductance g in parallel.
        double j = Math.Sqrt(conductance / ohms) * ohms;
        if (j >= 0.999)
        {
            return false;
        }

        double x = j / Math.Sqrt(1 - (j * j));
        d.Capacitor(port, node, x / (w0 * ohms));
        load += x / ohms / (1 + (x * x));
        return true;
    }

    // Two capacitors, upper and lower, that show the tank the conductance and a susceptance.
    private static bool Tap(Draft d, string port, string node, double conductance, double susceptance, double w0, double ohms,
        ref double load, out string? shunt)
    {
        shunt = null;
        double g = 1 / ohms, square = (conductance * conductance) + (susceptance * susceptance);
        double real = conductance / square, lower = (g / real) - (g * g);
        if (!(lower > 0) || susceptance <= 0)
        {
            return false;
        }

        lower = Math.Sqrt(lower);
        double reactance = (susceptance / square) - (lower / ((g * g) + (lower * lower)));
        if (reactance <= 0)
        {
            return false;
        }

        d.Capacitor(port, node, 1 / (w0 * reactance));
        shunt = d.Capacitor(port, Circuit.Ground, lower / w0);
        load += susceptance;
        return true;
    }

    // A coil with the port at its tap, drawn as its two parts, which couple.
    private static bool CoilTap(Draft d, string port, string node, double conductance, double b, double w0, double ohms, out string? coil)
    {
        coil = null;
        if (TappedCoil.Make(conductance, b, TappedCoil.UsualCoupling, w0, ohms) is not { } parts)
        {
            return false;
        }

        coil = d.Inductor(node, port, parts.UpperH);
        d.Coupling(coil, d.Inductor(port, Circuit.Ground, parts.LowerH), TappedCoil.UsualCoupling);
        return true;
    }

    private static string Words(int n, TankEnds ends, TankJoint joint, IReadOnlyList<double>? notches, double centreHz)
    {
        string tanks = n switch { 1 => "one tank", 2 => "two tanks", 3 => "three tanks", 4 => "four tanks", _ => "five tanks" };
        string how = joint switch
        {
            TankJoint.Capacitor => "top capacitors",
            TankJoint.Magnetic => "coupled coils",
            TankJoint.Coil => "top coils",
            TankJoint.NotchBranch => Notches("joined by traps", notches!, centreHz),
            _ => Notches("coupled coils against top capacitors", notches!, centreHz),
        };
        string at = ends switch { TankEnds.CapacitorTap => ", ends at capacitor taps", TankEnds.CoilTap => ", ends at coil taps", _ => "" };
        return n == 1 ? tanks + at : $"{tanks}, {how}{at}";
    }

    private static string Notches(string how, IReadOnlyList<double> notches, double centreHz)
    {
        bool above = notches.Any(f => f > centreHz), below = notches.Any(f => f < centreHz);
        return $"{how}, notch {(above && below ? "above and below" : above ? "above" : "below")}";
    }
}
