using Spurless.Circuits.Relays;

namespace Spurless.Circuits.Tests.Relays;

/// <summary>The relay in time: against each cycle simulated, closed forms, and the steady state.</summary>
public sealed class RelayTransientTests
{
    private static readonly DetectorTable _table = DetectorTable.Of(RelayParts.Detector, 75);

    [Fact]
    public void Run_short_smoothing_follows_each_cycle_simulated_within_2_percent()
    {
        // 0.5 nF: the smoothing voltage comes up in a few hundred cycles.
        RelayCircuit c = RelayParts.Circuit with { SmoothingF = 0.5e-9 };
        foreach (double peak in (double[])[6, 40])
        {
            double[] cycles = EachCycle.Smoothing(c, peak, 5);
            for (int us = 1; us <= 5; us += 2)
            {
                RelayRun run = RelayTransient.Run(
                    c, _table, peak, Keying.Carrier(us * 1e-6), moments: true, cancellation: TestContext.Current.CancellationToken);
                Assert.Equal(cycles[us - 1], run.Moments[^1].SmoothingV, 0.02 * cycles[us - 1]);
            }
        }
    }

    [Fact]
    public void Run_fast_driver_comes_over_as_the_coil_charges()
    {
        // Closed form of L di/dt + R i = u: t = L/R ln(I/(I - I_op)), then the travel. The smoothing is charged in a microsecond.
        RelayCircuit c = RelayParts.Circuit with { SmoothingF = 20e-12 };
        double full = 11.8 / 320, operates = 8.4 / 320;
        double expected = (0.4 / 320 * Math.Log(full / (full - operates))) + 3e-3;
        RelayRun run = RelayTransient.Run(c, _table, 70, Keying.Carrier(20e-3), true, TestContext.Current.CancellationToken);
        Assert.Equal(expected, run.FirstOverS!.Value, 1e-3 * expected);
        Assert.Equal(full * (1 - Math.Exp(-20e-3 * 320 / 0.4)), run.Moments[^1].CoilA, 1e-6);
        Assert.Equal(run.FirstOverS.Value, run.IntoFilterS, 1e-9);
    }

    [Fact]
    public void Run_carrier_ends_goes_back_as_the_coil_empties()
    {
        // u = -clamp: i = (I + c/R) exp(-t R/L) - c/R, so t = L/R ln((I + c/R)/(I_rel + c/R)), then the travel back. The capacitor is
        // small, so the driver lets go within some microseconds.
        RelayCircuit c = RelayParts.Circuit with { SmoothingF = 20e-12 };
        double full = 11.8 / 320, releases = 1.2 / 320, clamp = 0.7 / 320;
        double expected = (0.4 / 320 * Math.Log((full + clamp) / (releases + clamp))) + 2e-3;
        RelayRun run = RelayTransient.Run(c, _table, 70, Keying.Carrier(40e-3, 40e-3), true, TestContext.Current.CancellationToken);
        Assert.Equal(2, run.Changes.Count);
        Assert.Equal(40e-3 + expected, run.Changes[1].AtS, 0.005 * expected);
        Assert.Equal(0, run.Moments[^1].CoilA, 1e-4);
    }

    [Theory]
    [InlineData(Rectifier.Doubler, 100e3)]
    [InlineData(Rectifier.Single, 100e3)]
    [InlineData(Rectifier.Doubler, 5e3)]
    public void OperatesAt_equals_the_transient_bisected_within_1_percent(Rectifier rectifier, double bleed)
    {
        RelayCircuit c = RelayParts.Circuit with { Detector = RelayParts.Detector with { Rectifier = rectifier }, BleedOhm = bleed };
        double steady = RelaySteady.OperatesAtV(c)!.Value;
        DetectorTable table = DetectorTable.Of(c.Detector, 2 * steady, TestContext.Current.CancellationToken);
        double low = steady / 2, high = 2 * steady;
        while (high - low > 1e-4 * high)
        {
            double middle = (low + high) / 2;
            bool over = RelayTransient.Run(
                c, table, middle, Keying.Carrier(0.2), cancellation: TestContext.Current.CancellationToken).FirstOverS is not null;
            (low, high) = over ? (low, middle) : (middle, high);
        }

        Assert.Equal(RelaySteady.Watts(steady, 50), RelaySteady.Watts(high, 50), 0.01 * RelaySteady.Watts(steady, 50));
    }

    [Fact]
    public void ReleasesBelow_lies_under_the_operating_power_and_holds_in_time()
    {
        RelayCircuit c = RelayParts.Circuit;
        double operates = RelaySteady.OperatesAtV(c)!.Value, releases = RelaySteady.ReleasesBelowV(c)!.Value;
        Assert.True(releases < operates);

        // Up with full power, then down to just over and just under: it holds, and lets go.
        foreach ((double part, int back) in ((double, int)[])[(1.01, 0), (0.99, 1)])
        {
            RelayRun run = RelayTransient.Run(
                c, _table, 20, new Step(0.05, part * releases / 20, 0.5), cancellation: TestContext.Current.CancellationToken);
            Assert.Equal(back, run.WentBack);
        }
    }

    [Fact]
    public void OperatesAt_coil_wants_more_than_the_supply_is_none()
    {
        Assert.Null(RelaySteady.OperatesAtV(RelayParts.Circuit with { SupplyV = 8 }));
        Assert.Null(RelaySteady.ReleasesBelowV(RelayParts.Circuit with { SupplyV = 8 }));
    }

    [Fact]
    public void CoilA_energy_of_a_run_balances()
    {
        // What the supply gives is heat in the coil and energy in its field: 1/2 L i^2, over a run that charges.
        RelayCircuit c = RelayParts.Circuit with { SmoothingF = 20e-12 };
        RelayRun run = RelayTransient.Run(
            c, _table, 70, Keying.Carrier(4e-3), moments: true, cancellation: TestContext.Current.CancellationToken);
        double given = 0, heat = 0;
        for (int i = 1; i < run.Moments.Count; i++)
        {
            RelayMoment a = run.Moments[i - 1], b = run.Moments[i];
            double h = b.AtS - a.AtS;
            given += 11.8 * h * (a.CoilA + b.CoilA) / 2;
            heat += 320 * h * ((a.CoilA * a.CoilA) + (a.CoilA * b.CoilA) + (b.CoilA * b.CoilA)) / 3;
        }

        double field = 0.2 * run.Moments[^1].CoilA * run.Moments[^1].CoilA;
        Assert.Equal(given, heat + field, 0.005 * given);
    }

    [Fact]
    public void Run_two_tones_far_apart_chatter_and_a_longer_smoothing_stops_it()
    {
        // Tones 100 Hz apart: nulls 10 ms apart, and the fast relay of 1 ms lets go in each; 100 times as much smoothing bridges them.
        RelayCircuit quick = RelayParts.Circuit with
        {
            Coil = RelayParts.Coil with { TravelS = 2e-4, ReleaseTravelS = 2e-4, InductanceH = 0.02 },
        };
        double peak = 1.5 * RelaySteady.OperatesAtV(quick)!.Value;
        Keying tones = Keying.TwoTones(100, 1);
        RelayRun chatters = RelayTransient.Run(quick, _table, peak, tones, cancellation: TestContext.Current.CancellationToken);
        Assert.InRange(chatters.WentBack, 95, 101);
        Assert.InRange(chatters.LongestUnderS, 1e-4, 10e-3);
        RelayRun holds = RelayTransient.Run(
            quick with { SmoothingF = 3e-6 }, _table, peak, tones, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(0, holds.WentBack);
        Assert.NotNull(holds.FirstOverS);
    }

    [Fact]
    public void Morse_word_has_50_dots_and_its_lengths()
    {
        // PARIS with the space after it is 50 dots (common practice); 20 words a minute make a dot of 60 ms.
        Keying two = Keying.Morse(20, 2);
        Assert.Equal((2 * 50 * 0.06) - (7 * 0.06), two.BreaksS[^1], 1e-9);
        Assert.Equal((2 * 14 * 2) - 1, two.BreaksS.Length); // 14 marks a word, a space after each but the last
    }

    // One amplitude, then another.
    private sealed class Step(double at, double then, double end) : Keying
    {
        public override System.Collections.Immutable.ImmutableArray<double> BreaksS { get; } = [at, end];

        public override double FollowS => double.PositiveInfinity;

        public override (double Amplitude, double Slope) At(int part, double atS) => (part == 0 ? 1 : then, 0);
    }
}
