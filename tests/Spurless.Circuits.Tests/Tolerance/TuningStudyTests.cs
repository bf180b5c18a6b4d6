using MathNet.Numerics.Statistics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Solving;
using Spurless.Circuits.Tolerance;

namespace Spurless.Circuits.Tests.Tolerance;

public sealed class TuningStudyTests
{
    /// <summary>
    /// One tank in shunt whose capacitor and coil are off by chance: either of them tunes it to no loss at all, the fixed resistor not at
    /// all (by hand).
    /// </summary>
    [Fact]
    public void TryRun_of_one_tank_either_part_makes_it_good()
    {
        const double f = 100e6, l = 5e-9;
        double c = 1 / Math.Pow(2 * Math.PI * f, 2) / l;
        Circuit circuit = new()
        {
            Name = "tank",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                new Resistor
                {
                    Name = "R1",
                    From = "a",
                    To = "b",
                    Resistance = PartValue.Known(5),
                    Tolerance = PartTolerance.Uniform(0.01),
                },
                new Capacitor
                {
                    Name = "C1",
                    From = "b",
                    To = Circuit.Ground,
                    Capacitance = PartValue.Known(c),
                    Tolerance = PartTolerance.Uniform(0.08),
                },
                new Inductor
                {
                    Name = "L1",
                    From = "b",
                    To = Circuit.Ground,
                    Inductance = PartValue.Known(l),
                    Tolerance = PartTolerance.Uniform(0.08),
                    Loss = PartLoss.QualityFactor(1e6, f),
                },
            ],
        };
        (CircuitSolver solver, ToleranceResult result) = Run(circuit, new() { FrequenciesHz = [f], Samples = 500 });
        TuningFinding found = TuningStudy.TryRun(solver, result)!;
        double resistorOnly = 20 * Math.Log10(1.05);
        TuningGain Of(string part) => found.Gains.Single(g => g.Part == part);
        Assert.Equal(resistorOnly, Of("C1").LossDb.P50, 0.005);
        Assert.Equal(resistorOnly, Of("L1").LossDb.P50, 0.005);

        // The resistor's own reach, a fifth either way, is 1 ohm of 105: below 0.1 dB.
        Assert.InRange(Of("R1").LossDb.P50, found.Untuned.P50 - 0.1, found.Untuned.P50);
        Assert.Equal(200, found.Specimens);
        Assert.Contains(found.Best!.Part, new[] { "C1", "L1" });
    }

    [Fact]
    public void TryRun_of_the_demo_filter_a_trimmer_in_the_middle_tank_helps_most()
    {
        (CircuitSolver solver, ToleranceResult result) = Run(
            KnownCircuits.Demo(PartTolerance.Uniform(0.05)), new() { FrequenciesHz = [145.05e6], Samples = 2000 });
        TuningFinding found = TuningStudy.TryRun(solver, result)!;
        Assert.Contains(found.Best!.Part, new[] { "L2", "C4" });
        Assert.Equal(-result.Bands[0].S21Db.P50, found.Untuned.P50, 0.6);
        Assert.All(found.Gains, g => Assert.True(g.LossDb.P50 <= found.Untuned.P50 && g.LossDb.P95 <= found.Untuned.P95 + 1e-6));
    }

    [Fact]
    public void TryRun_result_does_not_depend_on_threads()
    {
        Circuit c = KnownCircuits.Demo(PartTolerance.Normal(0.05));
        ToleranceRequest request = new() { FrequenciesHz = [145.05e6], Samples = 300, Mask = [new(144.9e6, 145.2e6, MostLossDb: 4)] };
        (CircuitSolver solver, ToleranceResult one) = Run(c, request with { Threads = 1 });
        (_, ToleranceResult many) = Run(c, request with { Threads = 7 });
        TuningFinding a = TuningStudy.TryRun(solver, one)!, b = TuningStudy.TryRun(solver, many)!;
        Assert.Equal(a.Untuned, b.Untuned);
        Assert.Equal(a.Gains, b.Gains);
    }

    [Fact]
    public void TryRun_without_tolerance_tries_nothing()
    {
        (CircuitSolver solver, ToleranceResult result) = Run(KnownCircuits.Demo(), new() { FrequenciesHz = [145.05e6], Samples = 20 });
        Assert.Null(TuningStudy.TryRun(solver, result));
        Assert.Null(result.MostWorthTuning);
    }

    [Fact]
    public void Apply_gives_a_tolerance_to_parts_that_state_none_and_to_no_other()
    {
        Circuit c = KnownCircuits.Demo();
        Circuit mixed = c with
        {
            Parts =
            [
                c.Parts[0] with { Tolerance = PartTolerance.Normal(0.01) },
                .. c.Parts.Skip(1),
                new Transformer
                {
                    Name = "X1",
                    FirstFrom = "d",
                    FirstTo = Circuit.Ground,
                    SecondFrom = "x",
                    SecondTo = Circuit.Ground,
                    FirstTurns = 1,
                    SecondTurns = 1,
                },
            ],
        };
        Circuit applied = ToleranceDefault.Apply(mixed, PartTolerance.Uniform(0.05));
        Assert.Equal(PartTolerance.Normal(0.01), applied.Parts[0].Tolerance);
        Assert.All(applied.Parts.Skip(1).SkipLast(1), static p => Assert.Equal(PartTolerance.Uniform(0.05), p.Tolerance));
        Assert.Null(applied.Parts[^1].Tolerance);
    }

    /// <summary>
    /// One resistor, normal 4 %: sigma 2 ohm of 100. By first and second order the mean of the loss moves by f''/2 sigma^2, its spread is
    /// f' sigma: f = 20 lg((100 + R)/100), f' = 8.686/200 = 0.04343 dB/ohm, f'' = -8.686/200^2 (by hand). Moments of the band's samples
    /// through its percentiles: (P95 - P5)/3.2897 is sigma for a Gaussian.
    /// </summary>
    [Fact]
    public void TryRun_moments_are_those_of_linear_theory_by_hand()
    {
        Resistor resistor = new()
        {
            Name = "R1",
            From = "a",
            To = "b",
            Resistance = PartValue.Known(100),
            Tolerance = PartTolerance.Normal(0.04),
        };
        Circuit c = new() { Name = "r", PortIn = "a", PortOut = "b", Parts = [resistor] };
        double[] medians =
        [
            .. Enumerable.Range(1, 8)
                .Select(seed => Run(c, new() { FrequenciesHz = [1e6], Samples = 20_000, Seed = (ulong)seed }).Result.Bands[0].S21Db)
                .Select(static p => (p.P95 - p.P5) / 3.2897),
        ];

        // A percentile's own error at 5 % of 20,000 is 1.5 % of sigma; the difference of two, averaged over eight seeds, 0.5 %.
        Assert.Equal(1, medians.Mean() / (20 / Math.Log(10) / 200 * 2), 0.015);
    }

    private static (CircuitSolver Solver, ToleranceResult Result) Run(Circuit c, ToleranceRequest request)
    {
        CircuitSolver solver = CircuitSolver.Create(c);
        ToleranceResult? result = ToleranceAnalysis.TryRun(solver, request, out CircuitFault? fault);
        Assert.Null(fault);
        return (solver, result!);
    }
}
