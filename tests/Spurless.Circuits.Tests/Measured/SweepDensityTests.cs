using System.Numerics;
using CsCheck;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Measured;

/// <summary>Sweeps with too few points are said to be such; between points a long cable is no worse than a short one.</summary>
public sealed class SweepDensityTests
{
    [Fact]
    public void At_between_points_of_a_long_cable_is_the_cable()
    {
        // 20 m, velocity 0.66: 101.1 ns, 36 degrees a megahertz; 5 dB. A straight line between points would be 4.9 % short in the middle.
        double delay = 20 / (0.66 * 299792458.0), loss = Math.Pow(10, -0.25);
        Complex Cable(double f) => Complex.FromPolarCoordinates(loss, -2 * Math.PI * f * delay);
        double[] f = [.. Enumerable.Range(100, 101).Select(static i => i * 1e6)];
        MeasuredTwoPort measured = Of(f, v => new ScatteringMatrix(0, Cable(v), Cable(v), 0));
        Assert.InRange((measured.At(145.5e6).S21 - Cable(145.5e6)).Magnitude, 0, 1e-9);
        Assert.Equal(delay, measured.Delays.FirstS + measured.Delays.SecondS, 1e-14);
        Assert.True(measured.Density.Suffices);

        // An open end behind it: twice the delay in its reflection.
        MeasuredTwoPort open = MeasuredTwoPort.From(TouchstoneData.Create("a.s1p", 1, [.. f],
            [.. f.Select(v => new ScatteringMatrix(Cable(v) * Cable(v), 0, 0, 0))], [new Complex(50, 0)]));
        Assert.InRange((open.At(145.5e6).S11 - (Cable(145.5e6) * Cable(145.5e6))).Magnitude, 0, 1e-9);
    }

    [Fact]
    public void At_between_points_stays_passive()
    {
        Gen<Complex> wave = Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1]).Select(static (a, b) => new Complex(a, b));
        Gen.Select(wave, wave, wave, wave).Array[4].Sample(raw =>
        {
            ScatteringMatrix[] points = [.. raw.Select(static r =>
            {
                ScatteringMatrix s = new(r.Item1, r.Item2, r.Item3, r.Item4);
                double most = Math.Max(1, s.LargestSingularValue);
                return new ScatteringMatrix(s.S11 / most, s.S12 / most, s.S21 / most, s.S22 / most);
            })];
            MeasuredTwoPort measured = MeasuredTwoPort.From(TouchstoneData.Create("a.s2p", 2, [1e8, 1.1e8, 1.2e8, 1.3e8], [.. points],
                [new Complex(50, 0)]));
            for (double f = 1e8; f < 1.3e8; f += 0.7e6)
            {
                Assert.InRange(measured.At(f).LargestSingularValue, 0, 1 + 1e-9);
            }
        });
    }

    [Fact]
    public void Duplexer_swept_in_half_megahertz_steps_is_too_sparse_for_its_notch_and_says_in_which_steps()
    {
        CircuitTwoPort duplexer = Duplexer();
        MeasuredTwoPort sparse = Swept(duplexer, 0.5e6), dense = Swept(duplexer, 10e3);
        NetworkRemark.NarrowNotches remark = Assert.Single(sparse.Density.Remarks.OfType<NetworkRemark.NarrowNotches>());
        Assert.Contains(remark.Notches, static n => n is { FromHz: 145e6 } or { ToHz: 145e6 });
        Assert.InRange(remark.StepHz, 1e3, 0.25e6);
        Assert.Contains(remark, ResponseCalculator.Compute(sparse, "d", [145.1e6]).Remarks);
        Assert.DoesNotContain(dense.Density.Remarks, static r => r is NetworkRemark.NarrowNotches);

        // What it would have misled to: between the points the sparse sweep is over 10 dB off, the dense one is not.
        double truth = duplexer.At(145.05e6).InsertionLossDb;
        Assert.InRange(Math.Abs(sparse.At(145.05e6).InsertionLossDb - truth), 10, 100);
        Assert.InRange(Math.Abs(dense.At(145.05e6).InsertionLossDb - truth), 0, 0.5);
    }

    [Fact]
    public void Noise_in_the_instruments_floor_is_no_notch()
    {
        // One pole that falls to -80 dB, and a floor of -75 dB of noise.
        Random random = new(3);
        double[] f = [.. Enumerable.Range(0, 401).Select(static i => 100e6 + (0.25e6 * i))];
        Complex Noise() => Complex.FromPolarCoordinates(Math.Sqrt(-Math.Log(1 - random.NextDouble())) * Math.Pow(10, -75 / 20.0),
            2 * Math.PI * random.NextDouble());
        MeasuredTwoPort measured = Of(f, v =>
        {
            Complex pole = 1 / Complex.Pow(new Complex(1, (v - 150e6) / 2e6), 3);
            return new ScatteringMatrix(0.1, pole + Noise(), pole + Noise(), 0.1);
        });
        Assert.Empty(measured.Density.Remarks);
    }

    [Fact]
    public void Phase_that_turns_too_far_from_point_to_point_is_said()
    {
        // A resonator 1 MHz wide in steps of 1 MHz: its phase turns by 63 degrees from 144 to 145 MHz, of which a line's delay explains
        // little.
        double[] f = [.. Enumerable.Range(0, 41).Select(static i => 125e6 + (1e6 * i))];
        MeasuredTwoPort measured = Of(f, static v => new ScatteringMatrix(0, 1 / new Complex(1, (v - 145e6) / 0.5e6),
            1 / new Complex(1, (v - 145e6) / 0.5e6), 0));
        NetworkRemark.PhaseTurns remark = Assert.IsType<NetworkRemark.PhaseTurns>(Assert.Single(measured.Density.Remarks));
        Assert.True(remark.OfTransmission);
        Assert.InRange(remark.Degrees, 50, 69);
        Assert.InRange(remark.FromHz, 144e6, 145e6);
        Assert.Equal(1e6, remark.ToHz - remark.FromHz);
    }

    private static MeasuredTwoPort Of(double[] f, Func<double, ScatteringMatrix> s) =>
        MeasuredTwoPort.From(TouchstoneData.Create("a.s2p", 2, [.. f], [.. f.Select(s)], [new Complex(50, 0)]));

    private static MeasuredTwoPort Swept(CircuitTwoPort network, double stepHz) =>
        Of([.. Enumerable.Range(0, (int)Math.Round(10e6 / stepHz) + 1).Select(i => 140e6 + (i * stepHz))], network.At);

    // A notch cavity of high Q across the line, with the coil that brings the pass-band to 600 kHz above: an invented duplexer's branch.
    private static CircuitTwoPort Duplexer()
    {
        const double Henries = 2e-6;
        double w = 2 * Math.PI * 145e6, farads = 1 / (w * w * Henries), up = 2 * Math.PI * 145.6e6;
        double reactance = (up * Henries) - (1 / (up * farads));
        Part L(string name, string from, string to, double h, double q) =>
            new Inductor { Name = name, From = from, To = to, Inductance = PartValue.Known(h), Loss = PartLoss.QualityFactor(q, 145e6) };
        Part C(string name, string from, string to, double f) =>
            new Capacitor { Name = name, From = from, To = to, Capacitance = PartValue.Known(f) };
        return new CircuitTwoPort(CircuitSolver.Create(new Circuit
        {
            Name = "duplexer",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                L("L1", "a", "x", Henries, 4000), C("C1", "x", "gnd", farads), C("C2", "a", "gnd", 1 / (up * reactance)),
                new Line { Name = "W", From = "a", To = "b", FromReturn = "gnd", ToReturn = "gnd", ImpedanceOhm = 50, Length =
                    PartValue.Known(0.34), Velocity = 0.66, Loss = LineLoss.At(0.05, 145e6) },
                L("L3", "b", "y", Henries, 4000), C("C3", "y", "gnd", farads), C("C4", "b", "gnd", 1 / (up * reactance)),
            ],
        }));
    }
}
