using Spurless.Circuits.Coils;
using Spurless.Design.Designing;
using Spurless.Design.Layout;
using Spurless.Design.Prototypes;
using Spurless.Design.Questions;
using Spurless.Design.Tests.RandomRequirements;
using Spurless.Design.Tuning;
using Spurless.Design.Winding;

namespace Spurless.Design.Tests.Designing;

/// <summary>Estimates before a design, trimmers and coils after it.</summary>
public class BoundAndPartsTests
{
    [Fact]
    public void Bound_of_any_requirement_is_Cohns_formula_of_a_prototype_that_keeps_out_what_must_be()
    {
        int bounds = 0;
        for (int number = 0; number < RandomRequirement.Count; number++)
        {
            DesignQuestion q = RandomRequirement.Make(number);
            if (SynthesisBound.Of(q) is not { } bound)
            {
                continue;
            }

            bounds++;
            Prototype g = bound.RippleDb is { } ripple ? Prototype.Chebyshev(bound.Order, ripple) : Prototype.Butterworth(bound.Order);
            Assert.Equal(
                q.MostLossDb - (bound.RippleDb ?? 0), DissipationLoss.Db(g, bound.WidthHz / q.CentreHz, bound.NeededQ), 1e-9);
            Assert.True(bound.WidthHz >= q.PassToHz - q.PassFromHz);
            foreach (RejectDemand r in q.Reject)
            {
                foreach (double edge in new[] { r.FromHz, r.ToHz })
                {
                    Assert.True(g.LossDb(BandPassMap.ToPrototype(edge, q.CentreHz, bound.WidthHz)) >= r.LeastLossDb - 1e-6);
                }
            }

            // Twice the decibels allowed for dissipation take half the Q at most; a demand more takes no less.
            Assert.True(SynthesisBound.Of(q with { MostLossDb = q.MostLossDb * 2 })!.NeededQ <= bound.NeededQ / 2 + 1e-9);
            DesignQuestion harder = q with { Reject = [.. q.Reject, q.Reject[0] with { LeastLossDb = q.Reject[0].LeastLossDb + 6 }] };
            Assert.True((SynthesisBound.Of(harder)?.NeededQ ?? double.PositiveInfinity) >= bound.NeededQ - 1e-9);
        }

        Assert.True(bounds > 50, $"{bounds} bounds");
    }

    [Fact]
    public void Bound_where_nothing_is_to_be_kept_out_says_nothing() =>
        Assert.Null(SynthesisBound.Of(DemoRequirement.Question with { Reject = [] }));

    // 1/Q = 1/180 + 1/500 at 146 MHz: 132.35. At four times the frequency the coil has 360, the capacitor 125: 92.78.
    [Theory]
    [InlineData(1, 132.35)]
    [InlineData(4, 92.78)]
    public void Have_is_coil_and_capacitor_together(double times, double q)
    {
        double at = 146e6 * times;
        DesignQuestion question = DemoRequirement.Question with { PassFromHz = at / 1.001, PassToHz = at * 1.001 };
        Assert.Equal(q, question.UnloadedQ, 0.01);
        Assert.Equal(double.PositiveInfinity, (question with { Parts = new PartLimits() }).UnloadedQ);
    }

    [Fact]
    public void Take_of_any_range_is_a_trimmer_and_a_fixed_one_that_span_it()
    {
        Random random = new(20_261_129);
        int taken = 0;
        for (int i = 0; i < 2000; i++)
        {
            double low = 0.3e-12 * Math.Pow(400, random.NextDouble()), high = low * (1 + (0.8 * random.NextDouble()));
            int? series = new int?[] { null, 12, 24, 96 }[i % 4];
            Trimmer trimmer = new("C1", true, (low + high) / 2, low, high);
            if (trimmer.Take(series) is not { } take)
            {
                continue;
            }

            taken++;
            Assert.True(take.FixedF >= 0 && take.TrimmerLowF < take.TrimmerHighF);
            Assert.True(take.FixedF + take.TrimmerLowF <= low && take.FixedF + take.TrimmerHighF >= high, $"{low} to {high}: {take}");
            if (take.FixedF > 0)
            {
                Assert.Equal(1, Spurless.Circuits.Series.ESeries.Nearest(take.FixedF, series ?? 24) / take.FixedF, 1e-12);
            }
        }

        Assert.True(taken > 1500, $"{taken} of 2000 have a trimmer");
        Assert.Null(new Trimmer("L1", false, 1, 1, 2).Take(24));
        Assert.Null(new Trimmer("C1", true, 300e-12, 100e-12, 500e-12).Take(24));
    }

    // Wilson's interval for 0 of 40 ends at z^2/(n + z^2) = 0.0876, by hand; all of 40 is its mirror.
    [Fact]
    public void Interval_of_the_tuned_yield_is_Wilsons_and_never_says_sure()
    {
        Assert.Equal((0, 0.0876), Rounded(new TunedYieldResult(40, 0, []).Interval));
        Assert.Equal((0.9124, 1), Rounded(new TunedYieldResult(40, 40, []).Interval));
        for (int met = 0; met <= 40; met++)
        {
            TunedYieldResult result = new(40, met, []);
            Assert.InRange(result.Yield, result.Interval.Low, result.Interval.High);
            Assert.True(result.Interval.High - result.Interval.Low > 0.05);
        }

        static (double, double) Rounded((double Low, double High) i) => (Math.Round(i.Low, 4), Math.Round(i.High, 4));
    }

    [Fact]
    public void Wind_of_any_inductance_keeps_to_rods_wires_and_pitch_and_Adjust_brings_it_elsewhere()
    {
        Random random = new(7);
        int wound = 0;
        for (int i = 0; i < 60; i++)
        {
            double hertz = 28e6 * Math.Pow(16, random.NextDouble()), henries = 8e-9 * Math.Pow(60, random.NextDouble());
            if (CoilWinder.Wind("L1", henries, hertz, 120) is not { } coil)
            {
                continue;
            }

            wound++;
            CoilGeometry g = coil.Geometry;
            Assert.InRange(g.LengthM / (g.Turns * g.WireM), 1.25, 3.2);
            Assert.InRange(g.LengthM / g.DiameterM, 0.3, 3);
            Assert.True(CoilCalculator.Compute(g, hertz).SelfResonanceHz >= 1.5 * hertz);
            double other = henries * (0.93 + (0.14 * random.NextDouble()));
            if (CoilWinder.Adjust(coil, other, hertz) is { } moved)
            {
                // Wound for the frequency: there it has what is asked for, leads included. A meter of low frequency shows more, by at most
                // the whole field inside the wire: mu0/(8 pi), 50 nH a metre of wire.
                CoilResult made = CoilCalculator.Compute(moved.Geometry, hertz);
                Assert.Equal(1, made.InductanceAtFrequencyH!.Value / other, 1e-6);
                Assert.Equal(1, (made.InductanceH + made.LeadInductanceH) / moved.LowFrequencyH, 1e-12);
                Assert.InRange(moved.LowFrequencyH - other, 0, 50e-9 * made.WireLengthM);
                Assert.Equal((g.Turns, g.DiameterM, g.WireM), (moved.Geometry.Turns, moved.Geometry.DiameterM, moved.Geometry.WireM));
                // Pressed together it has more inductance.
                Assert.Equal(other > henries, moved.Geometry.LengthM < g.LengthM);
            }
        }

        Assert.True(wound > 30, $"{wound} of 60 are wound");
    }

    // Dipoles: eight times weaker at twice the distance (within what the coils' own size leaves), and the same from either side.
    [Fact]
    public void ParallelCoils_fall_with_the_third_power_and_are_reciprocal()
    {
        (int, double, double) a = (4, 8e-3, 6e-3), b = (6, 6e-3, 9e-3);
        double near = MutualInductance.ParallelCoils(a, b, 60e-3), far = MutualInductance.ParallelCoils(a, b, 120e-3);
        Assert.Equal(8, near / far, 0.3);
        Assert.Equal(near, MutualInductance.ParallelCoils(b, a, 60e-3), Math.Abs(near) * 1e-9);
    }

    [Theory]
    [InlineData("pass", 0, 0, 2.5)]
    [InlineData("pass", 145e6, 144e6, 2.5)]
    [InlineData("pass", 145e6, 146e6, 0)]
    [InlineData("pass", 145e6, 146e6, double.NaN)]
    [InlineData("pass", 100e6, 151e6, 2.5)]
    [InlineData("pass", 0.5e6, 0.6e6, 2.5)]
    [InlineData("pass", 145e6, double.PositiveInfinity, 2.5)]
    public void Faults_of_a_pass_band_that_cannot_be_name_it(string key, double from, double to, double loss)
    {
        DesignFault fault = DesignCheck.Faults(DemoRequirement.Question with
        {
            PassFromHz = from,
            PassToHz = to,
            MostLossDb = loss,
            Reject = [],
        })[0];
        Assert.Equal(key, fault.Key);
        Assert.NotEmpty(fault.What);
        Assert.NotEmpty(fault.Remedy);
    }

    // IEC 60063 has series of 3, 6, 12 ... 192 values and no other.
    [Theory]
    [InlineData(7)]
    [InlineData(0)]
    [InlineData(-24)]
    public void Faults_of_a_series_that_there_is_not_names_those_that_there_are(int series)
    {
        DesignFault fault = Assert.Single(DesignCheck.Faults(DemoRequirement.Question with
        {
            Parts = DemoRequirement.Question.Parts with { Series = series },
        }));
        Assert.Equal("parts", fault.Key);
        Assert.Contains("E24", fault.Remedy, StringComparison.Ordinal);
    }
}
