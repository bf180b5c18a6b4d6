using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Tolerance;

/// <summary>
/// Spread when it is built, against closed forms and against every corner. 20,000 specimens: a percentile's place in the distribution
/// scatters by sqrt(p (1 - p) / n), 0.35 % at the median; five of these are allowed.
/// </summary>
public sealed class ToleranceCornersTests
{
    private const int Samples = 20_000;

    /// <summary>
    /// One uniform resistor: the loss rises with it, so each percentile of the loss is the loss at that percentile of the resistance.
    /// </summary>
    [Theory]
    [InlineData(100, 0.05)]
    [InlineData(10, 0.2)]
    [InlineData(470, 0.5)]
    public void TryRun_one_resistor_has_the_percentiles_of_its_value(double ohm, double fraction)
    {
        ToleranceResult r = Run(Series(ohm, PartTolerance.Uniform(fraction)));
        Percentiles s21 = r.Bands[0].S21Db;
        double Loss(double share) => -20 * Math.Log10((ohm * (1 - fraction + (2 * fraction * share)) + 100) / 100);
        Assert.InRange(s21.P5, Loss(0.95 + 0.008), Loss(0.95 - 0.008));
        Assert.InRange(s21.P50, Loss(0.5 + 0.018), Loss(0.5 - 0.018));
        Assert.InRange(s21.P95, Loss(0.05 + 0.008), Loss(0.05 - 0.008));
        Assert.Equal(Loss(0.5), r.Bands[0].NominalS21Db, 1e-9);
    }

    /// <summary>A Gaussian one: two sigma are the fraction, so 5 % lie 1.6449 sigma (0.8224 of the fraction) under.</summary>
    [Theory]
    [InlineData(100, 0.05)]
    [InlineData(47, 0.1)]
    public void TryRun_a_normal_resistor_has_the_percentiles_of_a_gaussian(double ohm, double fraction)
    {
        ToleranceResult r = Run(Series(ohm, PartTolerance.Normal(fraction)));
        double Loss(double sigmas) => -20 * Math.Log10((ohm * (1 + (fraction / 2 * sigmas)) + 100) / 100);
        Assert.InRange(r.Bands[0].S21Db.P5, Loss(1.6449 + 0.075), Loss(1.6449 - 0.075));
        Assert.InRange(r.Bands[0].S21Db.P95, Loss(-1.6449 + 0.075), Loss(-1.6449 - 0.075));
    }

    /// <summary>A yield by area: two uniform resistors in series pass where their sum keeps under a line, which cuts a triangle off a
    /// square.</summary>
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.5)]
    [InlineData(-0.5)]
    [InlineData(0.9)]
    public void TryRun_yield_of_two_is_the_area_under_the_line(double line)
    {
        // R1 + R2 = 100 (1 + 0.1 (u + v) / 2), u and v even from -1 to 1; they pass where u + v is at most 2 line.
        double area = line >= 0 ? 1 - (Math.Pow(2 - (2 * line), 2) / 8) : Math.Pow(2 + (2 * line), 2) / 8;
        double most = 20 * Math.Log10((100 * (1 + (0.1 * line)) + 100) / 100);
        Circuit two = Series(50, PartTolerance.Uniform(0.1)) with
        {
            PortOut = "c",
            Parts = [Ohms("R1", 50, "a", "b", PartTolerance.Uniform(0.1)), Ohms("R2", 50, "b", "c", PartTolerance.Uniform(0.1))],
        };
        ToleranceResult r = Run(two, new MaskLine(145e6, 145e6, MostLossDb: most));
        Assert.Equal(area, r.Yield!.Value, 5 * Math.Sqrt(area * (1 - area) / Samples));
        Assert.InRange(area, r.YieldInterval!.Value.Low - 0.01, r.YieldInterval.Value.High + 0.01);

        // Both parts do the same, so each has half.
        Assert.Equal([0.5, 0.5], r.Ranking.Select(static s => Math.Round(s.Share, 1)));
    }

    /// <summary>
    /// Every corner of a pi pad's box: the loss is monotone in each resistor, so no specimen can lie outside the extreme corners, and with
    /// as few as three parts the percentiles stay strictly inside.
    /// </summary>
    [Theory]
    [InlineData(292.4, 17.61)]
    [InlineData(96.2, 71.2)]
    [InlineData(61.1, 247.5)]
    public void TryRun_percentiles_lie_within_the_corners(double shunt, double series)
    {
        const double t = 0.1;
        Circuit Pad(double a, double b, double c, PartTolerance? tolerance) => new()
        {
            Name = "pad",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                Ohms("R1", a, "a", Circuit.Ground, tolerance), Ohms("R2", b, "a", "b", tolerance),
                Ohms("R3", c, "b", Circuit.Ground, tolerance),
            ],
        };
        List<double> corners = [];
        for (int corner = 0; corner < 8; corner++)
        {
            double Side(int bit) => 1 + ((corner >> bit & 1) == 0 ? -t : t);
            ScatteringMatrix s = CircuitSolver.Create(Pad(shunt * Side(0), series * Side(1), shunt * Side(2), null)).Solve([145e6])[0];
            corners.Add(-s.InsertionLossDb);
        }

        ToleranceResult r = Run(Pad(shunt, series, shunt, PartTolerance.Uniform(t)));
        Percentiles band = r.Bands[0].S21Db;
        Assert.True(corners.Min() < band.P5 && band.P95 < corners.Max(), $"{band} outside {corners.Min()} to {corners.Max()}");
        Assert.True(band.P5 < band.P50 && band.P50 < band.P95);

        // A mask that the worst corner keeps has a yield of one, one that the best corner misses of none.
        Circuit loose = Pad(shunt, series, shunt, PartTolerance.Uniform(t));
        Assert.Equal(1, Run(loose, new(145e6, 145e6, MostLossDb: -corners.Min() + 1e-9)).Yield);
        Assert.Equal(0, Run(loose, new(145e6, 145e6, MostLossDb: -corners.Max() - 1e-9)).Yield);
    }

    /// <summary>No tolerance is no spread, whatever the seed; and parts held are named.</summary>
    [Fact]
    public void TryRun_without_a_tolerance_nothing_spreads()
    {
        ToleranceResult r = Run(Series(100, null));
        Assert.Equal(r.Bands[0].S21Db.P5, r.Bands[0].S21Db.P95, 1e-5);
        Assert.Equal(r.Bands[0].NominalS21Db, r.Bands[0].S21Db.P50, 1e-5);
        Assert.Equal(["R1"], r.HeldParts);
        Assert.Null(r.MostWorthTuning);
    }

    /// <summary>
    /// Temperature alone: an even spread of 60 K on a coefficient of 500 ppm/K moves the value by 3 % either side of what it has at 20
    /// degrees when the range is -10 to 50.
    /// </summary>
    [Fact]
    public void TryRun_temperature_alone_spreads_by_the_coefficient()
    {
        Circuit warm = Series(100, null) with
        {
            Parts = [Ohms("R1", 100, "a", "b", null) with { PpmPerKelvin = 1000 }],
        };
        ToleranceResult r = Run(warm, null, -10, 50);
        double Loss(double share) => -20 * Math.Log10((100 * (0.97 + (0.06 * share)) + 100) / 100);
        Assert.InRange(r.Bands[0].S21Db.P5, Loss(0.958), Loss(0.942));
        Assert.InRange(r.Bands[0].S21Db.P95, Loss(0.058), Loss(0.042));
    }

    /// <summary>A tighter tolerance is a narrower band and no smaller a yield, at the same seed.</summary>
    [Fact]
    public void TryRun_tighter_parts_spread_less_and_pass_more()
    {
        double last = 0;
        double yield = 1;
        foreach (double fraction in (double[])[0.01, 0.02, 0.05, 0.1, 0.2])
        {
            ToleranceResult r = Run(Series(100, PartTolerance.Uniform(fraction)), new MaskLine(145e6, 145e6, MostLossDb: 6.2));
            double width = r.Bands[0].S21Db.P95 - r.Bands[0].S21Db.P5;
            Assert.True(width > last, $"{fraction}: {width} is not over {last}");
            Assert.True(r.Yield <= yield, $"{fraction}: {r.Yield} is over {yield}");
            (last, yield) = (width, r.Yield!.Value);
        }

        Assert.True(yield < 0.9);
    }

    private static Resistor Ohms(string name, double ohm, string from, string to, PartTolerance? tolerance) =>
        new() { Name = name, From = from, To = to, Resistance = PartValue.Known(ohm), Tolerance = tolerance };

    private static Circuit Series(double ohm, PartTolerance? tolerance) =>
        new() { Name = "series", PortIn = "a", PortOut = "b", Parts = [Ohms("R1", ohm, "a", "b", tolerance)] };

    private static ToleranceResult Run(Circuit circuit, MaskLine? mask = null, double lowest = 20, double highest = 20)
    {
        ToleranceRequest request = new()
        {
            FrequenciesHz = [145e6],
            Samples = Samples,
            Seed = 5,
            Mask = mask is null ? [] : [mask],
            LowestC = lowest,
            HighestC = highest,
        };
        ToleranceResult? result = ToleranceAnalysis.TryRun(CircuitSolver.Create(circuit), request, out CircuitFault? fault);
        Assert.Null(fault);
        return result!;
    }
}
