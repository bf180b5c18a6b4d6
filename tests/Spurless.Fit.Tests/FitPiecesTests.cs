using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;

namespace Spurless.Fit.Tests;

/// <summary>The fit's pieces by themselves: scales, parasitics, sweeps in another reference, marked values, estimates that lean.</summary>
public sealed class FitPiecesTests
{
    private static readonly double[] Frequencies = DemoFilter.Grid(100e6, 200e6, 41);

    // A lead as a part of its own is the same network as a lead that the capacitor states: one is an inductor in series, so is the other.
    [Fact]
    public void A_capacitors_lead_as_a_part_of_its_own_changes_nothing_at_the_ports() =>
        Gen.Double[0.3, 3].Array[6].Sample(static scale =>
        {
            Circuit circuit = DemoFilter.ThreeTanks;
            int at = 0;
            circuit = circuit with
            {
                Parts = [.. circuit.Parts.Select(p => p is Capacitor c
                    ? c with { Capacitance = PartValue.Known(c.Capacitance.Require() * scale[at++ % 6]) } : p)],
            };

            (Circuit whole, IReadOnlyList<(string Capacitor, string Lead)> leads) = Parasitics.Split(circuit);

            Assert.Equal(
                circuit.Parts.OfType<Capacitor>().Where(static c => c.SeriesInductanceH == 0).Select(static c => c.Name),
                leads.Select(static l => l.Capacitor));
            Assert.Equal(whole.Parts.Count, whole.Parts.Select(static p => p.Name).Distinct().Count());
            ScatteringMatrix[] split = DemoFilter.Response(whole, Frequencies),
            usual = DemoFilter.Response(Parasitics.WithUsual(circuit), Frequencies),
            stated = DemoFilter.Response(
                FittedCircuit.WithLeads(circuit, leads.Select(static l => (l.Capacitor, Parasitics.MeanH))), Frequencies);
            for (int i = 0; i < Frequencies.Length; i++)
            {
                Assert.InRange((split[i].S21 - usual[i].S21).Magnitude, 0, 1e-9);
                Assert.InRange((split[i].S11 - usual[i].S11).Magnitude, 0, 1e-9);
                Assert.Equal(usual[i], stated[i]);
            }
        });

    [Fact]
    public void A_lead_that_is_stated_stays_as_it_is()
    {
        Circuit circuit = DemoFilter.Read("""
            spurless_circuit: 1
            ports: { in: a, out: b }
            parts:
              C1: { capacitor: 10 pF, between: [a, b], esl: 0.3 nH }
              C2: { capacitor: 10 pF, between: [b, gnd] }
            """);

        Assert.Equal("C2", Assert.Single(Parasitics.Split(circuit).Leads).Capacitor);
        Assert.Equal([0.3e-9, Parasitics.MeanH], Parasitics.WithUsual(circuit).Parts.OfType<Capacitor>()
            .Select(static c => Math.Round(c.SeriesInductanceH, 15)));
    }

    // There and back on each scale, the slope by a difference, and the bounds at which the range ends.
    [Fact]
    public void A_value_is_the_same_there_and_back_on_its_scale() =>
        Gen.Select(Gen.Double[-2, 2], Gen.Double[0, 1]).Sample(static (decades, share) =>
        {
            string middle = FormattableString.Invariant($"{10 * Math.Pow(10, decades):0.######}");
            (_, _, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(DemoFilter.Read($$"""
                spurless_circuit: 1
                ports: { in: a, out: b }
                parts:
                  C1: { capacitor: unknown, range: [{{middle}} pF, 10 nF], between: [a, b] }
                  L1: { inductor: {{middle}} nH, between: [b, gnd], about: 20 % }
                  L2: { inductor: 30 nH, between: [a, gnd] }
                  M1: { coupling: unknown, of: [L1, L2], range: [-0.4, 0.6] }
                """));
            Assert.Equal(3, unknowns.Count);
            foreach (FitUnknown u in unknowns)
            {
                double x = u.Low + (share * (u.High - u.Low)), value = u.From(x);
                Assert.Equal(x, u.To(value), 1e-9);
                Assert.Equal((u.From(x + 1e-6) - u.From(x - 1e-6)) / 2e-6, u.Slope(x), 1e-6 * (1 + Math.Abs(value)));
                Assert.True(u.From(u.Low) <= value && value <= u.From(u.High));
            }

            FitUnknown range = unknowns.Single(static u => u.Part == "C1"), estimate = unknowns.Single(static u => u.Part == "L1");
            Assert.Equal(double.Parse(middle, System.Globalization.CultureInfo.InvariantCulture) * 1e-12, range.From(range.Low), 1e-17);
            Assert.Equal(10e-9, range.From(range.High), 1e-14);
            Assert.Null(range.Mean);

            // Six sigmas either way of an estimate; half as sure is twice as wide, and its bounds stay.
            Assert.Equal(12, (estimate.High - estimate.Low) / estimate.Sigma, 1e-9);
            Assert.Equal((estimate.Low, 2 * estimate.Sigma), (estimate.Wider(2).Low, estimate.Wider(2).Sigma));
            Assert.True(unknowns.Single(static u => u.Part == "M1").IsLinear);
        });

    // A one-port of 75 ohm seen in 50: the impedance is the same, Z = 75 (1 + G) / (1 - G), and so G' = (Z - 50) / (Z + 50).
    [Fact]
    public void Sweep_in_another_reference_shows_the_same_impedance() =>
        Gen.Select(Gen.Double[0, 0.95], Gen.Double[-Math.PI, Math.PI]).Sample(static (size, angle) =>
        {
            Complex g = Complex.FromPolarCoordinates(size, angle), z = 75 * (1 + g) / (1 - g);
            ScatteringMatrix s = new(g, 0, 0, 0);
            TouchstoneData data = TouchstoneData.Create("one.s1p", 1, [0, 100e6, 200e6], [s, s, s], [new Complex(75, 0)]);

            FitSweep sweep = FitSweep.From(data, 50);

            SweepTrace trace = Assert.Single(sweep.Traces);
            Assert.Equal([100e6, 200e6], sweep.FrequenciesHz);
            Complex expected = (z - 50) / (z + 50);
            Assert.InRange((trace.Values[0] - expected).Magnitude, 0, 1e-9);
            Assert.Equal(Math.Max(-400, 20 * Math.Log10(expected.Magnitude)), trace.Decibels[1], 1e-6);
            Assert.False(sweep.IsMagnitude);
        });

    // Arrays are padded to batches of eight; what lies behind the points weighs nothing, and some points keep their own weights.
    [Fact]
    public void Data_at_some_points_are_those_points_with_their_weights() =>
        Gen.Select(Gen.Int[3, 40], Gen.Int[1, 1000]).Sample(static (points, seed) =>
        {
            FitData data = new(DemoFilter.Complex(DemoFilter.ThreeTanks, (ulong)seed, points: points));
            SeededNoise random = new((ulong)seed);
            for (int t = 0; t < 4; t++)
            {
                for (int i = 0; i < points; i++)
                {
                    data.Weight[t][i] = random.Uniform() < 0.3 ? 0 : random.Uniform();
                }
            }

            int[] some = [.. Enumerable.Range(0, points).Where(_ => random.Uniform() < 0.5).DefaultIfEmpty(0)];
            FitData at = data.At(some);

            Assert.Equal((some.Length + 7) / 8 * 8, at.Padded);
            Assert.Equal(data.Weight.Sum(w => some.Count(i => w[i] > 0)), at.Used);
            for (int t = 0; t < 4; t++)
            {
                Assert.Equal(some.Select(i => (data.Real[t][i], data.Imaginary[t][i], data.Weight[t][i])),
                    Enumerable.Range(0, some.Length).Select(i => (at.Real[t][i], at.Imaginary[t][i], at.Weight[t][i])));
                Assert.All(at.Weight[t][some.Length..], static w => Assert.Equal(0, w));
                Assert.Equal(some.Select(i => data.Clean[t]![i]), at.Clean[t]!.Take(some.Length));
            }
        });

    // Marked values beside those found, and what that costs: the least loss by going through the sweep. E24 by IEC 60063: 22, 24, 27, 30.
    [Fact]
    public void Rounding_says_the_least_loss_before_and_after_by_going_through_the_sweep()
    {
        Circuit traced = DemoFilter.CapacitorsUnknown(DemoFilter.ThreeTanks);
        FitSweep sweep = DemoFilter.Complex(DemoFilter.ThreeTanks, 3, points: 101);
        FitResult result = CircuitFit.TryRun(traced, sweep, new FitOptions
        {
            Advise = false,
            Starts = 8,
            Parasitics = false,
            Errors = InstrumentErrors.PlanesOnly
        }, out _)!;

        FitRounding rounding = FitRounding.Of(result)!;

        double[] f = [.. sweep.FrequenciesHz];
        (double Loss, double At) Least(Circuit circuit) =>
            DemoFilter.Response(circuit, f).Select((s, i) => (-20 * Math.Log10(s.S21.Magnitude), f[i])).Min();
        Circuit marked = FittedCircuit.With(result.Fitted, result.Values.Where(static v => v.Quantity == CircuitQuantity.CapacitanceF)
            .Select(static v => (v.Part, v.Quantity, v.Marked!.Value)));
        Assert.Equal(Least(result.Fitted).Loss, rounding.LossDb, 1e-9);
        Assert.Equal(Least(result.Fitted).At, rounding.AtHz);
        Assert.Equal(Least(marked).Loss, rounding.RoundedLossDb, 1e-9);
        Assert.Equal(Least(marked).At, rounding.RoundedAtHz);
        Assert.True(rounding.LossThereDb >= rounding.RoundedLossDb - 1e-9);
        Assert.All(result.Values.Where(static v => v.Marked is not null), static v =>
            Assert.InRange(Math.Abs(Math.Log(v.Marked!.Value / v.Value)), 0, Math.Log(1.1)));
    }

    // Four coils that all came out a tenth larger than said with 5 %: two sigmas each, four of their mean. One alone never leans, and two
    // that miss in opposite directions have no cause in common.
    [Theory]
    [InlineData(new[] { 0.1, 0.1, 0.1, 0.1 }, true)]
    [InlineData(new[] { -0.1, -0.12, -0.09, -0.1 }, true)]
    [InlineData(new[] { 0.1, 0.1, 0.1, -0.1 }, false)]
    [InlineData(new[] { 0.05, 0.05, 0.05, 0.05 }, false)]
    [InlineData(new[] { 0.5 }, false)]
    public void Estimates_lean_where_all_miss_one_way_by_more_than_chance(double[] misses, bool lean)
    {
        string parts = string.Concat(misses.Select(static (_, i) =>
            FormattableString.Invariant($"  L{i}: {{ inductor: 50 nH, between: [a, n{i}], about: 5 % }}\n")
                + FormattableString.Invariant($"  R{i}: {{ resistor: 1 ohm, between: [n{i}, gnd] }}\n")));
        (_, _, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(
            DemoFilter.Read("spurless_circuit: 1\nports: { in: a, out: a }\nparts:\n" + parts));
        double[] x = [.. unknowns.Select((u, i) => u.Mean!.Value + misses[i])];

        FitRemark[] remarks = [.. EstimateCheck.Leaning(unknowns, x, 1)];

        Assert.Equal(lean ? 1 : 0, remarks.Length);
        if (lean)
        {
            FitRemark.EstimatesLean said = Assert.IsType<FitRemark.EstimatesLean>(remarks[0]);
            Assert.Equal((misses.Length, misses[0] > 0), (said.Parts.Length, said.More));
            Assert.Equal(100 * misses.Min(static m => Math.Abs(Math.Exp(m) - 1)), said.LeastPercent, 1e-6);
            Assert.Equal(100 * misses.Max(static m => Math.Abs(Math.Exp(m) - 1)), said.MostPercent, 1e-6);
        }
    }

    // The root mean square of what was missed, where the sweep makes all of it known; never under 1 and never over 5.
    [Theory]
    [InlineData(new[] { 0.1, -0.1 }, 2.0)]
    [InlineData(new[] { 0.01, -0.02 }, 1.0)]
    [InlineData(new[] { 0.15, -0.05 }, 2.23606797749979)]
    [InlineData(new[] { 0.9, 0.0 }, 5.0)]
    public void Estimates_that_miss_by_more_than_they_say_count_as_less_sure(double[] misses, double factor)
    {
        (_, _, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(DemoFilter.Read("""
            spurless_circuit: 1
            ports: { in: a, out: b }
            parts:
              L1: { inductor: 50 nH, between: [a, b], about: 5 % }
              L2: { inductor: 50 nH, between: [b, gnd], about: 5 % }
            """));
        double[] x = [.. unknowns.Select((u, i) => u.Mean!.Value + misses[i])];

        Assert.Equal(factor, EstimateCheck.Factors(unknowns, x, [1e-6, 1e-6])[CircuitQuantity.InductanceH], 1e-6);

        // Where the sweep says nothing of them, what was said beforehand is all there is.
        Assert.Equal(1, EstimateCheck.Factors(unknowns, x, [.. unknowns.Select(static u => u.Sigma)])[CircuitQuantity.InductanceH]);
    }

    // Known is what is narrow, not on an end of where it was looked for, and of a sweep that is the circuit's.
    [Theory]
    [InlineData(10, 20, true)]
    [InlineData(10, 20.1, false)]
    [InlineData(-2, -1, true)]
    [InlineData(-2.1, -1, false)]
    [InlineData(-1, 1, false)]
    [InlineData(0, 1, false)]
    public void A_value_is_known_where_its_interval_is_at_most_one_to_two(double low, double high, bool known)
    {
        FittedValue value = new("C1", CircuitQuantity.CapacitanceF, (low + high) / 2, low, high);

        Assert.Equal(known, value.Identifiable);
        Assert.False((value with { OnBound = true }).Identifiable);
        Assert.False((value with { Doubted = true }).Identifiable);
    }

    [Fact]
    public void Sweep_with_more_values_than_frequencies_is_no_sweep()
    {
        Assert.Throws<ArgumentException>(static () => FitSweep.OfMagnitudes("x", [1e6, 2e6], [-1], []));
        Assert.Throws<ArgumentException>(static () => FitSweep.OfMagnitudes("x", [1e6, 2e6], [-1, -2], [-3]));
        FitSweep both = FitSweep.OfMagnitudes("x", [1e6, 2e6], [-1, -2], [-3, -4]);
        Assert.Equal([SweepParameter.S11, SweepParameter.S21], both.Traces.Select(static t => t.Parameter));
        Assert.True(both.IsMagnitude);
        Refusal? refusal = SweepCheck.Refuse(
            CircuitSolver.Create(DemoFilter.ThreeTanks), FitUnknown.Of(DemoFilter.Traced).Unknowns, ref both);
        Assert.Contains("2 usable points", refusal!.ToString(), StringComparison.Ordinal);
    }
}
