using System.Collections.Immutable;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Response;

/// <summary>Finds pass-bands and their figures.</summary>
/// <remarks>
/// A circuit is searched from 100 kHz to 1 GHz on a grid of even ratio that is halved wherever the response in dB is not straight to 0.02 dB, down to
/// steps of 1e-8 of the frequency; edges are then found on the response itself to 1e-10 of their frequency, peaks to 1e-8. A measured file is searched on
/// its own points, all of them, edges on the straight lines between. The pass-band is the one with the least loss (of equal ones within
/// 0.001 dB, the lowest). Further pass-bands are other maxima within 20 dB of the least loss, with a dip of at least 3 dB on both sides.
/// </remarks>
public static class PassbandFinder
{
    /// <summary>Lowest frequency searched in a circuit, in hertz.</summary>
    public const double FromHz = 100e3;

    /// <summary>Highest frequency searched in a circuit, in hertz.</summary>
    public const double ToHz = 1e9;

    private const int CoarsePoints = 801;
    private const double Straight = 0.02;
    private const double FinestStep = 1e-8;
    private const double FurtherWithinDb = 20;
    private const double Depth = 100;

    /// <summary>The pass-band and the others.</summary>
    /// <param name="network">The network.</param>
    /// <param name="cancellation">Stops the search.</param>
    /// <returns>No pass-band for a one-port, where nothing passes (less than -200 dB), or where the network is not known in the range.</returns>
    public static (Passband? Main, ImmutableArray<FurtherPassband> Further) Find(ITwoPort network, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(network);
        Transmission transmission = new(network);
        (double[] f, double[] db) = transmission.HasTransmission ? Curve(transmission, network, cancellation) : ([], []);
        if (f.Length == 0 || db.Max() < -200)
        {
            return (null, []);
        }

        List<Peak> peaks = Peaks(transmission, f, db);
        double best = peaks.Max(static p => p.Decibels);
        Peak main = peaks.First(p => p.Decibels >= best - 0.001);
        Passband band = Figures(transmission, f, db, main, peaks);
        List<FurtherPassband> further = [];
        foreach (Peak peak in peaks)
        {
            if (peak.Index == main.Index || peak.Decibels < main.Decibels - FurtherWithinDb || (peak.Hz >= (band.Low3DbHz ?? f[0]) && peak.Hz <= (band.High3DbHz ?? f[^1])))
            {
                continue;
            }

            double? low = Edge(transmission, f, db, peak, -1, 3);
            double? high = Edge(transmission, f, db, peak, 1, 3);
            bool inAnother = peaks.Any(p => p.Index != peak.Index && p.Decibels > peak.Decibels && p.Hz > (low ?? 0) && p.Hz < (high ?? double.PositiveInfinity));
            if (!inAnother)
            {
                further.Add(new FurtherPassband(peak.Hz, -peak.Decibels, low, high));
            }
        }

        return (band, [.. further]);
    }

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
            double[] found = transmission.Decibels(middles);
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

    private static List<Peak> Peaks(Transmission transmission, double[] f, double[] db)
    {
        List<Peak> peaks = [];
        for (int i = 0; i < f.Length; i++)
        {
            bool above = (i == 0 || db[i] >= db[i - 1]) && (i == f.Length - 1 || db[i] > db[i + 1]);
            if (!above)
            {
                continue;
            }

            bool inside = i > 0 && i < f.Length - 1 && transmission.Measured is null;
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
