using System.Numerics;
using CsCheck;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Reports.Bench;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Bench;

/// <summary>The curve a slider redraws from, against the circuit itself.</summary>
public sealed class BenchCurveTests
{
    private static readonly CircuitTwoPort _network = new(CircuitSolver.Create(Topologies.Of("ladder")));

    private static readonly BenchCurve _curve = BenchCurve.Of(_network, 50e6, 500e6, 140e6, 165e6)!;

    [Fact]
    public void Between_its_points_it_stays_by_the_circuit() => Gen.Double[50e6, 500e6].Sample(static hertz =>
    {
        ScatteringMatrix s = _network.At(hertz);
        Assert.Equal(0, (s.S11 - _curve.Reflection(hertz)).Magnitude, 3e-3);
        double gain = 20 * Math.Log10(s.S21.Magnitude);
        Assert.Equal(gain, _curve.GainDb(hertz), 0.1);
    });

    [Fact]
    public void At_its_points_it_is_the_circuit()
    {
        Assert.Equal(BenchCurve.WidePoints, _curve.WideHz.Count);
        foreach (double hertz in _curve.WideHz.Where(static f => f is < 139e6 or > 166e6))
        {
            Assert.Equal(20 * Math.Log10(_network.At(hertz).S21.Magnitude), _curve.GainDb(hertz), 1e-6);
        }
    }

    [Theory]
    [InlineData(49e6)]
    [InlineData(501e6)]
    public void Beyond_both_ranges_nothing_is_known(double hertz)
    {
        Assert.True(double.IsNaN(_curve.GainDb(hertz)));
        Assert.True(double.IsNaN(_curve.ReturnLossDb(hertz)));
        Assert.Equal(Complex.Zero, _curve.Reflection(hertz));
    }
}
