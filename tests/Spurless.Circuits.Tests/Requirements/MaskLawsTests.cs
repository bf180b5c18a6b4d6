using CsCheck;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Requirements;

/// <summary>What holding a network against a mask must do whatever the network is.</summary>
public sealed class MaskLawsTests
{
    private static readonly RandomCircuits.Kinds _kinds = new(Lossy: true, Lines: true, Couplings: true);

    private static readonly Gen<MaskLine> _lines = Gen.Select(
        Gen.Double[30e6, 400e6], Gen.Double[0, 60e6], Gen.Double[0.1, 80], Gen.Int[1, 7]).Select(static (from, width, db, demands) =>
            new MaskLine(
                from,
                width < 10e6 ? from : from + width,
                (demands & 1) != 0 ? db : null,
                (demands & 2) != 0 ? db / 2 : null,
                (demands & 4) != 0 ? db / 3 : null));

    /// <summary>Read out of the definition: each demand at each frequency of its line by itself, the one with least to spare.</summary>
    [Fact]
    public void Run_finds_for_each_demand_the_frequency_with_least_to_spare() =>
        Gen.Select(RandomCircuits.Of(_kinds, 5), _lines.Array[1, 4]).Sample((circuit, mask) =>
        {
            CircuitTwoPort network = new(CircuitSolver.Create(circuit));
            Queue<MaskFinding> found = new(MaskCheck.Run(network, mask));
            foreach (MaskLine line in mask)
            {
                if (line.MostLossDb is { } most)
                {
                    Worst(found.Dequeue(), line, MaskDemand.PassLoss, most, f => most - Loss(network.At(f)), f => Loss(network.At(f)));
                }

                if (line.LeastReturnLossDb is { } match)
                {
                    Worst(found.Dequeue(), line, MaskDemand.ReturnLoss, match, f => Return(network.At(f)) - match, f =>
                        Return(network.At(f)));
                }

                if (line.LeastLossDb is { } least)
                {
                    Worst(found.Dequeue(), line, MaskDemand.Rejection, least, f => Loss(network.At(f)) - least, f => Loss(network.At(f)));
                }
            }

            Assert.Empty(found);
        });

    /// <summary>Each dB asked for more is a dB less to spare, at the same frequency; what is met with less asked stays met.</summary>
    [Fact]
    public void Run_of_a_stricter_mask_has_less_to_spare() =>
        Gen.Select(RandomCircuits.Of(_kinds, 5), _lines, Gen.Double[0.1, 20]).Sample((circuit, line, by) =>
        {
            CircuitTwoPort network = new(CircuitSolver.Create(circuit));
            MaskLine strict = line with
            {
                MostLossDb = line.MostLossDb - by,
                LeastLossDb = line.LeastLossDb + by,
                LeastReturnLossDb = line.LeastReturnLossDb + by,
            };
            foreach ((MaskFinding mild, MaskFinding hard) in MaskCheck.Run(network, [line]).Zip(MaskCheck.Run(network, [strict])))
            {
                Assert.Equal(mild.MarginDb - by, hard.MarginDb, 1e-9);
                Assert.Equal(mild.AchievedDb, hard.AchievedDb, 1e-9);
                Assert.True(mild.Met || !hard.Met);
                Assert.Equal(hard.MarginDb >= 0, hard.Met);
            }
        });

    /// <summary>A reciprocal network turned round passes and rejects the same; its return loss is another port's.</summary>
    [Fact]
    public void Run_of_a_network_turned_round_has_the_same_losses() =>
        Gen.Select(RandomCircuits.Of(_kinds, 5), _lines).Sample((circuit, line) =>
        {
            line = line with { LeastReturnLossDb = null, MostLossDb = 3, LeastLossDb = 20 };
            MaskFinding[] there = [.. MaskCheck.Run(new CircuitTwoPort(CircuitSolver.Create(circuit)), [line])];
            MaskFinding[] back = [.. MaskCheck.Run(
                new CircuitTwoPort(CircuitSolver.Create(circuit with { PortIn = circuit.PortOut, PortOut = circuit.PortIn })), [line])];
            Assert.Equal(2, there.Length);
            Assert.Equal(there[0].AchievedDb, back[0].AchievedDb, 1e-6);
            Assert.Equal(there[1].AchievedDb, back[1].AchievedDb, 1e-6);
        });

    [Fact]
    public void Frequencies_of_a_span_are_even_and_hold_both_edges() => _lines.Sample(static line =>
    {
        double[] f = [.. line.Frequencies()];
        Assert.Equal(line.ToHz > line.FromHz ? MaskLine.PointsOfSpan : 1, f.Length);
        Assert.Equal(line.FromHz, f[0]);
        Assert.Equal(line.ToHz, f[^1], 1e-6);
        for (int i = 2; i < f.Length; i++)
        {
            Assert.Equal(f[1] - f[0], f[i] - f[i - 1], 1e-6);
        }
    });

    /// <summary>What passes nothing at all keeps out everything that can be asked, and its loss is a number.</summary>
    [Fact]
    public void Run_of_a_network_that_passes_nothing_is_a_number()
    {
        MaskFinding[] found = [.. MaskCheck.Run(new Nothing(), [new MaskLine(1e6, 2e6, MostLossDb: 1, LeastLossDb: 150)])];
        Assert.False(found[0].Met);
        Assert.True(found[1].Met);
        Assert.All(found, static f => Assert.True(double.IsFinite(f.AchievedDb) && double.IsFinite(f.MarginDb)));
    }

    private static double Loss(ScatteringMatrix s) => s.InsertionLossDb;

    private static double Return(ScatteringMatrix s) => s.ReturnLoss1Db;

    private static void Worst(
        MaskFinding found, MaskLine line, MaskDemand demand, double needed, Func<double, double> margin, Func<double, double> achieved)
    {
        Assert.Equal((line, demand, needed), (found.Line, found.Demand, found.NeededDb));
        Assert.Equal(line.Frequencies().Min(margin), found.MarginDb, 1e-9);
        Assert.Equal(achieved(found.WorstHz), found.AchievedDb, 1e-9);
        Assert.Contains(found.WorstHz, line.Frequencies());
    }

    private sealed class Nothing : ITwoPort
    {
        public double LowestHz => 0;

        public double HighestHz => double.PositiveInfinity;

        public System.Numerics.Complex Reference1 => 50;

        public System.Numerics.Complex Reference2 => 50;

        public ScatteringMatrix At(double frequencyHz) => new(1, 0, 0, 1);
    }
}
