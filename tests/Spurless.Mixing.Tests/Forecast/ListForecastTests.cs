using Spurless.Mixing.Forecast;
using Spurless.Mixing.Search;
using Spurless.Mixing.Tests.Search;

namespace Spurless.Mixing.Tests.Forecast;

public class ListForecastTests
{
    // Few enough vectors that all emitters are taken: the forecast is the count itself.
    [Fact]
    public void Of_a_small_problem_is_exact()
    {
        for (int seed = 0; seed < 200; seed++)
        {
            SearchProblem problem = RandomSite.Create(seed);
            ListForecast forecast = ListForecast.Of(problem);
            ProductTally tally = Tally(problem);
            for (int r = 0; r < problem.Receivers.Length; r++)
            {
                Assert.Equal(tally.OfReceiver(r).Count, forecast.Expected(r));
                Assert.Equal(0, forecast.StandardError(r));
            }
        }
    }

    // Oracle: the whole search. Three standard errors hold 99 % of cases where errors are normal; the eight samples' own spread gives the
    // standard error to a quarter only (1/sqrt(2 x 7)), so five are allowed, and the error must be of use: under a third.
    [Theory]
    [InlineData(700, 2, 5, 3, null)]
    [InlineData(700, 2, 5, 3, -128.0)]
    [InlineData(900, 2, 4, 4, -140.0)]
    [InlineData(3_000, 3, 3, 3, -120.0)]
    public void Of_a_large_problem_is_near_the_count(int emitters, int minOrder, int maxOrder, int signals, double? floor)
    {
        SearchProblem problem = FastSearchSizeTests.Hill(emitters, 2, minOrder, maxOrder, signals, floor);
        ListForecast forecast = ListForecast.Of(problem);
        ProductTally tally = Tally(problem);
        for (int r = 0; r < 2; r++)
        {
            Assert.True(tally.OfReceiver(r).Count > 1_000);
            Assert.InRange(forecast.StandardError(r), 1, 0.33 * forecast.Expected(r));
            Assert.InRange(
                tally.OfReceiver(r).Count,
                forecast.Expected(r) - (5 * forecast.StandardError(r)),
                forecast.Expected(r) + (5 * forecast.StandardError(r)));
        }
    }

    [Fact]
    public void Of_a_problem_counts_only_what_the_filter_lets_through_in_the_problem_s_own_indices()
    {
        SearchProblem problem = FastSearchSizeTests.Hill(700, 1, 3, 3, 3, null);
        bool Counts(in ProductRecord p) =>
            p.Emitter(0) < 350
                && p.FrequencyHz(problem) > 0
                && 2 * Math.Abs(p.FrequencyHz(problem) - problem.Receivers[0].FrequencyHz) <= 12_500 + Width(p, problem);
        ProductList all = new();
        new FastSearch().Run(problem, all);
        int counted = all.Products.Count(p => Counts(p));
        ListForecast forecast = ListForecast.Of(problem, Counts);
        Assert.InRange(
            counted, forecast.Expected(0) - (5 * forecast.StandardError(0)), forecast.Expected(0) + (5 * forecast.StandardError(0)));
        Assert.True(counted < 0.95 * all.Products.Count);
    }

    [Fact]
    public void Of_one_problem_is_the_same_each_time()
    {
        SearchProblem problem = FastSearchSizeTests.Hill(700, 1, 2, 5, 3, -128);
        Assert.Equal(ListForecast.Of(problem).Expected(0), ListForecast.Of(problem).Expected(0));
    }

    private static long Width(in ProductRecord product, SearchProblem problem)
    {
        long sum = 0;
        for (int i = 0; i < product.Signals; i++)
        {
            sum += Math.Abs(product.Coefficient(i)) * problem.Emitters[product.Emitter(i)].BandwidthHz;
        }

        return sum;
    }

    private static ProductTally Tally(SearchProblem problem)
    {
        ProductTally tally = new(problem.Receivers.Length, problem.Emitters.Length);
        new FastSearch().Run(problem, tally);
        return tally;
    }
}
