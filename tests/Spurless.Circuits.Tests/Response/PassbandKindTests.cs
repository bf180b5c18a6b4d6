using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;

namespace Spurless.Circuits.Tests.Response;

/// <summary>Which pass-band is meant, corners, notches and lobes, against closed forms.</summary>
public sealed class PassbandKindTests
{
    private const double CornerHz = 150e6;

    // Butterworth of third order: 1/(1 + (f/fc)^6), 3 dB down at fc (10^0.3 - 1)^(1/6).
    private static readonly double _three = Math.Pow(Math.Pow(10, 0.3) - 1, 1.0 / 6);

    [Fact]
    public void Low_pass_has_a_corner_and_no_centre()
    {
        double w = 2 * Math.PI * CornerHz;
        Passband band = Find(C("C1", "a", "gnd", 1 / (w * 50)), L("L1", "a", "b", 100 / w), C("C2", "b", "gnd", 1 / (w * 50))).Passband!;
        Assert.Equal(PassbandKind.LowPass, band.Kind);
        Assert.Equal(CornerHz * _three, band.CornerHz!.Value, 1.0);
        Assert.Null(band.CentreHz);
    }

    [Fact]
    public void High_pass_has_a_corner()
    {
        double w = 2 * Math.PI * CornerHz;
        Passband band = Find(L("L1", "a", "gnd", 50 / w), C("C1", "a", "b", 1 / (w * 100)), L("L2", "b", "gnd", 50 / w)).Passband!;
        Assert.Equal(PassbandKind.HighPass, band.Kind);

        // Relative to the least loss within 1 GHz, which is 5e-5 dB.
        Assert.Equal(CornerHz / _three, band.CornerHz!.Value, 3e3);
    }

    [Fact]
    public void Notch_stands_with_frequency_and_depth()
    {
        // A trap of 1 ohm across the line: 20 lg(1 + 25/1) = 28.30 dB where it resonates.
        ResponseResult result = Find(R("R0", "a", "b", 1e-6), L("L1", "a", "x", 100e-9), C("C1", "x", "y", Tuned(100e-9, 150e6)),
            R("R1", "y", "gnd", 1));
        Notch notch = Assert.Single(result.Notches);
        Assert.Equal(150e6, notch.FrequencyHz, 20e3);
        Assert.Equal(20 * Math.Log10(26), notch.LossDb, 0.01);
        Assert.Equal(notch.LossDb - result.Passband!.LossDb, notch.DepthDb, 1e-9);
    }

    [Fact]
    public void Lobe_between_two_notches_is_no_pass_band()
    {
        // Two traps of 1.5 ohm at 150 and 159 MHz. Looked for by brute force on the closed form |1 + 25 (Y1 + Y2)|.
        ResponseResult result = Find(
            R("R0", "a", "b", 1e-6),
            L("L1", "a", "x", 100e-9), C("C1", "x", "y", Tuned(100e-9, 150e6)), R("R1", "y", "gnd", 1.5),
            L("L2", "b", "u", 100e-9), C("C2", "u", "v", Tuned(100e-9, 159e6)), R("R2", "v", "gnd", 1.5));
        double Loss(double f)
        {
            System.Numerics.Complex Y(double at)
            {
                double w = 2 * Math.PI * f;
                return 1 / new System.Numerics.Complex(1.5, (w * 100e-9) - (1 / (w * Tuned(100e-9, at))));
            }

            return 20 * Math.Log10((1 + (25 * (Y(150e6) + Y(159e6)))).Magnitude);
        }

        double least = Enumerable.Range(0, 60_001).Select(static i => 151e6 + (i * 1e2)).MinBy(Loss);
        FurtherPassband lobe = Assert.Single(result.Lobes);
        Assert.Equal(least, lobe.PeakHz, 2e3);
        Assert.Equal(Loss(least), lobe.LossDb, 0.01);
        Assert.DoesNotContain(result.FurtherPassbands, p => Math.Abs(p.PeakHz - least) < 1e6);
        Assert.Equal(2, result.Notches.Length);
    }

    [Fact]
    public void Near_picks_the_pass_band_of_the_channel_asked_for()
    {
        // A shorted quarter-wave stub passes at 145 MHz and every odd multiple, all without loss.
        Part stub = new Stub
        {
            Name = "W",
            From = "a",
            To = Circuit.Ground,
            ImpedanceOhm = 5,
            Length =
            PartValue.Known(299792458.0 / 145e6 / 4),
            Velocity = 1,
            End = StubEnd.Short
        };
        Assert.Equal(145e6, Find(R("R0", "a", "b", 1e-6), stub).Passband!.PeakHz, 1e3);
        ResponseResult near = Find(400e6, R("R0", "a", "b", 1e-6), stub);
        Assert.Equal(435e6, near.Passband!.PeakHz, 1e3);
        // At 1 GHz, where the search ends, it is on the rise again.
        Assert.Equal([145e6, 725e6, 1e9], near.FurtherPassbands.Select(static p => Math.Round(p.PeakHz / 1e4) * 1e4));
        Assert.Equal(400e6, near.NearHz);
    }

    [Fact]
    public void Frequencies_by_default_hold_the_channel_asked_for()
    {
        CircuitTwoPort network = Network(R("R0", "a", "b", 1));
        double[] f = ResponseCalculator.DefaultFrequencies(network, 145.0501e6);
        Assert.Contains(145.0501e6, f);
        Assert.Equal(f.Order(), f);
        Assert.Equal(ResponseCalculator.DefaultFrequencies(network).Length + 1, f.Length);
    }

    private static double Tuned(double henries, double hertz) => 1 / (Math.Pow(2 * Math.PI * hertz, 2) * henries);

    private static ResponseResult Find(params Part[] parts) => ResponseCalculator.Compute(Network(parts), "x", []);

    private static ResponseResult Find(double nearHz, params Part[] parts) => ResponseCalculator.Compute(Network(parts), "x", [], nearHz);

    private static CircuitTwoPort Network(params Part[] parts) =>
        new(CircuitSolver.Create(new Circuit { Name = "x", PortIn = "a", PortOut = "b", Parts = [.. parts] }));

    private static Part L(string name, string from, string to, double h) =>
        new Inductor { Name = name, From = from, To = to, Inductance = PartValue.Known(h) };

    private static Part C(string name, string from, string to, double f) =>
        new Capacitor { Name = name, From = from, To = to, Capacitance = PartValue.Known(f) };

    private static Part R(string name, string from, string to, double r) =>
        new Resistor { Name = name, From = from, To = to, Resistance = PartValue.Known(r) };
}
