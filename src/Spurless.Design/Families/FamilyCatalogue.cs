using Spurless.Design.Prototypes;
using Spurless.Design.Questions;

namespace Spurless.Design.Families;

/// <summary>All blueprints worth starting from for a requirement: every family, with several widths and impedance levels each.</summary>
internal static class FamilyCatalogue
{
    /// <summary>Reactances in ohms, over the port impedance, that the tanks' coils are tried with.</summary>
    private static readonly double[] _tankLevels = [0.35, 0.7, 1.5];

    /// <summary>The blueprints, in groups of one family each: the optimiser keeps the best of a group.</summary>
    public static IReadOnlyList<IReadOnlyList<Blueprint>> For(DesignQuestion question)
    {
        List<Blueprint> all = [];
        void Add(Blueprint? one)
        {
            if (one is not null)
            {
                all.Add(one);
            }
        }

        double[] above = Notches(question, above: true), below = Notches(question, above: false);
        for (int n = 1; n <= 5; n++)
        {
            foreach (Prototype g in new[] { Prototype.Butterworth(n), Prototype.Chebyshev(n, 0.1) }.Where(p => n > 1 || p.RippleDb is null))
            {
                foreach (double width in Widths(g, question))
                {
                    BandPasses(g, width, question, above, below, Add);
                    if (Sharpened(g, width, question) is { } sharp)
                    {
                        BandPasses(sharp, width, question, above, below, b => Add(b is null ? null : b with { Sharpened = true }));
                    }
                }
            }
        }

        Traps(question, above, below, Add);
        return [.. all.GroupBy(static b => b.Family).Select(static g => (IReadOnlyList<Blueprint>)[.. g])];
    }

    /// <summary>A prototype with the loss of the parts reckoned in beforehand; null where that costs more than the loss allowed.</summary>
    internal static Prototype? Sharpened(Prototype g, double width, DesignQuestion question)
    {
        double d = question.CentreHz / (width * question.UnloadedQ);
        if (g.Order < 2 || !(d > 0))
        {
            return null;
        }

        Predistorted? found = g.RippleDb is { } ripple ? Predistorted.Chebyshev(g.Order, ripple, d) : Predistorted.Butterworth(g.Order, d);
        return found is not null && found.FlatLossDb + (g.RippleDb ?? 0) <= question.MostLossDb ? found.Prototype : null;
    }

    // Filters of resonators, of one prototype and width.
    private static void BandPasses(
        Prototype g, double width, DesignQuestion question, double[] above, double[] below, Action<Blueprint?> add)
    {
        int n = g.Order;
        double f0 = question.CentreHz, ohms = question.ImpedanceOhm, w0 = 2 * Math.PI * f0;
        foreach (double level in _tankLevels)
        {
            double coil = Clamp(level * ohms / w0, question);
            void Tanks(TankEnds ends, TankJoint joint, double[]? notches = null) =>
                add(TankFilters.Make(g, f0, width, coil, ohms, ends, joint, notches));
            Tanks(TankEnds.SeriesCapacitor, TankJoint.Capacitor);
            if (n is >= 2 and <= 4)
            {
                Tanks(TankEnds.CapacitorTap, TankJoint.Capacitor);
                Tanks(TankEnds.SeriesCapacitor, TankJoint.Magnetic);
            }

            if (n is 2 or 3)
            {
                Tanks(TankEnds.CoilTap, TankJoint.Capacitor);
                Tanks(TankEnds.SeriesCapacitor, TankJoint.Coil);
                Tanks(TankEnds.CoilTap, TankJoint.Coil);
                foreach (double[] notches in Pairs(above, below, n - 1))
                {
                    Tanks(TankEnds.SeriesCapacitor, TankJoint.NotchBranch, notches);
                }

                foreach (double[] one in new[] { above, below }.Where(static a => a.Length > 0))
                {
                    Tanks(TankEnds.SeriesCapacitor, TankJoint.Mixed, [one[0]]);
                }
            }

            if (n == 2 && level == _tankLevels[1] && TankFilters.Make(
                g, f0, width, coil, ohms, TankEnds.SeriesCapacitor, TankJoint.Capacitor) is { } plain)
            {
                foreach (double[] notches in Pairs(above, below, 1).Concat(Pairs(above, below, 2)))
                {
                    add(TrapFilters.AtPorts(plain, notches, f0, ohms));
                }
            }
        }

        foreach (double level in n is >= 2 and <= 4 ? new[] { 1.5, 4.0 } : [])
        {
            add(MeshFilters.Make(g, f0, width, Clamp(level * ohms / w0, question), ohms));
        }

        foreach (LineResonator kind in n is 2 or 3 && g.RippleDb is not null ? LineFilters.Resonators(f0) : [])
        {
            add(LineFilters.Tanks(g, f0, width, kind, ohms));
        }
    }

    private static void Traps(DesignQuestion question, double[] above, double[] below, Action<Blueprint?> add)
    {
        double f0 = question.CentreHz, ohms = question.ImpedanceOhm;
        foreach ((double[] side, bool isAbove) in new[] { (above, true), (below, false) })
        {
            if (side.Length == 0)
            {
                continue;
            }

            double edge = isAbove ? question.PassToHz : question.PassFromHz;
            foreach (double room in new[] { 1.1, 1.4 })
            {
                double at = isAbove ? edge * room : edge / room;
                double[][] sets = side.Length > 1 ? [[side[0]], [side[0], side[1]], [side[1], side[0]]] : [[side[0]]];
                foreach (double[] notches in sets)
                {
                    Prototype g = Prototype.Chebyshev((2 * notches.Length) + 1, 0.1);
                    add(TrapFilters.SeriesTraps(g, notches, f0, at, ohms));
                    add(TrapFilters.ParallelTraps(g, notches, f0, at, ohms));
                }

                Prototype plain = Prototype.Chebyshev(5, 0.1);
                add(isAbove ? LadderFilters.LowPass(plain, at, ohms) : LadderFilters.HighPass(plain, at, ohms));
            }

            add(TrapFilters.Bridged(side[0], f0, question.Parts.InductorQ?.Q ?? 1000, ohms));
            add(LineFilters.Stubs([side[0]], f0, ohms));
            if (side.Length > 1)
            {
                add(LineFilters.Stubs([side[0], side[1]], f0, ohms));
            }
        }
    }

    // What is worth a notch on one side of the band: first what is hardest to keep out for its distance.
    private static double[] Notches(DesignQuestion question, bool above)
    {
        double f0 = question.CentreHz;
        return
        [
            .. question.Reject.Where(r => above ? r.FromHz > question.PassToHz : r.ToHz < question.PassFromHz)
                .Select(r => (Hz: Math.Sqrt(r.FromHz * r.ToHz), Hard: r.LeastLossDb / Math.Abs(
                    Math.Log(Math.Sqrt(r.FromHz * r.ToHz) / f0))))
                .OrderByDescending(static r => r.Hard).ThenBy(static r => r.Hz).Select(static r => r.Hz).Distinct().Take(2),
        ];
    }

    private static IEnumerable<double[]> Pairs(double[] above, double[] below, int count)
    {
        if (count == 1)
        {
            return above.Take(1).Concat(below.Take(1)).Select(static f => new[] { f });
        }

        List<double[]> pairs = [];
        if (above.Length > 0 && below.Length > 0)
        {
            pairs.Add([below[0], above[0]]);
        }

        pairs.AddRange(new[] { above, below }.Where(static a => a.Length > 1));
        return pairs;
    }

    // The widest that keeps out what must be, and half of it, neither under what must pass.
    private static IEnumerable<double> Widths(Prototype g, DesignQuestion question)
    {
        double f0 = question.CentreHz, pass = question.PassToHz - question.PassFromHz;
        double widest = 0.6 * f0;
        foreach (RejectDemand r in question.Reject)
        {
            double near = r.FromHz > f0 ? r.FromHz : r.ToHz;
            widest = Math.Min(widest, BandPassMap.WidestFor(g, Math.Max(r.LeastLossDb, 4), near, f0));
        }

        double least = Math.Max(1.2 * pass, 0.002 * f0);
        widest = Math.Max(widest, least);
        yield return widest;
        if (widest > 2 * least)
        {
            yield return widest / 2;
        }
    }

    private static double Clamp(double coilH, DesignQuestion question) =>
        question.Parts.InductorsH is { } range ? Math.Clamp(coilH, range.Least, range.Greatest) : coilH;
}
