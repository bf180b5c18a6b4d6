using Spurless.Mixing.Evidence;

namespace Spurless.Mixing.Tests.Evidence;

public sealed class WeighingTests
{
    [Fact]
    public void Weigh_500_random_cases_equals_the_plain_closed_forms_to_1e_9()
    {
        for (int seed = 1; seed <= 500; seed++)
        {
            RandomCases.Both both = RandomCases.Make(seed);
            List<double> expected = both.Plain();
            IReadOnlyList<double> posterior = Weighing.Weigh(both.Case, TestContext.Current.CancellationToken).Posterior;
            Assert.True(expected.Count == posterior.Count, $"seed {seed}");
            for (int h = 0; h < expected.Count; h++)
            {
                Assert.True(Math.Abs(expected[h] - posterior[h]) < 1e-9, $"seed {seed}, hypothesis {h}: {expected[h]}, {posterior[h]}");
            }
        }
    }

    // By hand: one product at two places, and something else. Far over noise F = g a, so that readings are normal about 9 and 3 dB with a
    // variance of plus_minus^2 alone (dF/dx = 0): the ratio of receiver to outside is (1/2)/(1/4) exp(-(z9^2 - z3^2) / 2), z = (8 - m) / 1.
    // The level is read as 43 and predicted as 43 with sigma 7: its density is 1/sqrt(2 pi 50) against 1/90.
    [Fact]
    public void Weigh_one_pad_far_over_noise_is_a_ratio_of_Gaussians()
    {
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [Pair(0, 1, new EvidencePlace { Kind = MakingPlace.Receiver, Index = 0, OverNoiseDb = 63, SigmaDb = 7 })],
            Observations = [new PadInLine { OverNoiseDb = 63, FallDb = 8, PadDb = 3 }],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        double level = 90 / Math.Sqrt(2 * Math.PI * 50);
        double expected = 2 * level * Math.Exp(-((1 * 1) - (5 * 5)) / 2.0);
        Assert.Equal(1, weighed.Posterior[0] / weighed.Posterior[1] / expected, 3e-5);
        Assert.Equal(weighed.Hypotheses[1].Prior / weighed.Hypotheses[2].Prior, weighed.Posterior[1] / weighed.Posterior[2], 1e-9);
    }

    // By hand: 4 moments, all on and heard: B(13, 1)/B(9, 1) = 9/13; something else: B(5, 1)/B(1, 1) = 1/5. Equal prior.
    [Fact]
    public void Weigh_one_log_is_a_ratio_of_beta_functions()
    {
        bool?[][] rows = [[true, true, true, false], [true, true, true, true], [true, true, true, false], [true, true, true, true]];
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [Pair(0, 1)],
            Observations = [new LogReading(LogMoments.Of(rows, 0, [1, 2, 3], [false, false, false]))],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        Assert.Equal(9.0 / 13 * 5, weighed.Posterior[0] / weighed.Posterior[1], 1e-12);
    }

    [Fact]
    public void Weigh_nothing_observed_gives_the_shares_of_the_prior()
    {
        EvidenceProduct[] products =
        [
            Pair(0, 1, Stage(0), Stage(1), Maker(0), Maker(1)),
            Pair(0, 2),
        ];
        WeighedEvidence weighed = Weighing.Weigh(
            new EvidenceCase { Products = products, Observations = [], ChannelHz = 12_500 }, TestContext.Current.CancellationToken);

        // A third each; of the first 1/2 to two stages, 1/4 to two transmitters, 1/4 outside; the second can only be outside.
        double[] expected = [1 / 12.0, 1 / 12.0, 1 / 24.0, 1 / 24.0, 1 / 12.0, 1 / 3.0, 1 / 3.0];
        for (int h = 0; h < expected.Length; h++)
        {
            Assert.Equal(expected[h], weighed.Posterior[h], 1e-12);
            Assert.Equal(0, weighed.TieOf[h]);
        }
    }

    [Fact]
    public void Weigh_order_of_observations_changes_nothing()
    {
        for (int seed = 1000; seed < 1040; seed++)
        {
            EvidenceCase made = RandomCases.Make(seed).Case;
            EvidenceCase turned = made with { Observations = [.. made.Observations.Reverse()] };
            WeighedEvidence one = Weighing.Weigh(made, TestContext.Current.CancellationToken);
            WeighedEvidence other = Weighing.Weigh(turned, TestContext.Current.CancellationToken);
            if (made.Observations.OfType<FallObservation>().DistinctBy(static f => f.OverNoiseDb).Count()
                == made.Observations.OfType<FallObservation>().Count())
            {
                for (int h = 0; h < one.Posterior.Count; h++)
                {
                    Assert.Equal(one.Posterior[h], other.Posterior[h], 1e-10);
                }
            }
        }
    }

    [Fact]
    public void TieOf_two_products_with_the_same_emitters_seen_alike_is_one_tie()
    {
        bool?[][] rows = [[true, true, true], [false, false, true], [true, true, true]];
        EvidenceProduct second = Pair(0, 1) with { Terms = [new EvidenceTerm(0, 3), new EvidenceTerm(1, -2)] };
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [Pair(0, 1), second, Pair(0, 2)],
            Observations = [new LogReading(LogMoments.Of(rows, 0, [1, 2, -1], [false, false, false]))],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        Assert.Equal([0, 0, 2, 3], weighed.TieOf);
        Assert.Equal(weighed.Posterior[0], weighed.Posterior[1], 1e-15);
    }

    // The transmitter follows the receiver: whenever something is heard it is on. Read without care it is on at every heard moment.
    [Fact]
    public void Weigh_what_follows_the_receiver_does_not_look_like_a_cause()
    {
        Random random = new(5);
        List<bool?[]> rows = [];
        for (int r = 0; r < 60; r++)
        {
            bool a = random.Next(2) == 0, b = random.Next(2) == 0;
            bool heard = a && b ? random.NextDouble() > 0.1 : random.NextDouble() < 0.05;
            // It comes on with the interference and is read at the same moment.
            rows.Add([heard, a, b, heard, true]);
        }

        EvidenceProduct[] products = [Pair(0, 1), Pair(2, 3)];
        IReadOnlyList<double> Read(bool follows) => Weighing.Weigh(new EvidenceCase
        {
            Products = products,
            Observations = [new LogReading(LogMoments.Of(rows, 0, [1, 2, 3, 4], [false, false, follows, false]))],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken).Posterior;

        Assert.True(Read(follows: false)[1] > 0.5, "without care it looks like the cause");
        Assert.True(Read(follows: true)[0] > 0.99, "with care the true pair is found");
    }

    [Fact]
    public void Misfits_a_fall_that_no_hypothesis_comes_near_is_said()
    {
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [Pair(0, 1, Stage(0))],
            Observations = [new PadInLine { OverNoiseDb = 40, FallDb = 20, PadDb = 3 }],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        Misfit misfit = Assert.Single(weighed.Misfits());
        Assert.Equal(MisfitKind.NothingNear, misfit.Kind);
        Assert.Equal(11, misfit.Sigmas, 0.02); // 20 dB read where 9 dB is the nearest that is said, one sigma 1 dB
    }

    [Fact]
    public void Misfits_readings_that_contradict_each_other_are_said()
    {
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [Pair(0, 1, Stage(0))],
            Observations =
            [
                new PadInLine { OverNoiseDb = 40, FallDb = 9, PadDb = 3 }, new PadInLine { OverNoiseDb = 40, FallDb = 18, PadDb = 6 },
                new PadInLine { OverNoiseDb = 40, FallDb = 3, PadDb = 3 },
            ],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        Misfit misfit = Assert.Single(weighed.Misfits());
        Assert.Equal(MisfitKind.AgainstTheRest, misfit.Kind);
        Assert.Equal(3, misfit.Clue); // the level is clue 0
    }

    [Fact]
    public void Misfits_a_log_that_no_product_explains_is_said()
    {
        bool?[][] rows =
        [
            .. Enumerable.Range(0, 40).Select(static r => new bool?[] { r % 2 == 0, r % 4 < 2, r % 3 == 0 }),
        ];
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [Pair(0, 1)],
            Observations = [new LogReading(LogMoments.Of(rows, 0, [1, 2], [false, false]))],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        Assert.Equal(MisfitKind.LogUnexplained, Assert.Single(weighed.Misfits()).Kind);
    }

    [Fact]
    public void ReasonsOf_strongest_first_and_with_its_sign()
    {
        WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
        {
            Products = [Pair(0, 1, Stage(0))],
            Observations =
            [
                new PadInLine { OverNoiseDb = 40, FallDb = 9.2, PadDb = 3 }, new PadInLine { OverNoiseDb = 40, FallDb = 3.2, PadDb = 1 },
            ],
            ChannelHz = 12_500,
        }, TestContext.Current.CancellationToken);

        Assert.Equal([1, 2, 0], weighed.ReasonsOf(0).Select(static r => r.Clue));
        Assert.True(weighed.ReasonsOf(0)[0].Weight > 10);
        Assert.True(weighed.ReasonsOf(1)[0].Weight < -10);
    }

    internal static EvidenceProduct Pair(int a, int b, params EvidencePlace[] places) => new()
    {
        Terms = [new EvidenceTerm(a, 2), new EvidenceTerm(b, -1)],
        Places = [.. places, new EvidencePlace { Kind = MakingPlace.Outside }],
    };

    private static EvidencePlace Stage(int index) => new() { Kind = MakingPlace.Receiver, Index = index };

    private static EvidencePlace Maker(int emitter) => new() { Kind = MakingPlace.Transmitter, Index = emitter };
}
