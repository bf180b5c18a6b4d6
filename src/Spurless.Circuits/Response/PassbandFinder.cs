using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Response;

/// <summary>Finds pass-bands and their figures.</summary>
/// <remarks>
/// A circuit is searched from 100 kHz to 1 GHz on a grid of even ratio that is halved wherever the response in dB is not straight to 0.02
/// dB, down to
/// steps of 1e-8 of the frequency; edges are then found on the response itself to 1e-10 of their frequency, peaks to 1e-8. A measured file
/// is searched on
/// its own points, all of them, edges on the straight lines between. The pass-band is the one with the least loss (of equal ones within
/// 0.001 dB, the lowest), or the one nearest to a channel asked for. Further pass-bands are other maxima within 6 dB of the least loss,
/// lobes those 6 to
/// 20 dB under it, with a dip of at least 3 dB on both sides. Notches: <see cref="NotchFinder"/>. A circuit whose response turns so often
/// that <see cref="MostPoints"/> points do not show it, or that has more than <see cref="MostMaxima"/> maxima, gets no figures.
/// </remarks>
public static class PassbandFinder
{
    /// <summary>Lowest frequency searched in a circuit, in hertz.</summary>
    public const double FromHz = 100e3;

    /// <summary>Highest frequency searched in a circuit, in hertz.</summary>
    public const double ToHz = 1e9;

    /// <summary>
    /// The most points at which a circuit is computed: a line of 100 m between other impedances takes some tens of thousands. Beyond, no
    /// pass-band is told.
    /// </summary>
    public const int MostPoints = 200_000;

    /// <summary>The most maxima of a circuit that are told apart; beyond, no pass-band is told.</summary>
    public const int MostMaxima = 5_000;

    private const int CoarsePoints = 801;
    private const int AtATime = 2_048; // between two looks whether somebody cancelled
    private const double Straight = 0.02;
    private const double FinestStep = 1e-8;
    private const double FurtherWithinDb = 20;
    private const double PassbandWithinDb = 6;
    private const double Depth = 100;

    /// <summary>The pass-band, the others, lobes and notches.</summary>
    /// <param name="network">The network.</param>
    /// <param name="nearHz">The pass-band nearest to this frequency is meant, in hertz; null for the one with the least loss.</param>
    /// <param name="cancellation">Stops the search.</param>
    /// <returns>
    /// No pass-band for a one-port, where nothing passes (less than -200 dB), or where the network is not known in the range.
    /// </returns>
    public static PassbandFindings Find(ITwoPort network, double? nearHz = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(network);
        Transmission transmission = new(network);
        (double[] f, double[] db) = transmission.HasTransmission ? Curve(transmission, network, cancellation) : ([], []);
        if (f.Length >= MostPoints && transmission.Measured is null)
        {
            return PassbandFindings.Unresolved;
        }

        if (f.Length == 0 || db.Max() < -200)
        {
            return PassbandFindings.None;
        }

        if (Peaks(transmission, f, db, cancellation) is not { } peaks)
        {
            return PassbandFindings.Unresolved;
        }

        double best = peaks.Max(static p => p.Decibels);
        Peak main = peaks.First(p => p.Decibels >= best - 0.001);
        List<(Peak Peak, FurtherPassband Band)> bands = [];
        foreach (Peak peak in peaks.Where(p => p.Decibels >= best - FurtherWithinDb))
        {
            cancellation.ThrowIfCancellationRequested();
            if (peak.Index == main.Index || !IsFlank(f, db, peak))
            {
                bands.Add((peak, Band(transmission, f, db, peak)));
            }
        }

        bands.RemoveAll(b => bands.Exists(o => o.Peak.Index != b.Peak.Index && Greater(o.Peak, b.Peak, main)
            && o.Peak.Hz > (b.Band.Low3DbHz ?? 0) && o.Peak.Hz < (b.Band.High3DbHz ?? double.PositiveInfinity)));
        if (nearHz is { } near)
        {
            main = bands.Where(b => b.Peak.Decibels >= best - PassbandWithinDb).MinBy(b => Away(b.Band, near)).Peak;
        }

        Passband band = Figures(transmission, f, db, main, peaks);
        FurtherPassband[] others = [.. bands.Where(b => b.Peak.Index != main.Index
            && (b.Peak.Hz < (band.Low3DbHz ?? f[0]) || b.Peak.Hz > (band.High3DbHz ?? f[^1]))).Select(static b => b.Band)];
        return new PassbandFindings(
            band,
            [.. others.Where(o => o.LossDb <= PassbandWithinDb - best)],
            [.. others.Where(o => o.LossDb > PassbandWithinDb - best)],
            [.. NotchFinder.Find(f, db).Select(n => Lowest(transmission, f, db, n))
                .Select(n => new Notch(n.Hz, -n.Decibels, main.Decibels - n.Decibels))]);
    }

    // Of two alike the pass-band, or the lower in frequency, stands for both.
    private static bool Greater(Peak a, Peak b, Peak main) =>
        a.Decibels > b.Decibels || (a.Decibels == b.Decibels && (a.Index == main.Index || (b.Index != main.Index && a.Index < b.Index)));

    // Whether the curve rises above a peak before it falls by 3 dB: then the peak is part of a greater one's pass-band. What this misses
    // (equal ones, and those between the grid's points) is found by the edges.
    private static bool IsFlank(double[] f, double[] db, Peak peak)
    {
        foreach (int step in (ReadOnlySpan<int>)[-1, 1])
        {
            for (int i = peak.Index + step; i >= 0 && i < f.Length && db[i] > peak.Decibels - 3; i += step)
            {
                if (db[i] > peak.Decibels && Math.Abs(i - peak.Index) > 1)
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static FurtherPassband Band(Transmission transmission, double[] f, double[] db, Peak peak) =>
        new(peak.Hz, -peak.Decibels, Edge(transmission, f, db, peak, -1, 3), Edge(transmission, f, db, peak, 1, 3));

    // How far a frequency is from a band, as a ratio's logarithm; 0 within.
    private static double Away(FurtherPassband band, double hertz) =>
        hertz < (band.Low3DbHz ?? 0) ? Math.Log(band.Low3DbHz!.Value / hertz) : hertz > (band.High3DbHz ?? double.PositiveInfinity)
            ? Math.Log(hertz / band.High3DbHz!.Value) : 0;

    private static Peak Lowest(Transmission transmission, double[] f, double[] db, int i) => transmission.Measured is null
        ? Highest(transmission, i, f[i - 1], f[i + 1], f[i], db[i], -1)
        : new Peak(i, f[i], db[i]);

    private static Passband Figures(Transmission transmission, double[] f, double[] db, Peak main, List<Peak> peaks)
    {
        double? low = Edge(transmission, f, db, main, -1, 3);
        double? high = Edge(transmission, f, db, main, 1, 3);
        double? ripple = null;
        double? returnLoss = null;
        double? delay = null;
        double? variation = null;
        if (low is { } from && high is { } to)
        {
            List<Peak> inside = [.. peaks.Where(p => p.Hz >= from && p.Hz <= to)];
            double deepest = inside.Count > 1 ? Deepest(transmission, f, db, inside[0], inside[^1]) : main.Decibels;
            ripple = Math.Max(0, main.Decibels - deepest);
            double centre = Math.Sqrt(from * to);
            returnLoss = transmission.At(centre).ReturnLoss1Db;
            delay = transmission.GroupDelay(centre);
            List<double> delays = [.. transmission.GroupDelays([.. Inside(f, from, to)]).OfType<double>()];
            variation = delays.Count > 1 ? delays.Max() - delays.Min() : null;
        }

        return new Passband
        {
            PeakHz = main.Hz,
            LossDb = -main.Decibels,
            Low3DbHz = low,
            High3DbHz = high,
            Low6DbHz = Edge(transmission, f, db, main, -1, 6),
            High6DbHz = Edge(transmission, f, db, main, 1, 6),
            Low60DbHz = Edge(transmission, f, db, main, -1, 60),
            High60DbHz = Edge(transmission, f, db, main, 1, 60),
            RippleDb = ripple,
            ReturnLossDb = returnLoss is { } r && double.IsFinite(r) ? r : null,
            GroupDelayS = delay,
            GroupDelayVariationS = variation,
        };
    }

    // The grid's points within, at most 401 of them, and both ends.
    private static IEnumerable<double> Inside(double[] f, double from, double to)
    {
        double[] inside = [.. f.Where(x => x > from && x < to)];
        int stride = (inside.Length / 400) + 1;
        return [from, .. inside.Where((_, i) => i % stride == 0), to];
    }

    private static (double[] Hz, double[] Decibels) Curve(Transmission transmission, ITwoPort network, CancellationToken cancellation)
    {
        if (transmission.Measured is { } measured)
        {
            double[] own = [.. measured.FrequenciesHz];
            return (own, transmission.Decibels(own));
        }

        double from = Math.Max(FromHz, network.LowestHz);
        double to = Math.Min(ToHz, network.HighestHz);
        if (!(from < to))
        {
            return ([], []);
        }

        double[] hz = FrequencyGrid.Logarithmic(from, to, CoarsePoints);
        double[] decibels = transmission.Decibels(hz);
        double floor = Math.Max(-200, decibels.Max()) - Depth;

        // In rounds: every interval in question gets its middle, and where that is off the straight line both halves are in question.
        bool[] open = [.. Enumerable.Repeat(true, hz.Length - 1)];
        for (int round = 0; round < 40 && Array.IndexOf(open, true) >= 0; round++)
        {
            cancellation.ThrowIfCancellationRequested();
            double[] middles = [.. Enumerable.Range(0, open.Length).Where(i => open[i]).Select(i => Math.Sqrt(hz[i] * hz[i + 1]))];
            if (hz.Length + middles.Length > MostPoints)
            {
                return (new double[MostPoints], []);
            }

            double[] found = new double[middles.Length];
            for (int done = 0; done < middles.Length; done += AtATime)
            {
                cancellation.ThrowIfCancellationRequested();
                double[] some = middles[done..Math.Min(middles.Length, done + AtATime)];
                transmission.Decibels(some).CopyTo(found, done);
            }

            List<double> nextHz = new(hz.Length + middles.Length) { hz[0] };
            List<double> nextDecibels = new(hz.Length + middles.Length) { decibels[0] };
            List<bool> nextOpen = new(hz.Length + middles.Length);
            int next = 0;
            for (int i = 0; i < open.Length; i++)
            {
                if (open[i])
                {
                    double at = found[next];
                    bool bent = Math.Max(at, Math.Max(decibels[i], decibels[i + 1])) >= floor
                        && Math.Abs(at - ((decibels[i] + decibels[i + 1]) / 2)) >= Straight
                        && hz[i + 1] - hz[i] > FinestStep * hz[i];
                    nextHz.Add(middles[next++]);
                    nextDecibels.Add(at);
                    nextOpen.Add(bent);
                    nextOpen.Add(bent);
                }
                else
                {
                    nextOpen.Add(false);
                }

                nextHz.Add(hz[i + 1]);
                nextDecibels.Add(decibels[i + 1]);
            }

            (hz, decibels, open) = ([.. nextHz], [.. nextDecibels], [.. nextOpen]);
        }

        return (hz, decibels);
    }

    // Null where a circuit has more maxima than are told apart.
    private static List<Peak>? Peaks(Transmission transmission, double[] f, double[] db, CancellationToken cancellation)
    {
        List<Peak> peaks = [];
        double counts = db.Max() - FurtherWithinDb - 1; // what lies lower is told nowhere, and is not refined
        for (int i = 0; i < f.Length; i++)
        {
            bool above = (i == 0 || db[i] >= db[i - 1]) && (i == f.Length - 1 || db[i] > db[i + 1]);
            if (!above)
            {
                continue;
            }

            if (peaks.Count == MostMaxima && transmission.Measured is null)
            {
                return null;
            }

            cancellation.ThrowIfCancellationRequested();
            bool inside = i > 0 && i < f.Length - 1 && transmission.Measured is null && db[i] >= counts;
            peaks.Add(inside ? Highest(transmission, i, f[i - 1], f[i + 1], f[i], db[i]) : new Peak(i, f[i], db[i]));
        }

        return peaks;
    }

    // Golden section (a textbook method) within a bracket; keeps the best point seen.
    private static Peak Highest(Transmission transmission, int index, double from, double to, double bestHz, double bestDb, int sign = 1)
    {
        const double Golden = 0.6180339887498949;
        double a = from;
        double b = to;
        double x1 = b - (Golden * (b - a));
        double x2 = a + (Golden * (b - a));
        double y1 = sign * transmission.Decibels(x1);
        double y2 = sign * transmission.Decibels(x2);
        for (int i = 0; i < 60 && b - a > 1e-8 * b; i++)
        {
            if (y1 > y2)
            {
                (b, x2, y2) = (x2, x1, y1);
                x1 = b - (Golden * (b - a));
                y1 = sign * transmission.Decibels(x1);
            }
            else
            {
                (a, x1, y1) = (x1, x2, y2);
                x2 = a + (Golden * (b - a));
                y2 = sign * transmission.Decibels(x2);
            }
        }

        double x = y1 > y2 ? x1 : x2;
        double y = Math.Max(y1, y2);
        return y > sign * bestDb ? new Peak(index, x, sign * y) : new Peak(index, bestHz, bestDb);
    }

    // The lowest value between two peaks, refined beside the lowest point of the grid.
    private static double Deepest(Transmission transmission, double[] f, double[] db, Peak first, Peak last)
    {
        int lowest = first.Index;
        for (int i = first.Index; i <= last.Index; i++)
        {
            lowest = db[i] < db[lowest] ? i : lowest;
        }

        return lowest > 0 && lowest < f.Length - 1
            ? Highest(transmission, lowest, f[lowest - 1], f[lowest + 1], f[lowest], db[lowest], -1).Decibels
            : db[lowest];
    }

    /// <summary>The nearest frequency on one side of a peak at which the response has fallen by so much.</summary>
    private static double? Edge(Transmission transmission, double[] f, double[] db, Peak peak, int step, double downDb)
    {
        double level = peak.Decibels - downDb;
        double inside = peak.Hz;
        for (int i = peak.Index; i >= 0 && i < f.Length; i += step)
        {
            // The grid point of the peak itself may lie on the other side of it.
            if ((f[i] - peak.Hz) * step < 0)
            {
                continue;
            }

            if (db[i] > level)
            {
                inside = f[i];
                continue;
            }

            return Crossing(transmission, inside, f[i], level);
        }

        return null;
    }

    // False position with halved ends (the Illinois rule, a textbook method), to 1e-10 of the frequency.
    private static double Crossing(Transmission transmission, double inside, double outside, double level)
    {
        double yIn = transmission.Decibels(inside) - level;
        double yOut = transmission.Decibels(outside) - level;
        if (yIn <= 0 || yOut >= 0)
        {
            return yIn <= 0 ? inside : outside;
        }

        int last = 0;
        for (int k = 0; k < 100 && Math.Abs(outside - inside) > 1e-10 * inside; k++)
        {
            double at = inside + ((outside - inside) * (yIn / (yIn - yOut)));
            double y = transmission.Decibels(at) - level;
            if (Math.Abs(y) < 1e-10)
            {
                return at;
            }

            (inside, outside) = y > 0 ? (at, outside) : (inside, at);
            (yIn, yOut) = y > 0 ? (y, last == 1 ? yOut / 2 : yOut) : (last == -1 ? yIn / 2 : yIn, y);
            last = y > 0 ? 1 : -1;
        }

        return (inside + outside) / 2;
    }

    private readonly record struct Peak(int Index, double Hz, double Decibels);
}
