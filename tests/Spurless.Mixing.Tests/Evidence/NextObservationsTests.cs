using Spurless.Mixing.Evidence;

namespace Spurless.Mixing.Tests.Evidence;

public sealed class NextObservationsTests
{
    // The expected fall of entropy as it is defined: the posterior's entropy for each reading, weighed with how likely the reading is, by
    // Simpson's rule over all readings; the plain posterior is that of the test's own implementation.
    [Fact]
    public void Rank_expected_gain_equals_the_definition_by_slow_integration()
    {
        for (int seed = 1; seed <= 12; seed++)
        {
            RandomCases.Both both = RandomCases.Make(seed * 7);
            double x = both.Falls.Length > 0 ? both.Falls.Max(static f => f.X) : 20;
            PlainEvidence.Fall ask = new('p', x, double.NaN, 1, 6, 0, [], [], 0);
            WeighedEvidence weighed = Weighing.Weigh(both.Case, TestContext.Current.CancellationToken);
            Advice advice = NextObservations.Rank(weighed, [RandomCases.Of(ask)], TestContext.Current.CancellationToken)[0];
            Assert.Equal(Slow(both, ask, weighed.Posterior), advice.GainNats, 1e-5);
        }
    }

    [Fact]
    public void Rank_a_moment_that_tells_two_products_apart_gains_by_the_definition()
    {
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [WeighingTests.Pair(0, 1), WeighingTests.Pair(0, 2)],
            Observations = [],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        Advice advice = NextObservations.Rank(weighed, [new MomentToWaitFor([0, 1], 2)], TestContext.Current.CancellationToken)[0];

        // By hand: heard with 9/10, 1/20, 1/2 at a third each.
        static double H(double p) => -(p * Math.Log(p)) - ((1 - p) * Math.Log(1 - p));
        double expected = H((0.9 + 0.05 + 0.5) / 3) - ((H(0.9) + H(0.05) + H(0.5)) / 3);
        Assert.Equal(expected, advice.GainNats, 1e-12);
        Assert.Equal(0, advice.Decides); // the likeliest then holds 0.9 / 1.45
    }

    [Fact]
    public void Rank_a_larger_pad_tells_more_and_decides_the_place()
    {
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [WeighingTests.Pair(0, 1, new EvidencePlace { Kind = MakingPlace.Receiver, Index = 0 })],
            Observations = [],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        IReadOnlyList<Advice> ranked = NextObservations.Rank(
            weighed,
            [
                new PadInLine { OverNoiseDb = 30, PadDb = 1 }, new PadInLine { OverNoiseDb = 30, PadDb = 3 },
                new PadInLine { OverNoiseDb = 30, PadDb = 6 },
            ],
            TestContext.Current.CancellationToken);

        Assert.Equal([2, 1, 0], ranked.Select(static a => a.Index));
        // Receiver or not: 1/3 against 2/3 of entropy 0.6365 nats; 12 dB apart at 1 dB nothing of it is left.
        Assert.Equal(0.6365, ranked[0].GainNats, 1e-4);
        // It then is the receiver (1/3 of the cases); outside and something else stay alike.
        Assert.Equal(1 / 3.0, ranked[0].Decides, 1e-3);
        Assert.Equal(1 / 3.0, ranked[0].DecidesPlace, 1e-3);
    }

    private static double Slow(RandomCases.Both both, PlainEvidence.Fall ask, IReadOnlyList<double> prior)
    {
        List<(double Mean, double Sigma)> says = [];
        for (int p = 0; p <= both.Products.Length; p++)
        {
            PlainEvidence.Product? product = p < both.Products.Length ? both.Products[p] : null;
            foreach (PlainEvidence.Place place in product?.Places ?? [new PlainEvidence.Place('o', -1, null, 0)])
            {
                double y = PlainEvidence.Attenuation(ask, product, p, place);
                double before = Math.Pow(10, ask.X / 10), after = Math.Pow(10, (ask.X - y) / 10);
                double slope = (before / (1 + before)) - (after / (1 + after));
                says.Add((10 * Math.Log10((1 + before) / (1 + after)), Math.Sqrt(1 + (slope * slope))));
            }
        }

        const int Steps = 8000;
        double low = says.Min(static s => s.Mean) - 14, high = says.Max(static s => s.Mean) + 14, h = (high - low) / Steps;
        double before0 = -prior.Sum(static p => p > 0 ? p * Math.Log(p) : 0);
        double left = 0;
        for (int i = 0; i <= Steps; i++)
        {
            double y = low + (i * h);
            double[] joint = [.. says.Select((s, k) =>
                prior[k] * Math.Exp(-0.5 * Math.Pow((y - s.Mean) / s.Sigma, 2)) / (s.Sigma * Math.Sqrt(2 * Math.PI)))];
            double all = joint.Sum();
            double entropy = all > 0 ? -joint.Sum(j => j > 0 ? j / all * Math.Log(j / all) : 0) : 0;
            left += (i is 0 or Steps ? 1 : i % 2 == 0 ? 2 : 4) * all * entropy * h / 3;
        }

        return before0 - left;
    }
}
