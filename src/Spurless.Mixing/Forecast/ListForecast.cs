using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Forecast;

/// <summary>Whether a product that the search finds counts; who computes levels more exactly than the search leaves some out.</summary>
/// <param name="product">The product, in the indices of the problem that is forecast.</param>
public delegate bool ProductFilter(in ProductRecord product);

/// <summary>
/// How many products a search will find on each receiver, before it is made: emitters are drawn at random, the search is made for those
/// alone, and a product of m emitters counts for as many as there are m-sets in the problem to one drawn.
/// </summary>
/// <remarks>
/// Unlike <see cref="SpectralForecast"/> this knows floors, levels, widths, exclusive groups and the limit of signals, and takes
/// milliseconds; in return it is a sample. Emitters are drawn one out of each group of neighbours in strength, eight times over, with a
/// fixed seed; the spread of the eight gives the standard error. Method: stratified sampling with the Horvitz-Thompson weight C(N,m)/C(n,m)
/// (sampling theory, from memory); sets with two of one group are never drawn, which the weight makes up for on average, to about m^2/n.
/// </remarks>
public sealed class ListForecast
{
    /// <summary>Samples drawn.</summary>
    private const int Samples = 8;

    /// <summary>Vectors of one sample: some milliseconds without any floor.</summary>
    private const double VectorsOfSample = 2e8;

    /// <summary>Products of one sample after which it ends; its count then says 'at least'.</summary>
    private const int MostOfSample = 200_000;

    private readonly double[] _expected;
    private readonly double[] _standardError;

    private ListForecast(double[] expected, double[] standardError) => (_expected, _standardError) = (expected, standardError);

    /// <summary>Expected number of products on a receiver.</summary>
    /// <param name="receiver">Index into <see cref="SearchProblem.Receivers"/>.</param>
    public double Expected(int receiver) => _expected[receiver];

    /// <summary>Standard error of <see cref="Expected"/>, from the spread of the samples; 0 where all emitters were taken.</summary>
    /// <param name="receiver">Index into <see cref="SearchProblem.Receivers"/>.</param>
    public double StandardError(int receiver) => _standardError[receiver];

    /// <summary>Makes a forecast.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="counts">Leaves products out that the search finds, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The forecast. A problem so small that all emitters can be taken is counted exactly.</returns>
    public static ListForecast Of(SearchProblem problem, ProductFilter? counts = null, CancellationToken cancellationToken = default)
    {
        int all = problem.Emitters.Length;
        int wanted = SampleSize(problem);
        int stride = (all + wanted - 1) / Math.Max(1, wanted);
        int samples = stride <= 1 ? 1 : Samples;
        int[] byStrength = ByStrength(problem);
        FastSearch search = new();
        Random random = new(1);
        double[][] estimates = new double[samples][];
        for (int s = 0; s < samples; s++)
        {
            List<int> drawn = [];
            for (int from = 0; from < all; from += stride)
            {
                drawn.Add(byStrength[from + random.Next(Math.Min(stride, all - from))]);
            }

            int[] emitters = [.. drawn.Order()];
            Sample sink = new(problem, emitters, counts);
            search.Run(Restricted(problem, emitters), sink, null, cancellationToken);
            estimates[s] = sink.Estimates(all);
        }

        double[] expected = new double[problem.Receivers.Length];
        double[] error = new double[problem.Receivers.Length];
        for (int r = 0; r < expected.Length; r++)
        {
            expected[r] = estimates.Average(e => e[r]);
            double variance = samples < 2 ? 0 : estimates.Sum(e => (e[r] - expected[r]) * (e[r] - expected[r])) / (samples - 1);
            error[r] = Math.Sqrt(variance / samples);
        }

        return new ListForecast(expected, error);
    }

    /// <summary>Most emitters whose vectors are few enough for one sample.</summary>
    private static int SampleSize(SearchProblem problem)
    {
        int low = Math.Min(problem.Emitters.Length, 2 * Math.Min(problem.MaxSignals, problem.MaxOrder));
        int high = problem.Emitters.Length;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            if (VectorCount.Canonical(middle, problem.MinOrder, problem.MaxOrder, problem.MaxSignals) <= VectorsOfSample)
            {
                low = middle;
            }
            else
            {
                high = middle - 1;
            }
        }

        return low;
    }

    /// <summary>Emitters by descending level at the first receiver that has any, unknown ones first.</summary>
    private static int[] ByStrength(SearchProblem problem)
    {
        SearchStage? stage = problem.Receivers.FirstOrDefault(static r => !r.Stages.IsEmpty)?.Stages[0];
        return
        [
            .. Enumerable.Range(0, problem.Emitters.Length)
                .OrderByDescending(
                    i => stage is null ? 0 : stage.LevelMicroDbm[i] == MicroDb.Unknown ? int.MaxValue : stage.LevelMicroDbm[i])
                .ThenBy(i => problem.Emitters[i].FrequencyHz)
                .ThenBy(static i => i),
        ];
    }

    private static SearchProblem Restricted(SearchProblem problem, int[] emitters)
    {
        Dictionary<int, int> place = emitters.Select(static (e, i) => (e, i)).ToDictionary(static p => p.e, static p => p.i);
        return problem with
        {
            Emitters = [.. emitters.Select(e => problem.Emitters[e])],
            Receivers =
            [
                .. problem.Receivers.Select(r => r with
                {
                    Stages = [.. r.Stages.Select(s => s with { LevelMicroDbm = [.. emitters.Select(e => s.LevelMicroDbm[e])] })],
                }),
            ],
            ExclusiveGroups =
            [
                .. problem.ExclusiveGroups.Select(
                    g => (System.Collections.Immutable.ImmutableArray<int>)[.. g.Where(place.ContainsKey).Select(e => place[e])]),
            ],
        };
    }

    /// <summary>Counts the products of one sample by receiver and number of emitters.</summary>
    private sealed class Sample(SearchProblem problem, int[] emitters, ProductFilter? counts) : IProductSink
    {
        private const int Row = Multinomial.MaxOrder + 1;

        private readonly long[] _found = new long[problem.Receivers.Length * Row];
        private readonly int[] _emitters = new int[Row];
        private readonly int[] _coefficients = new int[Row];
        private int _total;

        public bool Add(in ProductRecord product)
        {
            if (counts is not null)
            {
                for (int i = 0; i < product.Signals; i++)
                {
                    (_emitters[i], _coefficients[i]) = (emitters[product.Emitter(i)], product.Coefficient(i));
                }

                ProductRecord whole = new(
                    product.Receiver,
                    _emitters.AsSpan(0, product.Signals),
                    _coefficients.AsSpan(0, product.Signals),
                    false,
                    product.LevelMicroDbm,
                    product.Stage);
                if (!counts(in whole))
                {
                    return true;
                }
            }

            _found[(product.Receiver * Row) + product.Signals]++;
            return ++_total < MostOfSample;
        }

        public double[] Estimates(int all) =>
        [
            .. Enumerable.Range(0, problem.Receivers.Length).Select(r => Enumerable.Range(1, Multinomial.MaxOrder).Sum(m =>
                _found[(r * Row) + m] == 0
                    ? 0
                    : _found[(r * Row) + m] * VectorCount.Binomial(all, m) / VectorCount.Binomial(emitters.Length, m))),
        ];
    }
}
