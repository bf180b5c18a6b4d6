using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;
using Spurless.Numerics;

namespace Spurless.Circuits.Tests.Tolerance;

public sealed class ToleranceAnalysisTests
{
    /// <summary>
    /// docs/checks.md 9: every part uniform within 5 %, untuned, loss at 145.05 MHz 3.16 / 5.10 / 10.4 dB, within 0.3 dB.
    /// </summary>
    [Fact]
    public void TryRun_demo_filter_has_the_percentiles_of_the_demo()
    {
        ToleranceResult r = Run(KnownCircuits.Demo(PartTolerance.Uniform(0.05)), new() { FrequenciesHz = [145.05e6], Samples = 8000 });
        ToleranceBand band = Assert.Single(r.Bands);
        Assert.Equal(-3.16, band.S21Db.P95, 0.3);
        Assert.Equal(-5.10, band.S21Db.P50, 0.3);
        Assert.Equal(-10.4, band.S21Db.P5, 0.3);
        Assert.Equal(-2.92, band.NominalS21Db, 0.01);
        Assert.Equal(10, r.Ranking.Count);
        Assert.Equal(1, r.Ranking.Sum(static s => s.Share), 1e-9);
        Assert.Equal(1, r.Ranking.Sum(static s => s.LinearShare), 1e-9);
        Assert.Empty(r.HeldParts);

        // The middle tank is the sharpest: one of its parts leads.
        Assert.Contains(r.MostWorthTuning, new[] { "L2", "C4" });
    }

    [Fact]
    public void TryRun_result_does_not_depend_on_threads()
    {
        Circuit c = KnownCircuits.Demo(PartTolerance.Normal(0.05));
        ToleranceRequest request = new()
        {
            FrequenciesHz = [140e6, 145.05e6, 160e6],
            Samples = 1234,
            Seed = 77,
            Mask = [new(144.9e6, 145.2e6, MostLossDb: 5)],
        };
        ToleranceResult one = Run(c, request with { Threads = 1 });
        foreach (int threads in new[] { 2, 3, 8 })
        {
            ToleranceResult other = Run(c, request with { Threads = threads });
            Assert.Equal(one.Bands, other.Bands);
            Assert.Equal(one.Ranking, other.Ranking);
            Assert.Equal(one.Yield, other.Yield);
        }

        Assert.NotEqual(one.Bands[1].S21Db, Run(c, request with { Seed = 78 }).Bands[1].S21Db);
    }

    /// <summary>
    /// Small Gaussian tolerances: |S21| in dB is Gaussian with the variance of linear theory, so (P95 - P5) = 2 x 1.644854 sigma, and the
    /// ranking is the linear one. 20,000 samples: a percentile scatters by about 1.5 % of sigma, a share by about 0.02. The derivatives
    /// here are differences.
    /// </summary>
    [Fact]
    public void TryRun_small_tolerances_follow_linear_theory()
    {
        const double f = 142e6;
        Circuit c = KnownCircuits.Demo(PartTolerance.Normal(0.002));
        CircuitSolver solver = CircuitSolver.Create(c);
        double variance = 0;
        Dictionary<string, double> shares = [];
        for (int p = 0; p < solver.Parameters.Count; p++)
        {
            if (!solver.Parameters[p].IsPartValue)
            {
                continue;
            }

            double Loss(double change)
            {
                double[] v = solver.NominalValues();
                v[p] *= 1 + change;
                ScatteringMatrix[] s = new ScatteringMatrix[1];
                Assert.Null(solver.Solve([f], v, solver.CreateWorkspace(), s));
                return s[0].InsertionLossDb;
            }

            double slope = (Loss(1e-5) - Loss(-1e-5)) / 2e-5 * 0.001;
            shares[solver.Parameters[p].Part] = slope * slope;
            variance += slope * slope;
        }

        ToleranceResult r = Run(c, new() { FrequenciesHz = [f], Samples = 20_000 });
        Percentiles band = r.Bands[0].S21Db;
        Assert.Equal(1, (band.P95 - band.P5) / (2 * 1.644854 * Math.Sqrt(variance)), 0.03);
        Assert.Equal(r.Bands[0].NominalS21Db, band.P50, 0.03 * Math.Sqrt(variance) + 0.02);
        foreach (ToleranceShare share in r.Ranking)
        {
            Assert.Equal(shares[share.Part] / variance, share.LinearShare, 1e-5);
            Assert.Equal(share.LinearShare, share.Share, 0.02);
        }
    }

    /// <summary>
    /// One series resistor, uniform within 10 %: the loss is monotone in it, so the percentiles and the yield have a closed form.
    /// </summary>
    [Fact]
    public void TryRun_one_resistor_has_the_closed_form()
    {
        Resistor resistor = new()
        {
            Name = "R1",
            From = "a",
            To = "b",
            Resistance = PartValue.Known(100),
            Tolerance = PartTolerance.Uniform(0.1),
        };
        Circuit c = new() { Name = "r", PortIn = "a", PortOut = "b", Parts = [resistor] };
        static double Loss(double r) => 20 * Math.Log10((100 + r) / 100);
        ToleranceResult r = Run(c, new() { FrequenciesHz = [1e6], Samples = 20_000, Mask = [new(1e6, 1e6, MostLossDb: Loss(105))] });
        Assert.Equal(-Loss(109), r.Bands[0].S21Db.P5, 0.01);
        Assert.Equal(-Loss(100), r.Bands[0].S21Db.P50, 0.01);
        Assert.Equal(-Loss(91), r.Bands[0].S21Db.P95, 0.01);
        Assert.Equal(0.75, r.Yield!.Value, 0.015);
        Assert.InRange(0.75, r.YieldInterval!.Value.Low - 0.005, r.YieldInterval.Value.High + 0.005);
        Assert.Equal("R1", r.MostWorthTuning);
    }

    /// <summary>No tolerance, 1000 ppm/K over 20 to 70 C: from 100 to 105 ohm, evenly.</summary>
    [Fact]
    public void TryRun_temperature_moves_values_by_their_coefficient()
    {
        Circuit c = new()
        {
            Name = "r",
            PortIn = "a",
            PortOut = "b",
            Parts = [new Resistor { Name = "R1", From = "a", To = "b", Resistance = PartValue.Known(100), PpmPerKelvin = 1000 }],
        };
        ToleranceResult r = Run(c, new() { FrequenciesHz = [1e6], Samples = 20_000, LowestC = 20, HighestC = 70 });
        Assert.Equal(-20 * Math.Log10(2.0475), r.Bands[0].S21Db.P5, 0.003);
        Assert.Equal(-20 * Math.Log10(2.0025), r.Bands[0].S21Db.P95, 0.003);
    }

    /// <summary>
    /// docs/checks.md 4.5: in E12 4.7 lies between 3.9 and 5.6. Evenly within the bin: percentiles of a monotone loss in closed form.
    /// </summary>
    [Fact]
    public void TryRun_series_tolerance_spreads_over_the_bin()
    {
        Resistor resistor = new()
        {
            Name = "R1",
            From = "a",
            To = "b",
            Resistance = PartValue.Known(47),
            Tolerance = PartTolerance.Series(12),
        };
        Circuit c = new() { Name = "r", PortIn = "a", PortOut = "b", Parts = [resistor] };
        ToleranceResult r = Run(c, new() { FrequenciesHz = [1e6], Samples = 20_000 });
        double low = Math.Sqrt(39.0 * 47), high = Math.Sqrt(47.0 * 56);
        Assert.Equal(-20 * Math.Log10((100 + low + (0.95 * (high - low))) / 100), r.Bands[0].S21Db.P5, 0.01);
        Assert.Equal(-20 * Math.Log10((100 + low + (0.05 * (high - low))) / 100), r.Bands[0].S21Db.P95, 0.01);
    }

    [Fact]
    public void CounterRandom_normal_equals_a_general_library()
    {
        foreach (double p in new[] { 1e-12, 1e-6, 0.001, 0.02425, 0.1, 0.3, 0.5, 0.7, 0.975, 0.999999 })
        {
            Assert.Equal(Normal.InvCDF(0, 1, p), NormalDistribution.Quantile(p), 1e-8 * (1 + Math.Abs(NormalDistribution.Quantile(p))));
        }
    }

    /// <summary>
    /// Moments and independence of the deviates by a general library; each bound is about five standard errors of 100,000 samples.
    /// </summary>
    [Fact]
    public void CounterRandom_deviates_have_their_moments()
    {
        CounterRandom random = new(42, 5);
        double[][] u = [.. Enumerable.Range(0, 5).Select(d => Enumerable.Range(0, 100_000).Select(s => random.Uniform(s, d)).ToArray())];
        for (int d = 0; d < 5; d++)
        {
            Assert.Equal(0.5, u[d].Mean(), 0.0046);
            Assert.Equal(1 / 12.0, u[d].Variance(), 0.0012);
            Assert.True(Math.Abs(Correlation.Pearson(u[d], u[(d + 1) % 5])) < 0.016);
            Assert.True(Math.Abs(Correlation.Pearson(u[d].Skip(1), u[d].SkipLast(1))) < 0.016);
            double[] z = [.. u[d].Select(NormalDistribution.Quantile)];
            Assert.Equal(0, z.Mean(), 0.016);
            Assert.Equal(1, z.Variance(), 0.023);
            Assert.Equal(0, z.Kurtosis(), 0.08);
        }
    }

    [Fact]
    public void TryRun_cancelled_stops()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => ToleranceAnalysis.TryRun(
            CircuitSolver.Create(KnownCircuits.Demo(PartTolerance.Uniform(0.05))),
            new() { FrequenciesHz = [145e6] },
            out _,
            null,
            stop.Token));
    }

    private static ToleranceResult Run(Circuit c, ToleranceRequest request)
    {
        ToleranceResult? result = ToleranceAnalysis.TryRun(CircuitSolver.Create(c), request, out CircuitFault? fault);
        Assert.Null(fault);
        return result!;
    }
}
