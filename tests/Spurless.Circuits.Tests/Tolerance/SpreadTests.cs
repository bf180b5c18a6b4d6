using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Series;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;

namespace Spurless.Circuits.Tests.Tolerance;

/// <summary>One part's spread against its own distribution, walked share by share.</summary>
public sealed class SpreadTests
{
    private static readonly Gen<PartTolerance?> _tolerances = Gen.Select(Gen.Int[0, 3], Gen.Double[0.001, 0.3], Gen.Int[0, 6]).Select(
        static (kind, fraction, size) => kind switch
        {
            0 => null,
            1 => PartTolerance.Uniform(fraction),
            2 => PartTolerance.Normal(fraction),
            _ => PartTolerance.Series(ESeries.Sizes[size]),
        });

    /// <summary>Mean and standard deviation over 4,000 even shares and 81 even temperatures are those that are told.</summary>
    [Fact]
    public void Sigma_is_the_standard_deviation_of_its_values() =>
        Gen.Select(_tolerances, Gen.Double[1, 1000], Gen.Double[-400, 400], Gen.Double[1, 80]).Sample((tolerance, ohm, ppm, kelvins) =>
        {
            ppm = Math.Abs(ppm) < 5 ? 0 : ppm;
            if (Only(tolerance, ohm, ppm) is not { } spread)
            {
                return;
            }

            double sum = 0, squares = 0;
            int count = 0;
            for (int t = 0; t <= 80; t++)
            {
                double at = kelvins * ((t / 80.0) - 0.5);
                for (int i = 0; i < 4_000; i += 10)
                {
                    double value = spread.At((i + 5) / 4_000.0, at) - ohm;
                    sum += value;
                    squares += value * value;
                    count++;
                }
            }

            double mean = sum / count, sigma = Math.Sqrt((squares / count) - (mean * mean));

            // The walk cuts a Gaussian off at one in 800, and the product of both spreads is left out of the law: a few per cent.
            Assert.Equal(1, spread.Sigma(kelvins) / sigma, 0.04);
        }, iter: 60);

    /// <summary>Greater share, greater value; the middle share of an even or normal tolerance is the nominal value.</summary>
    [Fact]
    public void At_rises_with_the_share() => Gen.Select(_tolerances, Gen.Double[1, 1000], Gen.Double[0.01, 0.98], Gen.Double[0.001, 0.019])
        .Sample((tolerance, ohm, share, more) =>
        {
            if (Only(tolerance, ohm, 0) is not { } spread)
            {
                return;
            }

            Assert.True(spread.At(share + more, 0) >= spread.At(share, 0));
            if (tolerance!.Kind != ToleranceKind.Series)
            {
                Assert.Equal(ohm, spread.At(0.5, 0), 1e-9 * ohm);
                Assert.Equal(2 * ohm, spread.At(share, 0) + spread.At(1 - share, 0), 1e-9 * ohm);
            }
            else
            {
                Assert.Equal(ESeries.Nearest(ohm, tolerance.SeriesSize), ESeries.Nearest(spread.At(share, 0), tolerance.SeriesSize));
            }
        });

    /// <summary>
    /// 'Normal' is two standard deviations to the limit: 2.275 % of the values lie beyond each (table of the normal distribution).
    /// </summary>
    [Fact]
    public void At_of_a_normal_tolerance_reaches_its_limit_at_two_sigma() => Gen.Double[0.001, 0.2].Sample(static fraction =>
    {
        Spread spread = Only(PartTolerance.Normal(fraction), 100, 0)!.Value;
        Assert.Equal(100 * (1 + fraction), spread.At(0.97724987, 0), 1e-5);
        Assert.Equal(100 * (1 - fraction), spread.At(0.02275013, 0), 1e-5);
        Assert.Equal(100 * fraction / 2, spread.Sigma(0), 1e-9);
    });

    /// <summary>A coefficient of p ppm/K moves every value by p millionths for each kelvin, whatever the share.</summary>
    [Fact]
    public void At_another_temperature_is_moved_in_proportion() =>
        Gen.Select(_tolerances, Gen.Double[-400, 400], Gen.Double[-60, 60],
            Gen.Double[0.01, 0.99]).Sample((tolerance, ppm, kelvins, share) =>
        {
            if (Only(tolerance, 330, ppm) is { } spread)
            {
                Assert.Equal(1 + (ppm * 1e-6 * kelvins), spread.At(share, kelvins) / spread.At(share, 0), 1e-12);
            }
        });

    /// <summary>No part has a value of nothing or of the other sign, however wide its Gaussian.</summary>
    [Fact]
    public void At_the_end_of_a_wide_gaussian_keeps_its_sign() => Gen.Double[1e-12, 1e-6].Sample(static share =>
    {
        Spread wide = Only(PartTolerance.Normal(0.9), 100, 0)!.Value;
        Assert.True(wide.At(share, 0) > 0);
        Assert.True(wide.At(1 - share, 0) < 400);
    });

    private static Spread? Only(PartTolerance? tolerance, double ohm, double ppm)
    {
        Circuit circuit = new()
        {
            Name = "r",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                new Resistor
                {
                    Name = "R1",
                    From = "a",
                    To = "b",
                    Resistance = PartValue.Known(ohm),
                    Tolerance = tolerance,
                    PpmPerKelvin = ppm,
                },
            ],
        };
        List<Spread> found = Spread.Of(CircuitSolver.Create(circuit), temperature: ppm != 0);
        Assert.Equal(tolerance is null && ppm == 0 ? 0 : 1, found.Count);
        return found.Count == 0 ? null : found[0];
    }
}
