using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Measured;

/// <summary>The delay in front of each port, of made networks between two lines of known length.</summary>
public sealed class PortDelaysTests
{
    private static readonly double[] Hertz = [.. Enumerable.Range(0, 201).Select(static i => 100e6 + (i * 0.5e6))];

    public static TheoryData<double, double> Lines => new()
    {
        { 0, 0 }, { 5e-9, 0 }, { 0, 12e-9 }, { 20e-9, 20e-9 }, { 33e-9, 4e-9 }, { 150e-9, 90e-9 },
    };

    /// <summary>A pad that reflects (no phase of its own) between two lines: both delays come out whole.</summary>
    [Theory]
    [MemberData(nameof(Lines))]
    public void Of_a_pad_between_two_lines_is_their_delays(double first, double second)
    {
        PortDelays found = PortDelays.Of(2, Hertz, Between(_ => new ScatteringMatrix(0.3, 0.5, 0.5, -0.2), first, second));
        Assert.Equal(first, found.FirstS, 1e-13);
        Assert.Equal(second, found.SecondS, 1e-13);
    }

    /// <summary>Matched at both ends only the sum is known, and is parted evenly.</summary>
    [Fact]
    public void Of_a_matched_line_is_half_at_each_port()
    {
        PortDelays found = PortDelays.Of(2, Hertz, Between(_ => new ScatteringMatrix(0, 0.9, 0.9, 0), 10e-9, 30e-9));
        Assert.Equal(20e-9, found.FirstS, 1e-13);
        Assert.Equal(20e-9, found.SecondS, 1e-13);
    }

    /// <summary>Of a one-port the wave goes there and back.</summary>
    [Fact]
    public void Of_one_port_is_half_the_way_there_and_back()
    {
        PortDelays found = PortDelays.Of(1, Hertz, Between(_ => new ScatteringMatrix(0.8, 0, 0, 0), 25e-9, 0));
        Assert.Equal(25e-9, found.FirstS, 1e-13);
        Assert.Equal(0, found.SecondS);
    }

    /// <summary>Taking the lines out and putting them back is nothing, and keeps every magnitude.</summary>
    [Theory]
    [MemberData(nameof(Lines))]
    public void Shift_there_and_back_is_nothing(double first, double second)
    {
        PortDelays delays = new(first, second);
        foreach (double hertz in (double[])[1e6, 145.05e6, 470e6])
        {
            ScatteringMatrix s = new(new(0.1, 0.3), new(-0.4, 0.2), new(-0.4, 0.2), new(0.05, -0.6));
            ScatteringMatrix out1 = delays.Shift(s, hertz, 1);
            ScatteringMatrix back = delays.Shift(out1, hertz, -1);
            Assert.Equal(s.S21.Magnitude, out1.S21.Magnitude, 1e-12);
            Assert.Equal(s.S11.Magnitude, out1.S11.Magnitude, 1e-12);
            Assert.Equal(s.LargestSingularValue, out1.LargestSingularValue, 1e-9);
            Assert.True((back.S11 - s.S11).Magnitude + (back.S22 - s.S22).Magnitude + (back.S21 - s.S21).Magnitude < 1e-9);
        }
    }

    /// <summary>With its lines taken out a measured pad is a constant: nothing is left to turn between points.</summary>
    [Fact]
    public void Shift_by_its_own_delays_leaves_a_pad_standing_still()
    {
        ScatteringMatrix[] points = Between(_ => new ScatteringMatrix(0.3, 0.5, 0.5, -0.2), 33e-9, 8e-9);
        PortDelays found = PortDelays.Of(2, Hertz, points);
        for (int i = 0; i < Hertz.Length; i++)
        {
            ScatteringMatrix still = found.Shift(points[i], Hertz[i], 1);
            Assert.True((still.S21 - 0.5).Magnitude < 1e-4, $"{still.S21}");
            Assert.True((still.S11 - 0.3).Magnitude < 1e-4, $"{still.S11}");
        }
    }

    [Fact]
    public void Of_two_points_or_of_nothing_is_no_delay()
    {
        Assert.Equal(default, PortDelays.Of(2, [1e6, 2e6], [ScatteringMatrix.Through, ScatteringMatrix.Through]));
        PortDelays dark = PortDelays.Of(2, Hertz, Between(_ => default, 10e-9, 10e-9));
        Assert.True(double.IsFinite(dark.FirstS) && double.IsFinite(dark.SecondS));
    }

    private static ScatteringMatrix[] Between(Func<double, ScatteringMatrix> network, double first, double second) =>
    [
        .. Hertz.Select(f =>
        {
            ScatteringMatrix s = network(f);
            Complex a = Complex.FromPolarCoordinates(1, -2 * Math.PI * f * first);
            Complex b = Complex.FromPolarCoordinates(1, -2 * Math.PI * f * second);
            return new ScatteringMatrix(s.S11 * a * a, s.S12 * a * b, s.S21 * a * b, s.S22 * b * b);
        }),
    ];
}
