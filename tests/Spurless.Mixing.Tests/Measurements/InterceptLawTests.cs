using CsCheck;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Measurements;

namespace Spurless.Mixing.Tests.Measurements;

public class InterceptLawTests
{
    private static MeasuredFigure Exact(double value) => MeasuredFigure.Exact(value);

    // IIP3 = tone level + suppression / 2: a receiver's user guide, SWRA004A page 71 step 10 (docs/checks.md 1.2).
    // Tones of -30 dBm, 60 dB: 0 dBm.
    [Theory]
    [InlineData(-30, 60, 0)]
    [InlineData(-44, 82.5, -2.75)]
    public void Intercept_of_tones_and_suppression_is_that_of_the_published_rule(double tone, double suppression, double iip3) =>
        Assert.Equal(iip3, InterceptLaw.Intercept([2, -1], [Exact(tone), Exact(tone)], Exact(tone - suppression)).Value, 9);

    // The receiver just fails where the mixture lies C under the wanted signal. Wanted, tones and C: ITU-R M.1371-6 annex 6 table 36 p. 86
    // (-101, -36 dBm, 10 dB), a GSM handset manual 6.2.3 table 3 (-99, -49 dBm; C = 9 dB from memory): docs/checks.md 1.5, by hand.
    [Theory]
    [InlineData(-101, -36, 10, 1.5)]
    [InlineData(-99, -49, 9, -19.5)]
    public void Intercept_of_a_published_blocking_pair_is_the_one_by_hand(double wanted, double tones, double coChannel, double iip3)
    {
        MeasuredFigure found = InterceptLaw.Intercept([2, -1], [Exact(tones), Exact(tones)], Exact(wanted - coChannel));
        Assert.Equal(iip3, found.Value, 9);
        Assert.Equal(IntermodRejection.En300086(tones - wanted, wanted, coChannel), found.Value, 9);
    }

    // A wanted signal 3 dB over S falls back to 12 dB SINAD where the mixture has doubled the noise: it equals S - CN12. The same test as
    // TIA-603's, whose rejection R counts from S.
    [Fact]
    public void Intercept_of_a_mixture_equal_to_the_noise_is_that_of_the_rejection() => Gen.Select(
        Gen.Double[-130, -100], Gen.Double[40, 100], Gen.Double[4, 12]).Sample((s, r, cn) =>
        Assert.Equal(
            IntermodRejection.Tia603(r, s, cn),
            InterceptLaw.Intercept([2, -1], [Exact(s + r), Exact(s + r)], Exact(s - cn)).Value,
            9));

    [Fact]
    public void Intercept_gives_back_what_the_law_of_levels_was_given() => Gen.Select(
        Gen.Int[1, 4], Gen.Int[-4, -1], Gen.Int[0, 1], Gen.Double[-60, 20], Gen.Double[-80, 0].Array[3]).Sample((a, b, c, iip, levels) =>
    {
        int[] k = c == 0 ? [a, b] : [a, b, c];
        int order = InterceptLaw.Order(k);
        long product = ProductLevel.OrderMicroDb(order, MicroDb.FromDecibels(iip), 0);
        for (int i = 0; i < k.Length; i++)
        {
            product += ProductLevel.EmitterMicroDb(Math.Abs(k[i]), MicroDb.FromDecibels(levels[i]), noiseLike: false);
        }

        MeasuredFigure found = InterceptLaw.Intercept(
            k, [.. levels.Take(k.Length).Select(Exact)], Exact(MicroDb.ToDecibels(product)));
        Assert.Equal(iip, found.Value, 1e-5); // half a micro-dB for each part
    });

    // dIIP = (3 dP - dPk)/2 for tones set as one, (2 dA + dB - dPk)/2 for tones set apart.
    [Fact]
    public void Intercept_sigma_is_that_of_the_readings_times_their_weights()
    {
        MeasuredFigure both = MeasuredFigure.Read(-44, 1, 1), other = MeasuredFigure.Read(-44, 2, 1);
        MeasuredFigure product = MeasuredFigure.Read(-126, 3, 1);
        Assert.Equal(Math.Sqrt(9 + 1) / 2, InterceptLaw.Intercept([2, -1], [both, both], product).SigmaDb, 12);
        Assert.Equal(Math.Sqrt(4 + 1 + 1) / 2, InterceptLaw.Intercept([2, -1], [both, other], product).SigmaDb, 12);
    }

    [Fact]
    public void LossOfTones_is_what_stands_between_two_readings() => Gen.Select(
        Gen.Double[-30, 10], Gen.Double[0, 40].Array[2], Gen.Double[-50, -20].Array[2]).Sample((iip3, losses, levels) =>
    {
        // 2A-B by hand, behind a front end.
        double product = (2 * (levels[0] - losses[0])) + (levels[1] - losses[1]) - (2 * iip3);
        MeasuredFigure loss = InterceptLaw.LossOfTones(
            [2, -1], [Exact(levels[0]), Exact(levels[1])], Exact(product), Exact(iip3));
        Assert.Equal((2 * losses[0]) + losses[1], loss.Value, 9);
    });
}
