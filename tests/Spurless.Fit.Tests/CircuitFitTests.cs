using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Numerics;

namespace Spurless.Fit.Tests;

/// <summary>The fit on circuits of which the truth is known.</summary>
public sealed class CircuitFitTests(ITestOutputHelper output)
{
    [Fact]
    public void Demo_gives_the_values_its_sweep_was_made_from()
    {
        FitResult result = Run(DemoFilter.Traced, DemoFilter.Sweep);
        Assert.False(result.IsStructured);
        double[] misses = [.. Enumerable.Range(1, 7).Select(i => Miss(result, $"C{i}")).Order()];

        // The measure: six of seven capacitors within their intervals, the seventh within twice its own.
        Assert.All(misses[..6], static m => Assert.True(m <= 1));
        Assert.True(misses[6] <= 2);
        Assert.All(Enumerable.Range(1, 3), i => Assert.True(Miss(result, $"L{i}", CircuitQuantity.InductanceH) <= 2));
    }

    [Fact]
    public void Level_of_an_inner_node_changes_no_S_parameter_and_is_named_as_open()
    {
        // Row and column of node c times k: C3 and C5 times k, the shunts of c such that its own admittance becomes k squared of it, C2 and
        // C6 less by what C3 and C5 gained (hand derivation).
        Circuit truth = DemoFilter.ThreeTanks;
        const double K = 1.1;
        const double C3 = 1.6e-12, C4 = 39e-12;
        Circuit scaled = FittedCircuit.With(
            truth,
            [
                ("C3", CircuitQuantity.CapacitanceF, K * C3),
                ("C5", CircuitQuantity.CapacitanceF, K * C3),
                ("C4", CircuitQuantity.CapacitanceF, (K * K * (C4 + (2 * C3))) - (2 * K * C3)),
                ("C2", CircuitQuantity.CapacitanceF, 36e-12 - ((K - 1) * C3)),
                ("C6", CircuitQuantity.CapacitanceF, 36e-12 - ((K - 1) * C3)),
                ("L2", CircuitQuantity.InductanceH, 28.6e-9 / (K * K)),
            ]);
        double[] f = DemoFilter.Grid(100e6, 200e6, 101);
        foreach ((ScatteringMatrix a, ScatteringMatrix b) in DemoFilter.Response(truth, f).Zip(DemoFilter.Response(scaled, f)))
        {
            Assert.InRange((a.S11 - b.S11).Magnitude, 0, 1e-9);
            Assert.InRange((a.S21 - b.S21).Magnitude, 0, 1e-9);
            Assert.InRange((a.S22 - b.S22).Magnitude, 0, 1e-9);
        }

        // With nothing stated of L2 either, the sweep cannot hold the level at all.
        Circuit traced = DemoFilter.CapacitorsUnknown(truth);
        traced = traced with
        {
            Parts =
            [
                .. traced.Parts.Select(
                    static p => p is Inductor { Name: "L2" } l ? l with { Inductance = PartValue.Unknown(5e-9, 150e-9) } : p),
            ],
        };
        FitResult result = Run(traced, DemoFilter.Complex(truth, 11));
        InseparableParts open = Assert.Single(result.Inseparable);
        Assert.Equal((InseparableKind.ImpedanceLevel, "c"), (open.Kind, open.Node));
        Assert.Empty(open.HeldBy);
        Assert.Equal(["C3", "C4", "C5", "L2"], open.Parts.Order());
        Assert.False(result.Of("C4", CircuitQuantity.CapacitanceF)!.Identifiable);
        Assert.False(result.Of("L2", CircuitQuantity.InductanceH)!.Identifiable);
        Assert.True(result.Of("C1", CircuitQuantity.CapacitanceF)!.Identifiable);

        // Any one of the four measured alone closes it.
        Assert.Equal(MeasurementKind.PartAlone, result.Next!.Kind);
        Assert.Contains(result.Next.Of, open.Parts);
        Assert.InRange(result.Next.Narrows.Length, 1, 3);

        // An estimate of the coil anchors it.
        Circuit anchored = traced with
        {
            Parts =
            [
                .. traced.Parts.Select(
                    static p => p is Inductor { Name: "L2" } l ? l with { Inductance = PartValue.Known(29e-9), About = 0.05 } : p),
            ],
        };
        FitResult held = Run(anchored, DemoFilter.Complex(truth, 11));
        Assert.True(held.Of("C4", CircuitQuantity.CapacitanceF)!.Identifiable);
        Assert.Equal(["L2"], Assert.Single(held.Inseparable).HeldBy);
    }

    [Fact]
    public void Transmission_alone_of_a_symmetric_filter_leaves_three_directions_that_return_loss_closes()
    {
        // |S21| of a filter that is its own mirror image does not change, to first order, when the two of a pair move oppositely: three
        // pairs.
        Circuit traced = DemoFilter.CapacitorsUnknown(DemoFilter.ThreeTanks);
        Assert.Equal(3, OpenDirections(returnLoss: false));
        Assert.Equal(0, OpenDirections(returnLoss: true));
        FitResult alone = Run(traced, DemoFilter.Magnitudes(DemoFilter.ThreeTanks, 21, returnLoss: false));
        Assert.True(alone.Values.Count(static v => !v.Identifiable) >= 2 || alone.Inseparable.Length > 0);
        Assert.Equal(SweepParameter.S11, alone.Next!.Parameter);
        FitResult both = Run(traced, DemoFilter.Magnitudes(DemoFilter.ThreeTanks, 21, returnLoss: true));
        Assert.All(both.Values, static v => Assert.True(v.Identifiable));

        int OpenDirections(bool returnLoss)
        {
            (_, CircuitSolver? solver, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(traced);
            FitData data = new(DemoFilter.Magnitudes(DemoFilter.ThreeTanks, 21, returnLoss, 1e-9));
            for (int t = 0; t < data.Parameters.Length; t++)
            {
                Array.Fill(data.Weight[t], 1 / 0.05, 0, data.Points);
            }

            FitModel model = new(solver!, unknowns, data, InstrumentErrors.PlanesOnly);
            double[] x = new double[model.Count];
            for (int i = 0; i < unknowns.Count; i++)
            {
                x[i] = unknowns[i].To(
                    ((Capacitor)DemoFilter.ThreeTanks.Parts.First(p => p.Name == unknowns[i].Part)).Capacitance.Require());
            }

            return SymmetricEigen.Of(FitInformation.OfSweep(model, x, model.CreateWorkspace()), unknowns.Count).Values
                .Count(Inseparability.IsOpen);
        }
    }

    [Fact]
    public void Tracing_without_a_capacitor_that_is_there_is_noticed_and_named()
    {
        Circuit truth = DemoFilter.ThreeTanks;
        Capacitor bridge = new()
        {
            Name = "C8",
            From = "b",
            To = "e",
            Capacitance = PartValue.Known(0.5e-12),
            Loss = PartLoss.QualityFactor(400, 145e6),
        };
        FitResult result = Run(
            DemoFilter.CapacitorsUnknown(truth), DemoFilter.Complex(truth with { Parts = [.. truth.Parts, bridge] }, 31));
        Assert.True(result.IsStructured);
        Assert.Equal(
            (TracingChange.CapacitorAdded, "b", "e"), (result.Tracings[0].Change, result.Tracings[0].From, result.Tracings[0].To));

        // The same sweep with the right tracing is explained.
        Circuit right = DemoFilter.CapacitorsUnknown(truth with { Parts = [.. truth.Parts, bridge] });
        Assert.False(Run(right, DemoFilter.Complex(truth with { Parts = [.. truth.Parts, bridge] }, 31)).IsStructured);
    }

    [Fact]
    public void Tracing_with_a_part_on_the_wrong_node_is_noticed_and_named()
    {
        // C4 was drawn across the first tank instead of the second.
        Circuit truth = DemoFilter.ThreeTanks;
        Circuit wrong = DemoFilter.CapacitorsUnknown(
            truth with
            {
                Parts = [.. truth.Parts.Select(static p => p is Capacitor { Name: "C5" } c ? c with { From = "b", To = "e" } : p)],
            });
        FitResult result = Run(wrong, DemoFilter.Complex(truth, 41));
        output.WriteLine(string.Join('\n', result.Tracings));
        Assert.True(result.IsStructured);
        Assert.Contains(
            result.Tracings,
            static t => t is { Change: TracingChange.EndMoved or TracingChange.CapacitorAdded, From: "e", To: "c" }
                or { Change: TracingChange.EndMoved or TracingChange.CapacitorAdded, From: "c", To: "e" });
    }

    [Fact]
    public void Ports_the_other_way_round_are_noticed()
    {
        Circuit truth = DemoFilter.ThreeTanks with
        {
            Parts =
            [
                .. DemoFilter.ThreeTanks.Parts.Select(
                    static p => p is Capacitor { Name: "C7" } c ? c with { Capacitance = PartValue.Known(12e-12) } : p),
            ],
        };
        Circuit known = truth with
        {
            Parts =
            [
                .. truth.Parts.Select(
                    static p => p is Capacitor { Name: "C4" } c ? c with { Capacitance = PartValue.Unknown(10e-12, 100e-12) } : p),
            ],
        };
        FitResult result = Run(known, DemoFilter.Complex(truth with { PortIn = truth.PortOut, PortOut = truth.PortIn }, 51));
        Assert.Equal(TracingChange.PortsExchanged, result.Tracings[0].Change);
    }

    [Fact]
    public void Result_does_not_depend_on_threads()
    {
        FitResult one = CircuitFit.TryRun(DemoFilter.Traced, DemoFilter.Sweep, new FitOptions { Threads = 1 }, out _)!;
        FitResult four = CircuitFit.TryRun(DemoFilter.Traced, DemoFilter.Sweep, new FitOptions { Threads = 4 }, out _)!;
        Assert.Equal(one.Values.AsEnumerable(), four.Values.AsEnumerable());
        Assert.Equal((one.Next!.Kind, one.Next.Of), (four.Next!.Kind, four.Next.Of));
        Assert.Equal(one.Next.Narrows, four.Next.Narrows);
    }

    [Fact]
    public void Cancelled_run_gives_the_best_so_far_and_says_so()
    {
        using CancellationTokenSource cancel = new();
        cancel.Cancel();
        FitResult? result = CircuitFit.TryRun(
            DemoFilter.Traced, DemoFilter.Sweep, new FitOptions(), out Refusal? problem, null, cancel.Token);
        Assert.Null(problem);
        Assert.False(result!.IsComplete);
        Assert.Equal(13, result.Values.Length);
    }

    [Fact]
    public void Wild_points_do_not_steer()
    {
        FitSweep clean = DemoFilter.Sweep;
        Random random = new(61);
        FitSweep wild = clean.Select(t => SweepTrace.Of(t.Parameter, [.. t.Values.Select(v => random.Next(100) == 0 ? v + 0.5 : v)]));
        FitResult a = Run(DemoFilter.Traced, clean), b = Run(DemoFilter.Traced, wild);

        // By less than half of what the interval leaves open on either side.
        Assert.All(a.Values.Zip(b.Values), static p =>
            Assert.InRange(Math.Log(p.Second.Value / p.First.Value) / Math.Log(p.First.High / p.First.Low), -0.25, 0.25));
    }

    [Fact]
    public void Floor_of_the_instrument_is_left_out_and_said()
    {
        FitResult result = Run(DemoFilter.Traced, DemoFilter.Sweep);
        Assert.InRange(result.Traces.First(static t => t.Parameter == SweepParameter.S21).LeftOut, 10, 100);
        Assert.Contains(
            result.Remarks, static r => r is FitRemark.PointsLeftOut { Parameter: SweepParameter.S21 });
    }

    [Fact]
    public void Profile_of_every_value_agrees_with_the_curvature_where_that_is_narrow()
    {
        FitResult quick = Run(DemoFilter.Traced, DemoFilter.Sweep), slow =
            CircuitFit.TryRun(DemoFilter.Traced, DemoFilter.Sweep, new FitOptions { Profile = true }, out _)!;
        foreach ((FittedValue a, FittedValue b) in quick.Values.Zip(slow.Values).Where(static p => p.First.High < 1.1 * p.First.Low))
        {
            Assert.InRange((b.High - b.Low) / (a.High - a.Low), 0.85, 1.18);
        }
    }

    private static FitResult Run(Circuit circuit, FitSweep sweep) =>
        CircuitFit.TryRun(circuit, sweep, new FitOptions(), out Refusal? problem) ?? throw new InvalidOperationException(
            problem?.ToString());

    // Distance of the truth from the middle of the interval, in half widths on a logarithmic scale: up to 1 it is inside.
    private double Miss(FitResult result, string part, CircuitQuantity quantity = CircuitQuantity.CapacitanceF)
    {
        FittedValue v = result.Of(part, quantity)!;
        double truth = DemoUnmarkedSweep.Truth()[(part, quantity)], half = Math.Log(v.High / v.Low) / 2;
        double miss = Math.Abs(Math.Log(truth / v.Low) - half) / half;
        output.WriteLine($"{part}: true {truth:E4}, found {v.Value:E4}, {v.Low:E4} to {v.High:E4}, {miss:F2} half widths");
        return miss;
    }
}
