using CsCheck;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Measurements;

namespace Spurless.Mixing.Tests.Measurements;

public class ReadingTests
{
    [Fact]
    public void SignalOverNoise_undoes_the_rise_of_the_noise() => Gen.Double[-9, 60].Sample(over =>
    {
        MeasuredFigure reading = MeasuredFigure.Exact(ProductEffects.NoiseRiseDb(over));
        Assert.Equal(over, NoiseTakenOut.SignalOverNoise(reading).Value, 1e-9);
    });

    // The slope of 10 lg(10^(x/10) - 1) by a difference.
    [Fact]
    public void SignalOverNoise_sigma_grows_as_the_law_does() => Gen.Double[0.5, 40].Sample(reading =>
    {
        double slope = (NoiseTakenOut.SignalOverNoise(MeasuredFigure.Exact(reading + 1e-5)).Value
            - NoiseTakenOut.SignalOverNoise(MeasuredFigure.Exact(reading - 1e-5)).Value) / 2e-5;
        Assert.Equal(slope, NoiseTakenOut.SignalOverNoise(MeasuredFigure.Read(reading, 1, 1)).SigmaDb, 1e-4);
    });

    [Fact]
    public void SignalOverNoise_of_no_more_than_noise_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => NoiseTakenOut.SignalOverNoise(MeasuredFigure.Exact(0)));

    [Theory]
    [InlineData(3, 145_100_000, 145_150_000, 2, -1, 145_050_000)]
    [InlineData(3, 145_150_000, 145_100_000, -1, 2, 145_050_000)]
    [InlineData(2, 205_050_000, 60_000_000, 1, -1, 145_050_000)]
    [InlineData(2, 100_000_000, 45_050_000, 1, 1, 145_050_000)]
    [InlineData(5, 145_150_000, 145_200_000, 3, -2, 145_050_000)]
    public void Nearest_lands_on_the_channel(int order, long first, long second, int a, int b, long lands) =>
        Assert.Equal(new TwoToneMixture(a, b, lands), TwoToneMixture.Nearest(order, first, second, 145_050_000));

    [Fact]
    public void Nearest_is_no_further_than_any_other_of_its_order() => Gen.Select(
        Gen.Int[2, 9], Gen.Long[1_000_000, 500_000_000], Gen.Long[1_000_000, 500_000_000], Gen.Long[1_000_000, 500_000_000]).Sample(
        (order, first, second, channel) =>
        {
            TwoToneMixture found = TwoToneMixture.Nearest(order, first, second, channel);
            Assert.Equal(order, Math.Abs(found.First) + Math.Abs(found.Second));
            Assert.Equal(found.FrequencyHz, (found.First * first) + (found.Second * second));
            long best = long.MaxValue;
            for (int a = -order; a <= order; a++)
            {
                foreach (int b in (int[])[order - Math.Abs(a), Math.Abs(a) - order])
                {
                    long frequency = (a * first) + (b * second);
                    if (a != 0 && b != 0 && frequency > 0)
                    {
                        best = Math.Min(best, Math.Abs(frequency - channel));
                    }
                }
            }

            Assert.Equal(best, Math.Abs(found.FrequencyHz - channel));
        });

    // One source twice with opposite weights is gone; independent ones add in squares.
    [Fact]
    public void Plus_lets_a_shared_error_fall_out_of_a_difference()
    {
        MeasuredFigure s = MeasuredFigure.Read(-119, 1, 1), level = MeasuredFigure.Read(-41, 2, 2);
        Assert.Equal(Math.Sqrt(5), level.Plus(s, -1).SigmaDb, 12);
        Assert.Equal(2, level.Plus(s, -1).Plus(s).SigmaDb, 12);
        Assert.Equal(78, level.Plus(s, -1).Value, 12);
    }
}
