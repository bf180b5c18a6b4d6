using System.Globalization;
using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Touchstone;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Tests.Common;

namespace Spurless.Circuits.Tests.Response;

public sealed class ResponseTests
{
    /// <summary>The demo's filter; figures computed once outside the program by nodal analysis (design document of the demo).</summary>
    private const string Demo = """
        spurless_circuit: 1
        ports: { in: a, out: d, impedance: 50 ohm }
        parts:
          C1: { capacitor: 6.8 pF, between: [a, b],   q: 400 at 145.05 MHz }
          L1: { inductor: 27.6 nH, between: [b, gnd], q: 160 at 145.05 MHz }
          C2: { capacitor: 36 pF,  between: [b, gnd], q: 400 at 145.05 MHz }
          C3: { capacitor: 1.6 pF, between: [b, c],   q: 400 at 145.05 MHz }
          L2: { inductor: 28.6 nH, between: [c, gnd], q: 160 at 145.05 MHz }
          C4: { capacitor: 39 pF,  between: [c, gnd], q: 400 at 145.05 MHz }
          C5: { capacitor: 1.6 pF, between: [c, e],   q: 400 at 145.05 MHz }
          L3: { inductor: 27.6 nH, between: [e, gnd], q: 160 at 145.05 MHz }
          C6: { capacitor: 36 pF,  between: [e, gnd], q: 400 at 145.05 MHz }
          C7: { capacitor: 6.8 pF, between: [e, d],   q: 400 at 145.05 MHz }
        """;

    [Fact]
    public void Compute_demo_filter_has_its_figures()
    {
        ResponseResult result = ResponseCalculator.Compute(Circuit(Demo), "demo", [145.05e6]);
        Assert.Equal(2.92, result.Points[0].S.InsertionLossDb, 0.01);
        Assert.Equal(24.0, result.Points[0].S.ReturnLoss1Db, 0.1);
        Passband band = result.Passband!;
        Assert.Equal(141.217e6, band.Low3DbHz!.Value, 1e3);
        Assert.Equal(148.831e6, band.High3DbHz!.Value, 1e3);
        Assert.Equal(Math.Sqrt(141.217e6 * 148.831e6), band.CentreHz!.Value, 1e3);
        Assert.Equal(9.44e6, band.Width6DbHz!.Value, 5e3);
        Assert.Equal(117.3e6, band.Low60DbHz!.Value, 0.1e6);
        Assert.Equal(240.0e6, band.High60DbHz!.Value, 0.1e6);
        Assert.Equal((240.0 - 117.3) / (148.831 - 141.217), band.ShapeFactor60To3!.Value, 0.05);
        Assert.InRange(band.LossDb, 2.7, 2.92);
        Assert.Empty(result.FurtherPassbands);
    }

    [Theory]
    [InlineData(145.65, -2.9)]
    [InlineData(153.35, -20.1)]
    [InlineData(157.5, -29.0)]
    [InlineData(158.3, -30.3)]
    [InlineData(171.55, -44.5)]
    [InlineData(160.525, -33.7)]
    [InlineData(161.125, -34.5)]
    [InlineData(466.1, -69.6)]
    [InlineData(459.35, -69.5)]
    [InlineData(94.2, -89.6)]
    [InlineData(148.6125, -5.4)]
    [InlineData(152.175, -16.8)]
    [InlineData(391.7, -68.7)]
    [InlineData(121.85, -56.3)]
    [InlineData(430.9125, -69.2)]
    [InlineData(165.8375, -39.7)]
    [InlineData(50.85, -138)]
    public void Compute_demo_filter_at_the_demo_s_carriers(double megahertz, double decibels)
    {
        ResponseResult result = ResponseCalculator.Compute(Circuit(Demo), "demo", [megahertz * 1e6]);

        // Printed to 0.1 dB, the six-metre figure to 1 dB.
        Assert.Equal(decibels, -result.Points[0].S.InsertionLossDb, decibels < -100 ? 0.5 : 0.1);
        Assert.Equal(decibels < -70, result.Remarks.Contains(new NetworkRemark.LeakageDecides(70)));
    }

    [Fact]
    public void Find_golden_filters_have_their_edges()
    {
        // Capacitively coupled tanks, elements and edges computed from the closed forms (MYJ design, from memory); edges +-0.01 MHz.
        Passband f3 = Band(
            "C1: { capacitor: 5.2235 pF, between: [a, t1] }",
            "L1: { inductor: 40 nH, between: [t1, gnd] }",
            "C2: { capacitor: 23.6460 pF, between: [t1, gnd] }",
            "C3: { capacitor: 1.1222 pF, between: [t1, t2] }",
            "L2: { inductor: 40 nH, between: [t2, gnd] }",
            "C4: { capacitor: 27.4637 pF, between: [t2, gnd] }",
            "C5: { capacitor: 1.1222 pF, between: [t2, t3] }",
            "L3: { inductor: 40 nH, between: [t3, gnd] }",
            "C6: { capacitor: 23.6460 pF, between: [t3, gnd] }",
            "C7: { capacitor: 5.2235 pF, between: [t3, b] }");
        Assert.Equal(141.98e6, f3.Low3DbHz!.Value, 1e4);
        Assert.Equal(150.35e6, f3.High3DbHz!.Value, 1e4);
        Assert.Equal(0, f3.LossDb, 1e-6);

        // Designed for 0.1 dB in the narrow-band theory.
        Assert.InRange(f3.RippleDb!.Value, 0.05, 0.15);
        Passband f2 = Band(
            "C1: { capacitor: 4.0274 pF, between: [a, t1] }",
            "L1: { inductor: 40 nH, between: [t1, gnd] }",
            "C2: { capacitor: 25.0942 pF, between: [t1, gnd] }",
            "C3: { capacitor: 0.7194 pF, between: [t1, t2] }",
            "L2: { inductor: 40 nH, between: [t2, gnd] }",
            "C4: { capacitor: 25.0942 pF, between: [t2, gnd] }",
            "C5: { capacitor: 4.0274 pF, between: [t2, b] }");
        Assert.Equal(143.56e6, f2.Low3DbHz!.Value, 1e4);
        Assert.Equal(148.57e6, f2.High3DbHz!.Value, 1e4);
    }

    [Fact]
    public void Find_chebyshev_band_pass_has_ripple_and_width_of_the_closed_form()
    {
        // 0.5 dB, n = 3: g = 1.5963, 1.0967, 1.5963; 3.0103 dB at W = 1.16749 (closed forms as in Matthaei-Young-Jones). Exact
        // band-pass transformation W = (f0/BW)|f/f0 - f0/f|, f0 = 145 MHz, BW = 10 MHz, so the width is W BW and the centre f0.
        ResponseResult result = ResponseCalculator.Compute(Chebyshev(), "c", []);
        Passband band = result.Passband!;
        Assert.Equal(0.5, band.RippleDb!.Value, 0.001);
        Assert.Equal(145e6, band.CentreHz!.Value, 1e3);

        // At 3 dB instead of 3.0103 dB: W is less by 0.0103 dB over the slope there, about 22 dB per unit of W.
        Assert.Equal(1.16749 * 10e6, band.Width3DbHz!.Value, 1e4);
    }

    [Fact]
    public void Compute_group_delay_of_a_shunt_capacitor_is_its_closed_form()
    {
        // S21 = 1/(1 + jw tau), tau = 25 ohm x C: delay tau/(1 + (w tau)^2).
        const double Tau = 25 * 100e-12;
        double[] f = [1e6, 30e6, 63.66e6, 500e6];
        ResponseResult result = ResponseCalculator.Compute(
            Circuit(
                CircuitTexts.WithParts(
                    "C1: { capacitor: 100 pF, between: [a, gnd] }",
                    "W1: { line: { impedance: 50 ohm, length: 1 m, velocity: 0.66 }, between: [a, b] }")),
            "x",
            f);
        double line = 1 / (0.66 * 299792458);
        foreach (ResponsePoint point in result.Points)
        {
            double w = 2 * Math.PI * point.FrequencyHz * Tau;
            double expected = (Tau / (1 + (w * w))) + line;
            Assert.Equal(expected, point.GroupDelayS!.Value, 1e-6 * expected);
        }

        // A low-pass has no lower edge, and so no centre. Relative to its loss at 100 kHz, which is 1e-5 dB, -3 dB are at 0.99763/(2 pi
        // tau).
        Passband band = result.Passband!;
        Assert.Null(band.Low3DbHz);
        Assert.Null(band.CentreHz);
        Assert.Null(band.Width3DbHz);
        Assert.Null(band.ShapeFactor60To3);
        Assert.Equal(Math.Sqrt(Math.Pow(10, 0.3) - 1) / (2 * Math.PI * Tau), band.High3DbHz!.Value, 1e3);
    }

    [Fact]
    public void Compute_further_pass_bands_of_a_quarter_wave_stub()
    {
        // Shorted stub of 10 ohm, a quarter wave at 145 MHz: passes at 145, 435 and 725 MHz; S21 = 1/(1 - j 25/(10 tan t)), 3 dB where
        // tan t = 2.5/sqrt(10^0.3 - 1).
        double length = 299792458 / 145e6 / 4;
        ResponseResult result = ResponseCalculator.Compute(
            Circuit(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"spurless_circuit: 1\nports: {{ in: a, out: a }}\nparts:\n  W1: {{ line: {{ impedance: 10 ohm, "
                        + $"length: {length} m }}, between: [a, gnd], end: short }}\n")),
            "x",
            []);
        Assert.Equal(145e6, result.Passband!.PeakHz, 1e3);
        Assert.Equal(145e6 * Math.Atan(2.5 / Math.Sqrt(Math.Pow(10, 0.3) - 1)) / (Math.PI / 2), result.Passband.Low3DbHz!.Value, 1e3);

        // At 1 GHz, where the search ends, it rises towards the next one at 1015 MHz.
        Assert.Equal([435, 725, 1000], result.FurtherPassbands.Select(p => Math.Round(p.PeakHz / 1e6, 2)));
    }

    [Fact]
    public void Compute_needle_of_a_pass_band_is_found()
    {
        // A series resonance of 1 mH and 1.2 fF at 145.29 MHz, Q about 1e4 in 100 ohm: width R/(2 pi L) = 100/(2 pi 1e-3) = 15.9 kHz.
        ResponseResult result = ResponseCalculator.Compute(
            Circuit(CircuitTexts.WithParts("L1: { inductor: 1 mH, between: [a, c] }", "C1: { capacitor: 0.0012 pF, between: [c, b] }")),
            "x",
            []);
        Assert.Equal(1 / (2 * Math.PI * Math.Sqrt(1e-3 * 1.2e-15)), result.Passband!.CentreHz!.Value, 200.0);
        Assert.Equal(100 / (2 * Math.PI * 1e-3) * Math.Sqrt(Math.Pow(10, 0.3) - 1), result.Passband.Width3DbHz!.Value, 10.0);
    }

    [Fact]
    public void Compute_input_impedance_is_that_of_the_network()
    {
        // 30 ohm in series with a load of 50 ohm, and an open end that is none.
        ResponseResult result = ResponseCalculator.Compute(
            Circuit(CircuitTexts.WithParts("R1: { resistor: 30 ohm, between: [a, b] }")), "x", [145e6]);
        TouchstoneFiles.Near(80, result.Points[0].InputImpedanceOhm!.Value, 1e-9);
        TouchstoneData open = TouchstoneData.Create("open.s1p", 1, [1e6], [new ScatteringMatrix(1, 0, 0, 0)], [new Complex(50, 0)]);
        Assert.Null(ResponseCalculator.Compute(MeasuredTwoPort.From(open), "open", [1e6]).Points[0].InputImpedanceOhm);
    }

    [Fact]
    public void Compute_sweep_of_a_filter_gives_the_filter_s_figures()
    {
        ITwoPort filter = Circuit(Demo);
        double[] grid = FrequencyGrid.Linear(100e6, 250e6, 1501);
        TouchstoneData data = ResponseCalculator.Compute(filter, "demo", grid).ToTouchstone();
        MeasuredTwoPort sweep = MeasuredTwoPort.From(data);
        ResponseResult measured = ResponseCalculator.Compute(sweep, "sweep", [145.05e6, 145.3e6]);

        // Steps of 0.1 MHz in a band of 7.6 MHz: the straight line departs by (phase per step)^2/8, some 1e-3 of the value.
        Assert.Equal(141.217e6, measured.Passband!.Low3DbHz!.Value, 5e3);
        Assert.Equal(148.831e6, measured.Passband.High3DbHz!.Value, 5e3);
        double exact = ResponseCalculator.Compute(filter, "demo", [145.3e6]).Points[0].GroupDelayS!.Value;
        Assert.Equal(exact, measured.Points[1].GroupDelayS!.Value, 0.005 * exact);
        Assert.Equal(grid, ResponseCalculator.DefaultFrequencies(sweep));
    }

    [Fact]
    public void Compute_outside_a_sweep_names_the_missing_span()
    {
        MeasuredTwoPort load = MeasuredTwoPort.From(TouchstoneFiles.Good("measured/hot_load.s1p"));
        string? problem = ResponseCalculator.Refuse(load, "hot_load.s1p", [145e6, 466.1e6])?.ToString();
        Assert.Equal(
            "hot_load.s1p was measured from 40 MHz to 200 MHz; 200 MHz to 466.1 MHz is missing; ask within the sweep, or measure further",
            problem);
        Assert.Throws<ArgumentException>(() => ResponseCalculator.Compute(load, "x", [466.1e6]));
        Assert.Contains("above 0", ResponseCalculator.Refuse(Circuit(Demo), "demo", [0])?.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Compute_one_port_has_points_and_no_pass_band()
    {
        ResponseResult result = ResponseCalculator.Compute(
            MeasuredTwoPort.From(TouchstoneFiles.Good("measured/hot_load.s1p")), "x", [100e6]);
        Assert.Equal((1, true, true), (result.Ports, result.Passband is null, result.Points[0].GroupDelayS is null));
        Assert.Single(result.References);
    }

    [Fact]
    public void Compute_amplifier_s_sweep_is_marked_as_not_passive()
    {
        ResponseResult result = ResponseCalculator.Compute(
            MeasuredTwoPort.From(TouchstoneFiles.Good("one_network/one_way_ri.s2p")), "x", [1e9]);
        Assert.Contains(result.Remarks, static r => r is NetworkRemark.GivesOutPower);
    }

    [Fact]
    public void Compute_leakage_caps_the_rejection()
    {
        ResponseResult result = ResponseCalculator.Compute(Circuit(Demo + "\nleakage: 60 dB"), "demo", [50.85e6, 145.05e6]);
        Assert.Equal(60, result.Points[0].S.InsertionLossDb, 1e-9);
        Assert.Equal(2.92, result.Points[1].S.InsertionLossDb, 0.01);
        Assert.Null(result.Passband!.Low60DbHz);
    }

    [Fact]
    public void Logarithmic_steps_are_of_one_ratio_and_end_exactly()
    {
        double[] grid = FrequencyGrid.Logarithmic(1e6, 1e9, 4);
        Assert.Equal([1e6, 1e7, 1e8, 1e9], grid.Select(x => Math.Round(x, 3)));
        Assert.Equal(1e9, grid[^1]);
    }

    private static CircuitTwoPort Circuit(string text) => new(CircuitSolver.Create(CircuitTexts.Good(text).Circuit));

    private static Passband Band(params string[] parts) =>
        ResponseCalculator.Compute(Circuit(CircuitTexts.WithParts(parts)), "x", []).Passband!;

    private static CircuitTwoPort Chebyshev()
    {
        const double F0 = 145e6, Bw = 10e6;
        double[] g = [1.5963, 1.0967, 1.5963];
        double series = g[0] * 50 / (2 * Math.PI * Bw);
        double shunt = g[1] / (50 * 2 * Math.PI * Bw);
        double w2 = Math.Pow(2 * Math.PI * F0, 2);
        Part L(string name, string from, string to, double h) =>
            new Inductor { Name = name, From = from, To = to, Inductance = PartValue.Known(h) };
        Part C(string name, string from, string to, double f) =>
            new Capacitor { Name = name, From = from, To = to, Capacitance = PartValue.Known(f) };
        return new CircuitTwoPort(CircuitSolver.Create(new Circuit
        {
            Name = "c",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                L("L1", "a", "x", series), C("C1", "x", "m", 1 / (w2 * series)),
                C("C2", "m", "gnd", shunt), L("L2", "m", "gnd", 1 / (w2 * shunt)),
                L("L3", "m", "y", series), C("C3", "y", "b", 1 / (w2 * series)),
            ],
        }));
    }
}
