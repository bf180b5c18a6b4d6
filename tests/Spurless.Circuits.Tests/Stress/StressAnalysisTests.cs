using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tests.Solving;

namespace Spurless.Circuits.Tests.Stress;

public sealed class StressAnalysisTests
{
    /// <summary>docs/checks.md 9: 50 W at 145.65 MHz through the demo filter, computed outside the program.</summary>
    [Fact]
    public void TryRun_demo_filter_has_the_figures_of_the_demo()
    {
        StressResult r = Run(KnownCircuits.Demo(), new(50, 145.65e6, StressLoad.Matched));
        Assert.Equal(24.3, r.DissipatedW, 0.05);
        Assert.Equal(25.37, r.DeliveredW, 0.005);
        Assert.Equal(0.38, r.ReflectedW, 0.005);
        PartStress l2 = r.Parts.Single(static p => p.Part == "L2");
        Assert.Equal(7.5, l2.DissipationW, 0.05);
        Assert.Equal(6.8, l2.RmsCurrentA, 0.05);
        Assert.Equal(6.2, r.Parts.Single(static p => p.Part == "L1").DissipationW, 0.05);
        Assert.Equal(312, r.Parts.Single(static p => p.Part == "C3").PeakVoltageV, 0.5);
        Assert.False(r.MayTransmit);
        Assert.True(r.GivesFirst is { Exceeded: true });
        Assert.Equal(r.Parts.Min(static p => p.LimitPowerW), r.SafePowerW);
    }

    /// <summary>
    /// 50 ohm in series between 50 ohm, 9 W: E = 2 sqrt(2 x 9 x 50) = 60 V peak, I = 60/150 = 0.4 A peak, 20 V peak, 4 W in each of the
    /// three; back comes S11^2 = 1/9 of 9 W, which is 1 W (hand calculation).
    /// </summary>
    [Fact]
    public void TryRun_series_resistor_by_hand()
    {
        Circuit c = new()
        {
            Name = "r",
            PortIn = "a",
            PortOut = "b",
            Parts = [new Resistor { Name = "R1", From = "a", To = "b", Resistance = PartValue.Known(50), Rated = new(PowerW: 2) }],
        };
        StressResult r = Run(c, new(9, 1e6, StressLoad.Matched));
        PartStress p = Assert.Single(r.Parts);
        Assert.Equal(20, p.PeakVoltageV, 1e-9);
        Assert.Equal(0.4 / Math.Sqrt(2), p.RmsCurrentA, 1e-9);
        Assert.Equal(4, p.DissipationW, 1e-9);
        Assert.Equal(4, r.DeliveredW, 1e-9);
        Assert.Equal(1, r.ReflectedW, 1e-9);
        Assert.True(p.Exceeded);
        Assert.Equal(4.5, r.SafePowerW!.Value, 1e-9);
        Assert.Equal((new StressLimit(StressQuantity.Heat, 2), false), (p.Limit, p.LimitAssumed));
    }

    [Fact]
    public void TryRun_random_network_and_load_keeps_the_balance_of_power() => Gen.Select(
        RandomCircuits.Of(new(Lossy: true, Lines: true, Couplings: true, Transformers: true)),
        RandomCircuits.Frequency,
        Gen.Double[0, 300],
        Gen.Double[-200, 200]).Sample((c, f, re, im) =>
    {
        StressResult r = Run(c, new(25, f, StressLoad.Impedance(new(re, im))));
        Assert.True(Math.Abs(r.BalanceError) < 1e-9, $"error {r.BalanceError}");
        Assert.Equal(r.DissipatedW, r.Parts.Sum(static p => p.DissipationW), 1e-9);
        Assert.True(r.Parts.All(static p => p.DissipationW > -1e-9));
    }, iter: 200);

    /// <summary>
    /// With two-port blocks anywhere, one-way ones and such that amplify: a block's heat is what it takes in less what it gives, and the
    /// powers still add up.
    /// </summary>
    [Fact]
    public void TryRun_random_network_with_blocks_keeps_the_balance_of_power() => Gen.Select(
        RandomCircuits.Of(new(Lossy: true, Lines: true, Couplings: true, Blocks: true)),
        RandomCircuits.Frequency,
        Gen.Double[0, 300],
        Gen.Double[-200, 200]).Sample((c, f, re, im) =>
    {
        StressResult r = Run(c, new(25, f, StressLoad.Impedance(new(re, im))));
        double size = Math.Max(1, (Math.Abs(r.DeliveredW) + Math.Abs(r.ReflectedW) + Math.Abs(r.DissipatedW)) / r.AvailableW);
        Assert.True(Math.Abs(r.BalanceError) < 1e-9 * size, $"error {r.BalanceError} of {size}");
    }, iter: 200);

    [Fact]
    public void TryRun_without_any_limit_says_that_it_cannot_be_told()
    {
        Line line = new()
        {
            Name = "W1",
            From = "a",
            To = "b",
            ImpedanceOhm = 50,
            Length = PartValue.Known(1),
            Loss = LineLoss.At(0.1, 100e6),
        };
        Circuit c = new() { Name = "w", PortIn = "a", PortOut = "b", Parts = [line] };
        StressResult r = Run(c, new(50, 100e6, StressLoad.Matched));
        Assert.Null(r.GivesFirst);
        Assert.Null(r.SafePowerW);
        Assert.Contains(r.Assumptions, static a => a.Kind == StressAssumptionKind.NotJudged && a.Parts.SequenceEqual(["W1"]));

        // 0.1 dB of a matched line: 50 W (1 - 10^-0.01) stay in it.
        Assert.Equal(50 * (1 - Math.Pow(10, -0.01)), r.DissipatedW, 1e-9);
    }

    [Fact]
    public void TryRun_assumptions_name_what_was_taken_for_want_of_a_figure()
    {
        Circuit c = new()
        {
            Name = "t",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                new Capacitor { Name = "C1", From = "a", To = "b", Capacitance = PartValue.Known(10e-12) },
                new Inductor
                {
                    Name = "L1",
                    From = "b",
                    To = Circuit.Ground,
                    Inductance = PartValue.Known(1e-7),
                    Loss = PartLoss.QualityFactor(100, 1e8),
                    Rated = new(CurrentA: 3),
                },
            ],
        };
        StressResult r = Run(c, new(1, 100e6, StressLoad.Matched));
        Assert.Equal([StressAssumptionKind.SmallCapacitors, StressAssumptionKind.Lossless], r.Assumptions.Select(static a => a.Kind));
        Assert.All(r.Assumptions, static a => Assert.Equal(["C1"], a.Parts));
        PartStress l1 = r.Parts.Single(static p => p.Part == "L1");
        Assert.Equal((new StressLimit(StressQuantity.Current, 3), false), (l1.Limit, l1.LimitAssumed));
        Assert.True(r.Parts.Single(static p => p.Part == "C1").LimitAssumed);
    }

    /// <summary>The worst phase is at least as bad as any, and as bad as some: against a plain scan over loads.</summary>
    [Fact]
    public void TryRun_standing_wave_takes_the_worst_phase_of_each_part()
    {
        Circuit c = KnownCircuits.Demo();
        StressResult worst = Run(c, new(5, 145.65e6, StressLoad.Swr(3)));
        Assert.True(worst.WorstPhasePartByPart);
        Assert.True(Math.Abs(worst.BalanceError) < 1e-9);
        double[] most = new double[c.Parts.Count];
        for (int k = 0; k < 360; k++)
        {
            Complex g = Complex.FromPolarCoordinates(0.5, k * Math.PI / 180);
            StressResult one = Run(c, new(5, 145.65e6, StressLoad.Impedance(50 * (1 + g) / (1 - g))));
            for (int i = 0; i < most.Length; i++)
            {
                most[i] = Math.Max(most[i], one.Parts[i].PeakVoltageV);
                Assert.True(one.Parts[i].PeakVoltageV <= worst.Parts[i].PeakVoltageV * (1 + 1e-9));
                Assert.True(one.Parts[i].DissipationW <= worst.Parts[i].DissipationW * (1 + 1e-9));
            }
        }

        for (int i = 0; i < most.Length; i++)
        {
            Assert.Equal(1, most[i] / worst.Parts[i].PeakVoltageV, 1e-3);
        }
    }

    /// <summary>
    /// Open quarter-wave stub shunting a matched line: nothing at the near end, sqrt(2 P Z0) x Zstub/Z0 x 2 at the open end (current 2 a/Z0
    /// through the short, times Z).
    /// </summary>
    [Fact]
    public void TryRun_stub_shows_the_voltage_of_its_open_end()
    {
        double quarter = 299792458 / 100e6 / 4;
        Circuit c = new()
        {
            Name = "s",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                new Resistor { Name = "R1", From = "a", To = "b", Resistance = PartValue.Known(1e-6) },
                new Stub
                {
                    Name = "W1",
                    From = "a",
                    To = Circuit.Ground,
                    ImpedanceOhm = 50,
                    Length = PartValue.Known(quarter),
                    End = StubEnd.Open,
                },
            ],
        };
        PartStress stub = Run(c, new(100, 100e6, StressLoad.Matched)).Parts[1];

        // Looked at 64 steps along, the last one short of the end:
        // it is off by at most (pi / 2 / 64)^2 / 2.
        Assert.Equal(1, stub.PeakVoltageV / (2 * Math.Sqrt(2 * 100 * 50)), 4e-4);
    }

    /// <summary>
    /// The same filter in the time domain: source voltages, inductor currents and capacitor voltages as states, trapezoidal rule, 30 W at
    /// 145.65 MHz until steady. Losses as series resistances of that frequency. Independent of the frequency-domain solver; step error
    /// about (w h)^2 / 12, 1e-4 at 200 steps a period.
    /// </summary>
    [Fact]
    public void TryRun_equals_a_transient_simulation()
    {
        const double f = 145.65e6, power = 30;
        Circuit c = KnownCircuits.Demo();
        StressResult r = Run(c, new(power, f, StressLoad.Matched));
        Transient.Peak[] peaks = Transient.Run(c, f, power, periods: 600, steps: 200);
        for (int i = 0; i < c.Parts.Count; i++)
        {
            Assert.Equal(1, peaks[i].Voltage / r.Parts[i].PeakVoltageV, 2e-3);
            Assert.Equal(1, peaks[i].RmsCurrent / r.Parts[i].RmsCurrentA, 2e-3);
            Assert.Equal(r.Parts[i].DissipationW, peaks[i].Heat, 0.004 * r.DissipatedW / 10);
        }
    }

    private static StressResult Run(Circuit c, StressRequest request)
    {
        StressResult? result = StressAnalysis.TryRun(CircuitSolver.Create(c), request, out CircuitFault? fault);
        Assert.Null(fault);
        return result!;
    }
}
