using Spurless.Mixing.Causes;
using Spurless.Mixing.Spread;
using Spurless.Mixing.Tests.Oracles;

namespace Spurless.Mixing.Tests.Causes;

public sealed class TransmitterProductsTests
{
    private const long Telemetry = 158_300_000;
    private const long Gauging = 171_550_000;
    private const long Channel = 145_050_000;

    /// <summary>
    /// docs/checks.md section 7, 'transmitter mixing worked' (computed with assumed numbers): 47 dBm beside 47 dBm, coupling 35 dB, T 10
    /// dB.
    /// </summary>
    [Theory]
    [InlineData(0, 12, 2, -33)]
    [InlineData(25, -13, -23, -58)]
    [InlineData(60, -48, -58, -93)]
    public void Level_neighbour_of_50_W_gives_the_worked_figures(double isolatorDb, double arrives, double leaves, double atReceiver)
    {
        TransmitterArrival arrival = TransmitterArrival.Compute(
            "neighbour", "ours", 160_000_000, 47, 35, 2, 0, isolatorDb == 0 ? null : FrequencyResponse.Single(isolatorDb, 159_000_000));
        TransmitterStage stage = new()
        {
            Name = "ours",
            Emitter = 0,
            PowerDbm = 47,
            TurnRound = TurnRoundLoss.EveryOrder(10),
            Arrivals = [null, arrival],
        };

        TransmitterProductLevel level = TransmitterProducts.Level(
            stage, [(0, 2), (1, -1)], Made.Reach("ours", 47, 35, 2, 0));

        Assert.Equal(arrives, arrival.LevelDbm!.Value, 9);
        Assert.Equal(leaves, level.LeavesDbm!.Value, 9);
        Assert.Equal(atReceiver, level.AtAntennaDbm!.Value, 9);
        Assert.Empty(level.Assumed);
        Assert.Empty(level.Missing);
    }

    /// <summary>docs/checks.md 9.3 (computed outside the program; tolerance 0.1 dB there).</summary>
    [Theory]
    [InlineData(null, 0, -20, -84, 43.5)]
    [InlineData(null, 2.92, -20, -84, 40.6)]
    [InlineData(25.0, 0, -45, -109, 18.5)]
    [InlineData(55.0, 0, -75, -139, -11.5)]
    [InlineData(55.0, 2.92, -75, -139, -14.4)]
    public void Level_demo_telemetry_transmitter_gives_the_figures_of_the_demo(
        double? isolatorDb, double filterDb, double leaves, double atAntenna, double overNoise)
    {
        FrequencyResponse? isolator = isolatorDb is { } db
            ? FrequencyResponse.FromPoints(new FrequencyResponsePoint(Telemetry, db), new FrequencyResponsePoint(Gauging, db))
            : null;
        TransmitterStage stage = new()
        {
            Name = "telemetry scanner",
            Emitter = 0,
            PowerDbm = 33.0103,
            TurnRound = TurnRoundLoss.EveryOrder(12),
            Arrivals = [null, TransmitterArrival.Compute("gauging station", "telemetry scanner", Gauging, 36.9897, 45, 2, 0, isolator)],
        };
        TransmitterReach reach = TransmitterReach.FromMeasured("telemetry scanner", -31, 2, Telemetry, Channel, 0, 0);

        TransmitterProductLevel level = TransmitterProducts.Level(stage, [(0, 2), (1, -1)], reach);
        double share = InChannelShare.Of(0, 8_000, [2, -1], [EmitterSpread.From(11_200, "F2D"), EmitterSpread.From(11_200, "F3E")]);

        Assert.Equal(leaves, level.LeavesDbm!.Value, 0.05);
        Assert.Equal(atAntenna, level.AtAntennaDbm!.Value, 0.05);
        Assert.Equal(overNoise, level.AtAntennaDbm.Value + (10 * Math.Log10(share)) - 1.2 - filterDb + 128.94, 0.1);
        // The channel lies 8 % from the telemetry's frequency: its path there is an assumption, and the only one.
        Assert.Equal(
            [new Assumption(AssumptionKind.PathElsewhere) { Of = "telemetry scanner", FromHz = Telemetry, ToHz = Channel }],
            level.Assumed);
    }

    [Fact]
    public void Compute_single_isolator_figure_over_3_percent_away_is_marked()
    {
        TransmitterArrival near = TransmitterArrival.Compute("b", "a", 163_000_000, 40, 40, 2, 0, FrequencyResponse.Single(25, Telemetry));
        TransmitterArrival far = TransmitterArrival.Compute("b", "a", Gauging, 40, 40, 2, 0, FrequencyResponse.Single(25, Telemetry));

        Assert.Empty(near.Assumed);
        Assert.Equal([new Assumption(AssumptionKind.IsolatorElsewhere) { Of = "a", FromHz = Telemetry, ToHz = Gauging }], far.Assumed);
        Assert.Equal(-25, far.LevelDbm!.Value, 9);
    }

    [Fact]
    public void Compute_response_of_an_isolator_is_linear_over_lg_frequency()
    {
        FrequencyResponse isolator = FrequencyResponse.FromPoints(
            new FrequencyResponsePoint(171_550_000, 30), new FrequencyResponsePoint(158_300_000, 55));

        // By hand: lg(164.8/158.3)/lg(171.55/158.3) = 0.500613; 55 - 25 x that.
        Assert.Equal(42.4847, isolator.At(164_800_000), 3);
        Assert.Null(isolator.HeldFromHz(164_800_000));
        Assert.Equal(30, isolator.At(180_000_000));
        Assert.Equal(171_550_000, isolator.HeldFromHz(180_000_000));
        Assert.Null(isolator.HeldFromHz(174_000_000));
    }

    [Fact]
    public void Level_output_filter_acts_inward_and_outward()
    {
        // The filter of A takes 6 dB off what comes in and 20 dB off what leaves; its own loss on its own frequency is in the measured
        // level.
        TransmitterStage stage = new()
        {
            Name = "a",
            Emitter = 0,
            PowerDbm = 40,
            TurnRound = TurnRoundLoss.ByOrder(new TurnRoundPoint(3, 12), new TurnRoundPoint(5, 20)),
            Arrivals = [null, TransmitterArrival.Compute("b", "a", 150_000_000, 40, 50, 2, 6, null)],
        };
        TransmitterReach reach = TransmitterReach.FromMeasured("a", -30, 2, 150_500_000, 151_000_000, 1, 20);

        TransmitterProductLevel third = TransmitterProducts.Level(stage, [(0, 2), (1, -1)], reach);
        TransmitterProductLevel fifth = TransmitterProducts.Level(stage, [(0, 3), (1, -2)], reach);

        // By hand: arrives with -16; leaves the stage with -28, the filter with -48. Path = 40 - 1 + 30 = 69: at the antenna -117.
        Assert.Equal(-48, third.LeavesDbm!.Value, 9);
        Assert.Equal(-117, third.AtAntennaDbm!.Value, 9);
        // Two times 56 under 40, less 20: -92, filter -112, path -181. Sigma: (2 x 2)^2 + 3^2 + 2^2.
        Assert.Equal(-112, fifth.LeavesDbm!.Value, 9);
        Assert.Equal(-181, fifth.AtAntennaDbm!.Value, 9);
        Assert.Equal(Math.Sqrt(29), fifth.SigmaDb!.Value, 9);
    }

    [Fact]
    public void Level_missing_figures_are_unknown_and_say_what_would_supply_them()
    {
        TransmitterStage stage = new()
        {
            Name = "a",
            Emitter = 0,
            PowerDbm = null,
            TurnRound = null,
            Arrivals = [null, TransmitterArrival.Compute("b", "a", 150_000_000, null, null, 8, 0, null)],
        };

        TransmitterProductLevel level = TransmitterProducts.Level(
            stage, [(0, 2), (1, -1)], TransmitterReach.FromMeasured("a", null, 2, 151_000_000, 151_000_000, 0, 0));

        Assert.Null(level.LeavesDbm);
        Assert.Null(level.AtAntennaDbm);
        Assert.Null(level.SigmaDb);
        Assert.Equal(
            [
                new MissingInput(MissingKind.Path, "a"),
                new MissingInput(MissingKind.OutputPower, "a"),
                new MissingInput(MissingKind.OutputPower, "b"),
                new MissingInput(MissingKind.Coupling, "b") { At = "a", FrequencyHz = 150_000_000 },
                new MissingInput(MissingKind.TurnRoundLoss, "a"),
            ],
            level.Missing);
    }

    [Fact]
    public void Level_without_the_transmitter_or_another_is_refused()
    {
        TransmitterStage stage = new()
        {
            Name = "a",
            Emitter = 0,
            PowerDbm = 40,
            TurnRound = TurnRoundLoss.EveryOrder(10),
            Arrivals = [null, Made.Arrival(0), Made.Arrival(0)],
        };
        TransmitterReach reach = Made.Reach("a", 40, 60, 0, 0);

        Assert.Throws<ArgumentException>(() => TransmitterProducts.Level(stage, [(1, 2), (2, -1)], reach));
        Assert.Throws<ArgumentException>(() => TransmitterProducts.Level(stage, [(0, 3)], reach));
        Assert.Throws<ArgumentException>(() => TransmitterProducts.Level(stage, [(0, 9), (1, 1)], reach));
        Assert.Throws<ArgumentException>(() => TransmitterProducts.Level(stage, [(0, 1), (1, 0)], reach));
    }

    [Fact]
    public void Level_strong_incoming_signal_is_not_trusted()
    {
        TransmitterStage stage = new()
        {
            Name = "a",
            Emitter = 0,
            PowerDbm = 30,
            TurnRound = TurnRoundLoss.EveryOrder(10),
            Arrivals = [null, Made.Arrival(25)],
        };

        TransmitterProductLevel level = TransmitterProducts.Level(stage, [(0, 2), (1, -1)], Made.Reach("a", 30, 60, 0, 0));

        Assert.Equal([new Assumption(AssumptionKind.SignalNotWeak) { Of = "a", Value = 10 }], level.Assumed);
    }

    [Theory]
    [InlineData(2, 12, true)]
    [InlineData(3, 12, false)]
    [InlineData(4, 12, true)]
    [InlineData(5, 20, false)]
    [InlineData(9, 20, true)]
    public void ByOrder_takes_the_nearest_lower_order(int order, double expected, bool marked)
    {
        TurnRoundLoss loss = TurnRoundLoss.ByOrder(new TurnRoundPoint(5, 20), new TurnRoundPoint(3, 12));

        Assert.Equal(expected, loss.At(order));
        Assert.Equal(marked, loss.AssumedAt(order) is not null);
        Assert.Null(TurnRoundLoss.EveryOrder(12).AssumedAt(order));
    }
}
