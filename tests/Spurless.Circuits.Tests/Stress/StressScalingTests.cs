using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tests.Solving;

namespace Spurless.Circuits.Tests.Stress;

/// <summary>What power does to a linear circuit, and what a limit means, whatever the circuit is.</summary>
public sealed class StressScalingTests
{
    private static readonly Gen<(Circuit Circuit, double Hertz)> _cases =
        Gen.Select(RandomCircuits.Of(new(Lossy: true, Lines: true, Couplings: true, Transformers: true), 6), RandomCircuits.Frequency);

    private static readonly Gen<StressLoad> _loads = Gen.Select(Gen.Int[0, 2], Gen.Double[1, 300], Gen.Double[-200, 200]).Select(
        static (kind, re, im) => kind switch
        {
            0 => StressLoad.Matched,
            1 => StressLoad.Impedance(new(re, im)),
            _ => StressLoad.Swr(1 + (re / 60)),
        });

    /// <summary>k times the power: sqrt k times every voltage and current, k times all heat; limits are powers and stay.</summary>
    [Fact]
    public void TryRun_with_more_power_scales() => Gen.Select(_cases, _loads, Gen.Double[0.01, 200]).Sample(static (c, load, k) =>
    {
        StressResult one = Run(c.Circuit, new(5, c.Hertz, load)), more = Run(c.Circuit, new(5 * k, c.Hertz, load));
        Assert.Equal(1, more.DeliveredW / (k * one.DeliveredW), 1e-9);
        Assert.Equal(k * one.DissipatedW, more.DissipatedW, 1e-9 * k);
        Assert.Equal(k * one.ReflectedW, more.ReflectedW, 1e-9 * k);
        foreach ((PartStress a, PartStress b) in one.Parts.Zip(more.Parts))
        {
            Assert.Equal(Math.Sqrt(k) * a.PeakVoltageV, b.PeakVoltageV, 1e-9 * (1 + b.PeakVoltageV));
            Assert.Equal(Math.Sqrt(k) * a.RmsCurrentA, b.RmsCurrentA, 1e-9 * (1 + b.RmsCurrentA));
            Assert.Equal(k * a.DissipationW, b.DissipationW, 1e-9 * (1 + b.DissipationW));
            Assert.Equal(a.LimitPowerW is null, b.LimitPowerW is null);
            Assert.True(a.LimitPowerW is not { } limit || Math.Abs((b.LimitPowerW!.Value / limit) - 1) < 1e-9);
        }
    }, iter: 40);

    /// <summary>Just under the safe power every part keeps its limit; just over it the one that gives first does not.</summary>
    [Fact]
    public void TryRun_at_the_safe_power_is_the_edge() => Gen.Select(_cases, _loads).Sample(static (c, load) =>
    {
        StressResult one = Run(c.Circuit, new(5, c.Hertz, load));
        if (one.SafePowerW is not { } safe || safe > 1e9)
        {
            return;
        }

        Assert.True(Run(c.Circuit, new(safe * (1 - 1e-9), c.Hertz, load)).MayTransmit);
        StressResult over = Run(c.Circuit, new(safe * (1 + 1e-9), c.Hertz, load));
        Assert.False(over.MayTransmit);
        Assert.True(over.Parts.Single(p => p.Part == one.GivesFirst!.Part).Exceeded);
        Assert.Equal(one.GivesFirst!.Part, over.GivesFirst!.Part);
    }, iter: 40);

    /// <summary>A standing wave of ratio 1 is the matched load; a worse one bears no part less.</summary>
    [Fact]
    public void TryRun_with_a_worse_standing_wave_bears_no_part_less() => Gen.Select(_cases, Gen.Double[1, 6]).Sample(static (c, swr) =>
    {
        StressResult matched = Run(c.Circuit, new(5, c.Hertz, StressLoad.Matched)),
            none = Run(c.Circuit, new(5, c.Hertz, StressLoad.Swr(1)));
        StressResult some = Run(c.Circuit, new(5, c.Hertz, StressLoad.Swr(swr))),
            worse = Run(c.Circuit, new(5, c.Hertz, StressLoad.Swr(swr + 1)));
        for (int i = 0; i < matched.Parts.Count; i++)
        {
            Assert.Equal(matched.Parts[i].PeakVoltageV, none.Parts[i].PeakVoltageV, 1e-9);
            Assert.Equal(matched.Parts[i].DissipationW, none.Parts[i].DissipationW, 1e-9);

            // The worst phase is looked for in steps of half a degree: a ten thousandth.
            Assert.True(some.Parts[i].PeakVoltageV <= worse.Parts[i].PeakVoltageV * (1 + 1e-4) + 1e-9);
            Assert.True(some.Parts[i].RmsCurrentA <= worse.Parts[i].RmsCurrentA * (1 + 1e-4) + 1e-9);
            Assert.True(some.Parts[i].PeakVoltageV >= matched.Parts[i].PeakVoltageV * (1 - 1e-4) - 1e-9);
        }

        Assert.False(none.WorstPhasePartByPart);
        Assert.Equal(matched.DissipatedW, none.DissipatedW, 1e-9);
    }, iter: 15);

    /// <summary>What is delivered is the transducer gain between the port and the load, straight from the S-parameters.</summary>
    [Fact]
    public void TryRun_delivers_the_transducer_gain() => Gen.Select(_cases, Gen.Double[1, 300], Gen.Double[-200, 200]).Sample(
        static (c, re, im) =>
        {
            StressResult r = Run(c.Circuit, new(1, c.Hertz, StressLoad.Impedance(new(re, im))));
            var s = CircuitSolver.Create(c.Circuit).Solve([c.Hertz])[0];
            Complex z = new(re, im), g = (z - 50) / (z + 50);
            double gain = (1 - (g.Magnitude * g.Magnitude)) * Math.Pow((s.S21 / (1 - (s.S22 * g))).Magnitude, 2);
            double back = Math.Pow((s.S11 + (s.S12 * s.S21 * g / (1 - (s.S22 * g)))).Magnitude, 2);
            Assert.Equal(gain, r.DeliveredW, 1e-8);
            Assert.Equal(back, r.ReflectedW, 1e-8);
        });

    private static StressResult Run(Circuit c, StressRequest request)
    {
        StressResult? r = StressAnalysis.TryRun(CircuitSolver.Create(c), request, out CircuitFault? fault);
        Assert.True(r is not null, fault?.ToString());
        return r;
    }
}
