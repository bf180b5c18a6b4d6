using System.Globalization;
using Spurless.Mixing.Evidence;

namespace Spurless.Mixing.Tests.Evidence;

/// <summary>Whether 'sure to 80 %' is right in 80 of 100 cases: sites with a hidden truth (<see cref="MadeSite"/>).</summary>
public sealed class CalibrationTests
{
    private const int Rows = 60;

    // Probabilities near 0 and 1 fill their bins by the thousand; what lies between is rare. So each site hides one truth after the other,
    // twenty in all, and four states of knowledge of each count: log alone, with a pad, with a filter, with an offset.
    private const int Truths = 20;

    // Of few sites the bins scatter by themselves: 5 points, or 2.5 standard errors, the four states of one truth counted as one.
    [Fact]
    public void Posterior_60_sites_with_hidden_truths_is_right_as_often_as_it_says() =>
        Hold(60, static (said, count) => Math.Max(0.05, 2.5 * Math.Sqrt(said * (1 - said) / (count / 4.0))));

    [Fact, Trait("Category", "Long")]
    public void Posterior_500_sites_with_hidden_truths_is_right_as_often_as_it_says() => Hold(500, static (_, _) => 0.05);

    [Fact, Trait("Category", "Long")]
    public void Rank_following_the_advice_needs_at_most_half_of_what_random_order_needs()
    {
        (int sites, double advised, double random) = Advantage(100);
        TestContext.Current.TestOutputHelper?.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"{sites} sites: advised {advised:0.00}, random {random:0.00}"));
        Assert.Equal(100, sites);
        Assert.True(advised <= random / 2, $"{sites} sites: {advised} observations against {random}");
    }

    private static void Hold(int sites, Func<double, int, double> within)
    {
        (double Said, double Came, int Count)[] bins = new (double, double, int)[10];
        int separable = 0, first = 0, boasts = 0;
        for (int made = 0; made < sites * Truths; made++)
        {
            MadeSite site = new(1 + (made / Truths), made % Truths);
            List<Observation> observed = [site.Log(Rows)];
            Count(Weigh(site, observed), site, bins);
            foreach (Observation ask in new Observation[] { site.Asks[1], site.Filter, new OffsetReading() })
            {
                observed.Add(site.Answer(ask));
                Count(Weigh(site, observed), site, bins);
            }

            WeighedEvidence all = Weigh(site, observed);
            if (CanBeSeparated(site, observed))
            {
                separable++;
                first += all.Leader == site.Truth ? 1 : 0;
            }
            else
            {
                // What cannot be told apart is not claimed: sure and wrong at once.
                boasts += all.Posterior[all.Leader] > 0.95 && all.Leader != site.Truth ? 1 : 0;
            }
        }

        foreach ((double said, double came, int count) in bins)
        {
            TestContext.Current.TestOutputHelper?.WriteLine(
                string.Create(CultureInfo.InvariantCulture, $"| {count} | {100 * said / count:0.0} | {100 * came / count:0.0} |"));
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"separable {separable}, the truth first in {first}; sure and wrong {boasts}");
        foreach ((double said, double came, int count) in bins)
        {
            Assert.True(
                count == 0 || Math.Abs(said - came) <= within(said / count, count) * count,
                $"{count} said {said / count:0.000} and came {came / count:0.000}");
        }

        Assert.True(separable >= sites * Truths / 5, $"{separable} could be separated");
        Assert.True(first >= 0.95 * separable, $"the truth first in {first} of {separable}");
        Assert.True(boasts <= 0.01 * sites * Truths, $"sure and wrong in {boasts}");
    }

    private static WeighedEvidence Weigh(MadeSite site, List<Observation> observed) => Weighing.Weigh(site.Case([.. observed]));

    private static void Count(WeighedEvidence weighed, MadeSite site, (double Said, double Came, int Count)[] bins)
    {
        for (int h = 0; h < weighed.Posterior.Count; h++)
        {
            double p = weighed.Posterior[h];
            ref (double Said, double Came, int Count) bin = ref bins[Math.Min(9, (int)(10 * p))];
            bin = (bin.Said + p, bin.Came + (h == site.Truth ? 1 : 0), bin.Count + 1);
        }
    }

    // The design can separate the truth: from every other hypothesis its state differs in at least 3 logged moments or a fall by over
    // three sigma.
    private static bool CanBeSeparated(MadeSite site, List<Observation> observed)
    {
        EvidenceCase made = site.Case([.. observed]);
        LogMoments log = observed.OfType<LogReading>().Single().Moments;
        for (int h = 0; h < site.Hypotheses.Length; h++)
        {
            if (h == site.Truth)
            {
                continue;
            }

            EvidenceProduct? product = made.ProductOf(site.Hypotheses[h]);
            int differ = Enumerable.Range(0, log.Rows).Count(r => log.ClassOf(product, r) != log.ClassOf(site.True, r));
            bool falls = observed.OfType<FallObservation>().Any(f =>
            {
                Prediction one = made.Fall(f, site.Hypotheses[h]), other = made.Fall(f, site.Hypotheses[site.Truth]);
                return Math.Abs(one.Mean - other.Mean) > 3 * Math.Max(one.Sigma, other.Sigma);
            });
            if (differ < 3 && !falls)
            {
                return false;
            }
        }

        return true;
    }

    // On sites that everything together decides: how many observations until the likeliest stands at 95 %.
    private static (int Sites, double Advised, double Random) Advantage(int wanted)
    {
        int sites = 0, advised = 0, random = 0;
        for (int seed = 10_001; sites < wanted; seed++)
        {
            MadeSite site = new(seed);
            Observation[] answers = [.. site.Asks.Select(site.Answer)];
            if (!Sure(Weigh(site, [.. answers])))
            {
                continue;
            }

            sites++;
            advised += Needed(site, answers, static (weighed, left) =>
                NextObservations.Rank(weighed, [.. left.Select(static l => l.Ask)])[0].Index);
            random += Needed(site, answers, (_, left) => site.Next(left.Count));
        }

        return (sites, advised / (double)sites, random / (double)sites);
    }

    private static int Needed(
        MadeSite site, Observation[] answers, Func<WeighedEvidence, List<(Observation Ask, Observation Answer)>, int> choose)
    {
        List<(Observation Ask, Observation Answer)> left = [.. site.Asks.Zip(answers)];
        List<Observation> observed = [];
        WeighedEvidence weighed = Weigh(site, observed);
        while (left.Count > 0 && !Sure(weighed))
        {
            int next = choose(weighed, left);
            observed.Add(left[next].Answer);
            left.RemoveAt(next);
            weighed = Weigh(site, observed);
        }

        return observed.Count;
    }

    private static bool Sure(WeighedEvidence weighed) => weighed.Posterior[weighed.Leader] >= NextObservations.Sure;
}
