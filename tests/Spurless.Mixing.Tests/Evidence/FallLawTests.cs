using Spurless.Mixing.Evidence;

namespace Spurless.Mixing.Tests.Evidence;

public sealed class FallLawTests
{
    // 10 lg(1 + 10^2.2) - 10 lg(1 + 10^((22 - 9)/10)): 22.0273 - 13.2124 (by hand, to four places).
    [Theory]
    [InlineData(22, 9, 8.8149)]
    [InlineData(22, 3, 2.9728)]
    [InlineData(3, double.PositiveInfinity, 4.7643)]
    [InlineData(60, -3, -3.0)]
    public void Db_known_cases_are_met(double x, double y, double fall) => Assert.Equal(fall, FallLaw.Db(x, y), 2e-4);

    [Fact]
    public void Slope_is_the_derivative_by_differences()
    {
        for (double x = -8; x < 60; x += 3.7)
        {
            for (double y = -4; y < 60; y += 5.3)
            {
                double difference = (FallLaw.Db(x + 1e-4, y) - FallLaw.Db(x - 1e-4, y)) / 2e-4;
                Assert.Equal(difference, FallLaw.Slope(x, y), 1e-7);
            }
        }
    }

    // A receiver as it is: a polynomial with its own noise behind, two carriers in front, pads before it. What is read is the mean power
    // in the product's bin, noise in it; the product is that of the polynomial, of the order that its degree makes. A carrier on channel
    // goes through the same.
    [Theory]
    [InlineData(2, 2, -1)]
    [InlineData(3, 2, -1)]
    [InlineData(5, 3, -2)]
    [InlineData(1, 1, 0)]
    public void Db_falls_as_a_simulated_receiver_with_noise_does(int order, int ka, int kb)
    {
        const int Length = 512, A = 51, B = 68;
        (ka, kb) = order == 2 ? (1, 1) : (ka, kb);
        int bin = Math.Abs((ka * A) + (kb * B));
        double[] pads = [0, 1, 3, 6, 10];
        double[] read = new double[pads.Length];
        double clean = 0;
        double noise = NoisePower(Length, bin, 11, static _ => 0);
        for (int p = 0; p < pads.Length; p++)
        {
            double amplitude = Math.Pow(10, -pads[p] / 20);
            double Out(int n)
            {
                double x = (amplitude * Math.Cos(2 * Math.PI * A * n / Length)) + (amplitude * Math.Cos(2 * Math.PI * B * n / Length));
                return order == 1 ? amplitude * Math.Cos(2 * Math.PI * A * n / Length) : Math.Pow(x, order);
            }

            double[] made = [.. Enumerable.Range(0, Length).Select(Out)];
            clean = p == 0 ? Power(made, bin) : clean;
            // The noise is scaled so that the product stands 20 dB over it without a pad.
            double scale = Math.Sqrt(clean / 100 / noise);
            read[p] = NoisePower(Length, bin, 100 + p, n => made[n] / scale);
        }

        for (int p = 1; p < pads.Length; p++)
        {
            double fall = 10 * Math.Log10(read[0] / read[p]);
            // 3000 looks of two degrees of freedom: 0.08 dB of one sigma for each of the two readings.
            Assert.Equal(FallLaw.Db(20, order * pads[p]), fall, 0.35);
        }
    }

    private static double NoisePower(int length, int bin, int seed, Func<int, double> signal)
    {
        const int Looks = 3000;
        Random random = new(seed);
        double[] x = new double[length];
        double sum = 0;
        for (int look = 0; look < Looks; look++)
        {
            for (int n = 0; n < length; n++)
            {
                x[n] = signal(n) + Gauss(random);
            }

            sum += Power(x, bin);
        }

        return sum / Looks;
    }

    private static double Power(double[] x, int bin)
    {
        double re = 0, im = 0;
        for (int n = 0; n < x.Length; n++)
        {
            (double sin, double cos) = Math.SinCos(2 * Math.PI * bin * n / x.Length);
            re += x[n] * cos;
            im -= x[n] * sin;
        }

        return ((re * re) + (im * im)) / x.Length;
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
