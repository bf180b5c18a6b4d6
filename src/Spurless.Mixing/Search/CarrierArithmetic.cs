namespace Spurless.Mixing.Search;

/// <summary>One sum or difference of carriers.</summary>
/// <param name="Terms">What is added first, then what is taken away; each by descending number of times, then in the order of the
/// carriers.</param>
/// <param name="Order">Sum of the numbers of times.</param>
/// <param name="FrequencyHz">Where it lands, in hertz.</param>
/// <param name="OffsetHz">That less the frequency asked for, in hertz.</param>
public sealed record CarrierMixture(IReadOnlyList<CarrierTerm> Terms, int Order, long FrequencyHz, long OffsetHz);

/// <summary>One carrier's share in a mixture.</summary>
/// <param name="FrequencyHz">The carrier in hertz.</param>
/// <param name="Coefficient">How many times it takes part, with sign; never 0.</param>
public sealed record CarrierTerm(long FrequencyHz, int Coefficient);

/// <summary>What sums and differences of bare carriers land near a frequency.</summary>
/// <param name="FrequencyHz">The frequency asked for, in hertz.</param>
/// <param name="WithinHz">How near is near: the greatest offset, in hertz.</param>
/// <param name="CarriersHz">The carriers, in the order given.</param>
/// <param name="MinOrder">Lowest order.</param>
/// <param name="MaxOrder">Highest order.</param>
/// <param name="MaxSignals">Most carriers in one mixture.</param>
/// <param name="Mixtures">By order, then distance, then the order of the carriers.</param>
public sealed record CarrierMixtures(
    long FrequencyHz,
    long WithinHz,
    IReadOnlyList<long> CarriersHz,
    int MinOrder,
    int MaxOrder,
    int MaxSignals,
    IReadOnlyList<CarrierMixture> Mixtures);

/// <summary>
/// The arithmetic of carriers alone, without levels and without widths: which sums and differences of whole multiples land near a
/// frequency. Exact in 64-bit integers. Carriers on one frequency are different signals and never cancel.
/// </summary>
public static class CarrierArithmetic
{
    /// <summary>Finds all of them, each once.</summary>
    /// <param name="frequencyHz">The frequency asked for, in hertz, 1 to <see cref="SearchProblem.MaxFrequencyHz"/>.</param>
    /// <param name="withinHz">The greatest offset that counts, in hertz, 1 to half of <see cref="SearchProblem.MaxFrequencyHz"/>; the edge
    /// counts.</param>
    /// <param name="carriersHz">The carriers, in hertz, each as <paramref name="frequencyHz"/>.</param>
    /// <param name="orders">Lowest and highest order, 2 to 9.</param>
    /// <param name="signals">Most carriers in one mixture, 1 to 9.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The mixtures, or null where there are more than <see cref="ProductList.DefaultLimit"/>.</returns>
    public static CarrierMixtures? Find(
        long frequencyHz,
        long withinHz,
        IReadOnlyList<long> carriersHz,
        (int Lowest, int Highest) orders,
        int signals,
        IProgress<SearchProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        SearchProblem problem = new()
        {
            Emitters = [.. carriersHz.Select(static f => new SearchEmitter(f, 0))],
            Receivers = [new SearchReceiver { FrequencyHz = frequencyHz, ChannelHz = 2 * withinHz }],
            MinOrder = orders.Lowest,
            MaxOrder = orders.Highest,
            MaxSignals = signals,
        };
        ProductList found = new();
        new FastSearch().Run(problem, found, progress, cancellationToken);
        if (found.Overflowed)
        {
            return null;
        }

        found.Sort();
        CarrierMixture[] mixtures = [.. found.Products
            .Select(p => ToMixture(p, problem, frequencyHz))
            .OrderBy(static m => m.Order)
            .ThenBy(static m => Math.Abs(m.OffsetHz))];
        return new CarrierMixtures(frequencyHz, withinHz, carriersHz, orders.Lowest, orders.Highest, signals, mixtures);
    }

    private static CarrierMixture ToMixture(in ProductRecord product, SearchProblem problem, long frequencyHz)
    {
        List<CarrierTerm> terms = [];
        for (int i = 0; i < product.Signals; i++)
        {
            terms.Add(new CarrierTerm(problem.Emitters[product.Emitter(i)].FrequencyHz, product.Coefficient(i)));
        }

        long at = product.FrequencyHz(problem);
        return new CarrierMixture(
            [.. terms.OrderByDescending(static t => Math.Sign(t.Coefficient)).ThenByDescending(static t => Math.Abs(t.Coefficient))],
            product.Order,
            at,
            at - frequencyHz);
    }
}
