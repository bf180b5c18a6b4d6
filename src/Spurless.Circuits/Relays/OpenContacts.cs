using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Relays;

/// <summary>The least that a filter with open contacts across it keeps away.</summary>
/// <param name="LossDb">Insertion loss in dB.</param>
/// <param name="FrequencyHz">Where, in hertz.</param>
/// <param name="AloneDb">What the filter alone takes away there, in dB.</param>
public sealed record LeastIsolation(double LossDb, double FrequencyHz, double AloneDb);

/// <summary>
/// Finds where open contacts spoil a filter most: over its stop bands, which is all of 1 MHz to 1 GHz where the filter alone loses at least
/// 20 dB more than at its least.
/// </summary>
public static class OpenContacts
{
    /// <summary>Stop bands are where the filter alone loses so much more than at its least, in dB.</summary>
    public const double StopBandDb = 20;

    private const double FromHz = 1e6;
    private const double ToHz = 1e9;
    private const int Points = 6001;

    /// <summary>The least insertion loss over the stop bands.</summary>
    /// <param name="filter">The filter.</param>
    /// <param name="openF">Capacitance of the open contacts from port to port in farads.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>Null where the filter has no stop band there.</returns>
    /// <exception cref="CircuitException">The circuit has no solution at a frequency.</exception>
    public static LeastIsolation? Find(ITwoPort filter, double openF, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(filter);
        double from = Math.Max(FromHz, filter.LowestHz), to = Math.Min(ToHz, filter.HighestHz);
        if (!(from < to))
        {
            return null;
        }

        double[] hz = FrequencyGrid.Logarithmic(from, to, Points);
        double[] alone = [.. hz.Select(filter.LossDb)];
        double least = alone.Min();
        int best = Array.IndexOf(alone, least);
        least = Math.Min(least, Lowest(filter.LossDb, hz[Math.Max(0, best - 1)], hz[Math.Min(hz.Length - 1, best + 1)]).Db);
        double wall = least + StopBandDb;
        BypassedFilter bypassed = new(filter, openF, 0);
        double[] with = [.. hz.Select(bypassed.LossDb)];
        LeastIsolation? found = null;
        void Offer(double at, double db) =>
            found = found is null || db < found.LossDb ? new LeastIsolation(db, at, filter.LossDb(at)) : found;
        for (int i = 0; i < hz.Length; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            if (alone[i] >= wall)
            {
                Offer(hz[i], with[i]);
                bool valley = i > 0 && i < hz.Length - 1 && with[i] <= with[i - 1] && with[i] <= with[i + 1]
                    && alone[i - 1] >= wall && alone[i + 1] >= wall;
                if (valley)
                {
                    (double at, double db) = Lowest(bypassed.LossDb, hz[i - 1], hz[i + 1]);
                    Offer(at, db);
                }
            }

            if (i > 0 && alone[i] >= wall != alone[i - 1] >= wall)
            {
                double edge = Edge(filter, wall, hz[i - 1], hz[i], alone[i] >= wall);
                Offer(edge, bypassed.LossDb(edge));
            }
        }

        return found;
    }

    private static double LossDb(this ITwoPort network, double hz) => network.At(hz).InsertionLossDb;

    // The place in a stop band nearest to its edge.
    private static double Edge(ITwoPort filter, double wall, double low, double high, bool highIsStop)
    {
        for (int i = 0; i < 50; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = filter.LossDb(middle) >= wall == highIsStop ? (low, middle) : (middle, high);
        }

        return highIsStop ? high : low;
    }

    // Golden section (a textbook method).
    private static (double At, double Db) Lowest(Func<double, double> of, double low, double high)
    {
        const double Golden = 0.6180339887498949;
        for (int i = 0; i < 50; i++)
        {
            double a = high - (Golden * (high - low)), b = low + (Golden * (high - low));
            (low, high) = of(a) < of(b) ? (low, b) : (a, high);
        }

        double at = (low + high) / 2;
        return (at, of(at));
    }
}
