using System.Numerics;
using CsCheck;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using static Spurless.Circuits.Tests.Touchstone.TouchstoneFiles;

namespace Spurless.Circuits.Tests.Measured;

public sealed class MeasuredTwoPortTests
{
    private static readonly Gen<Complex> AnyWave = Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1]).Select((a, b) => new Complex(a, b));

    [Fact]
    public void At_between_points_runs_straight_through_the_complex_plane()
    {
        MeasuredTwoPort measured = MeasuredTwoPort.From(
            TouchstoneData.Create("a.s1p", 1, [100e6, 200e6], [Wave(new Complex(1, 0)), Wave(new Complex(0, 1))], [new Complex(50, 0)]));

        // A quarter of the way from 1 to j: 0.75 + 0.25j (hand).
        Near(new Complex(0.75, 0.25), measured.At(125e6).S11, 1e-12);
        Assert.Equal(new Complex(0, 1), measured.At(200e6).S11);
    }

    [Fact]
    public void At_points_gives_the_points()
    {
        MeasuredTwoPort measured = MeasuredTwoPort.From(Good("odd/series_coil_uneven_steps.s2p"));
        for (int i = 0; i < measured.Points.Length; i++)
        {
            Assert.Equal(measured.Points[i], measured.At(measured.FrequenciesHz[i]));
        }
    }

    [Fact]
    public void At_outside_the_sweep_names_the_missing_span()
    {
        MeasuredTwoPort measured = MeasuredTwoPort.From(Good("measured/hot_load.s1p"));
        Assert.Equal(40e6, measured.LowestHz);
        Assert.Equal(200e6, measured.HighestHz);
        Assert.False(measured.TryAt(39.999e6, out _));
        Assert.False(measured.TryAt(double.NaN, out _));
        Assert.Null(measured.MissingSpan(40e6, 200e6));
        Assert.Equal(
            "hot_load.s1p was measured from 40 MHz to 200 MHz; 30 MHz to 40 MHz and 200 MHz to 466.1 MHz is missing",
            measured.MissingSpan(30e6, 466.1e6));
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => measured.At(466.1e6));
        Assert.Contains("466.1 MHz", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Passivity_of_measured_loads()
    {
        Assert.True(MeasuredTwoPort.From(Good("measured/hot_load.s1p")).Passivity.IsPassive);
        MeasuredTwoPort open = MeasuredTwoPort.From(Good("measured/open_behind_cable.s1p"));
        Assert.InRange(open.Passivity.LargestSingularValue, 0.9, 1.0);
        Assert.DoesNotContain(open.Remarks, static r => r is NetworkRemark.GivesOutPower);
    }

    [Fact]
    public void Passivity_of_an_amplifier_gives_the_figure()
    {
        MeasuredTwoPort amplifier = MeasuredTwoPort.From(Good("one_network/one_way_ri.s2p"));
        Passivity passivity = amplifier.Passivity;

        // S = [1/3 0; -40/9 -1/3]: trace of S*S = 2/9 + 1600/81 = 1618/81, determinant 1/81 (hand); larger eigenvalue by the quadratic.
        double t = 1618.0 / 81, d = 1.0 / 81;
        Assert.Equal(Math.Sqrt((t + Math.Sqrt((t * t) - (4 * d))) / 2), passivity.LargestSingularValue, 1e-8);
        Assert.False(passivity.IsPassive);
        Assert.Contains(new NetworkRemark.GivesOutPower(passivity), amplifier.Remarks);
    }

    [Fact]
    public void InReference_there_and_back_is_the_same()
    {
        Gen.Select(AnyWave, AnyWave, AnyWave, AnyWave, Gen.Double[5, 500]).Sample((a, b, c, d, r) =>
        {
            ScatteringMatrix s = new(0.5 * a, 0.5 * b, 0.5 * c, 0.5 * d);
            TouchstoneData data = TouchstoneData.Create("a", 2, [1e6], [s], [new Complex(r, 7), new Complex(75, -3)]);
            MeasuredTwoPort there = MeasuredTwoPort.From(data).InReference(50);
            ScatteringMatrix back = TwoPortAlgebra.Renormalise(there.Points[0], 50, 50, new Complex(r, 7), new Complex(75, -3))!.Value;
            Near(s.S11, back.S11, 1e-9);
            Near(s.S12, back.S12, 1e-9);
            Near(s.S21, back.S21, 1e-9);
            Near(s.S22, back.S22, 1e-9);
        });
    }

    [Fact]
    public void InReference_of_a_one_port_keeps_its_impedance()
    {
        // 74.25 ohm at -4 degrees (Touchstone specification, example with reference 20 ohm).
        MeasuredTwoPort z = MeasuredTwoPort.From(Good("standard/z_ma_reference_20.ts")).InReference(50);
        Complex s = z.Points[0].S11;
        Near(Polar(74.25, -4), 50 * (1 + s) / (1 - s), 1e-9);
        Assert.Equal(50, z.Reference1.Real);
    }

    [Fact]
    public void InReference_of_no_impedance_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MeasuredTwoPort.From(Good("measured/hot_load.s1p")).InReference(0));

    private static ScatteringMatrix Wave(Complex s11) => new(s11, 0, 0, 0);
}
