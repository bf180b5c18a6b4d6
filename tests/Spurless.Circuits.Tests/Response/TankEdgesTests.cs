using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Solving;

namespace Spurless.Circuits.Tests.Response;

/// <summary>The figures of a pass-band against closed forms of one resonator, and of several against a plain scan.</summary>
public sealed class TankEdgesTests
{
    /// <summary>
    /// A shunt tank between equal ports: <c>S21 = 1/(1 + g + j Z0 B/2)</c>, g = Z0 G/2, <c>B = wC - 1/(wL)</c>. The response is n dB under
    /// its peak where <c>Z0 B/2 = +-(1 + g) sqrt(10^(n/10) - 1)</c>, a quadratic in w; the delay at resonance is <c>Z0 C/(1 + g)</c>, the
    /// return loss <c>20 lg((1 + g)/g)</c> (by hand).
    /// </summary>
    [Fact]
    public void Find_of_a_shunt_tank_has_its_closed_form() =>
        Gen.Select(Gen.Double[5e6, 300e6], Gen.Double[2, 60], Gen.Double[300, 20_000], Gen.Double[10, 200]).Sample((f0, q, ohm, z0) =>
        {
            double w0 = 2 * Math.PI * f0, c = 2 * q / (z0 * w0), l = 1 / (w0 * w0 * c);
            Circuit tank = new()
            {
                Name = "tank",
                PortIn = "a",
                PortOut = "a",
                ImpedanceOhm = z0,
                Parts =
                [
                    new Inductor { Name = "L1", From = "a", To = Circuit.Ground, Inductance = PartValue.Known(l) },
                    new Capacitor { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(c) },
                    new Resistor { Name = "R1", From = "a", To = Circuit.Ground, Resistance = PartValue.Known(ohm) },
                ],
            };
            Holds(tank, f0, z0 / (2 * ohm), z0 * c / 2);
        });

    /// <summary>The dual: a coil, a capacitor and a resistor in series, with <c>X = wL - 1/(wC)</c> over 2 Z0 in place of Z0 B/2.</summary>
    [Fact]
    public void Find_of_a_series_circuit_has_the_dual_form() =>
        Gen.Select(Gen.Double[5e6, 300e6], Gen.Double[2, 60], Gen.Double[0.05, 30], Gen.Double[10, 200]).Sample((f0, q, ohm, z0) =>
        {
            double w0 = 2 * Math.PI * f0, l = 2 * q * z0 / w0, c = 1 / (w0 * w0 * l);
            Circuit series = new()
            {
                Name = "series",
                PortIn = "a",
                PortOut = "b",
                ImpedanceOhm = z0,
                Parts =
                [
                    new Inductor { Name = "L1", From = "a", To = "m", Inductance = PartValue.Known(l) },
                    new Capacitor { Name = "C1", From = "m", To = "n", Capacitance = PartValue.Known(c) },
                    new Resistor { Name = "R1", From = "n", To = "b", Resistance = PartValue.Known(ohm) },
                ],
            };
            Holds(series, f0, ohm / (2 * z0), l / (2 * z0));
        });

    // With x = s (w - w0^2/w) the response is 1/(1 + g + jx): s is the slope of x by w at zero frequency's other end.
    private static void Holds(Circuit circuit, double f0, double g, double s)
    {
        Passband band = PassbandFinder.Find(new CircuitTwoPort(CircuitSolver.Create(circuit))).Main!;
        Assert.Equal(1, band.PeakHz / f0, 1e-6);
        Assert.Equal(20 * Math.Log10(1 + g), band.LossDb, 1e-9);
        Edge(3, band.Low3DbHz, band.High3DbHz);
        Edge(6, band.Low6DbHz, band.High6DbHz);
        Edge(60, band.Low60DbHz, band.High60DbHz);
        Assert.Equal(1, band.CentreHz!.Value / f0, 1e-9);
        Assert.Equal(0, band.RippleDb!.Value, 1e-9);
        Assert.Equal(20 * Math.Log10((1 + g) / g), band.ReturnLossDb!.Value, 1e-5);
        Assert.Equal(1, band.GroupDelayS!.Value / (2 * s / (1 + g)), 1e-5);

        void Edge(double down, double? low, double? high)
        {
            double x = (1 + g) * Math.Sqrt(Math.Pow(10, down / 10) - 1) / s, w0 = 2 * Math.PI * f0;
            double upper = (x + Math.Sqrt((x * x) + (4 * w0 * w0))) / (4 * Math.PI);
            Has(upper, high);
            Has(f0 * f0 / upper, low);
        }

        static void Has(double expected, double? found)
        {
            if (expected is > PassbandFinder.FromHz and < PassbandFinder.ToHz)
            {
                Assert.Equal(1, found!.Value / expected, 1e-8);
            }
            else
            {
                Assert.Null(found);
            }
        }
    }

    private static readonly Gen<Circuit> _filters = Gen.Select(
        Gen.Double[1.5, 6], Gen.Double[0.4, 2], Gen.Int[2, 4], Gen.Double[60, 400]).Select(static (end, coupling, tanks, q) =>
            KnownCircuits.TopCoupled(end, coupling, [.. Enumerable.Range(0, tanks).Select(i =>
                (i == 0 || i == tanks - 1 ? 34 - end : 34 - coupling) - coupling)], 35e-9, q, 145e6));

    /// <summary>
    /// Against a scan in 2 kHz steps that knows no grid, no maxima and no interpolation: only the greatest value and how far it goes.
    /// </summary>
    [Fact]
    public void Find_of_coupled_tanks_is_what_a_plain_scan_sees() => _filters.Sample(static circuit =>
    {
        const double from = 120e6, step = 2e3;
        CircuitSolver solver = CircuitSolver.Create(circuit);
        double[] hz = [.. Enumerable.Range(0, 25_001).Select(i => from + (step * i))];
        double[] db = [.. solver.Solve(hz).Select(static s => 20 * Math.Log10(s.S21.Magnitude))];
        int peak = Array.IndexOf(db, db.Max());
        Passband band = PassbandFinder.Find(new CircuitTwoPort(solver)).Main!;
        Assert.InRange(-band.LossDb, db[peak] - 1e-9, db[peak] + 1e-4);
        foreach ((double down, double? low, double? high) in new[]
        {
            (3.0, band.Low3DbHz, band.High3DbHz), (6.0, band.Low6DbHz, band.High6DbHz),
        })
        {
            // A peak of equal height elsewhere in the same pass-band may be the one that was taken: edges are those of the band about it.
            double level = -band.LossDb - down;
            int at = (int)Math.Round((band.PeakHz - from) / step), left = at, right = at;
            while (db[left] > level)
            {
                left--;
            }

            while (db[right] > level)
            {
                right++;
            }

            Assert.InRange(low!.Value, hz[left] - 1, hz[left + 1] + 1);
            Assert.InRange(high!.Value, hz[right - 1] - 1, hz[right] + 1);
        }
    }, iter: 25);

    /// <summary>
    /// A reciprocal filter has one transmission, from whichever end; a matched pad before it adds its loss and moves nothing.
    /// </summary>
    [Fact]
    public void Find_from_the_other_end_and_behind_a_pad_has_the_same_edges() => _filters.Sample(static circuit =>
    {
        // 6 dB in 50 ohm: r = Z0 (k - 1)/(k + 1) in each arm, Z0 2k/(k^2 - 1) to ground, k the voltage ratio (textbook).
        double k = Math.Pow(10, 6 / 20.0);
        Resistor Ohm(string name, string a, string b, double ohm) =>
            new() { Name = name, From = a, To = b, Resistance = PartValue.Known(ohm) };
        Circuit padded = circuit with
        {
            PortIn = "pad",
            Parts =
            [
                .. circuit.Parts,
                Ohm("P1", "pad", "mid", 50 * (k - 1) / (k + 1)),
                Ohm("P2", "mid", circuit.PortIn, 50 * (k - 1) / (k + 1)),
                Ohm("P3", "mid", Circuit.Ground, 50 * 2 * k / ((k * k) - 1)),
            ],
        };
        Passband plain = Of(circuit);
        Passband turned = Of(circuit with { PortIn = circuit.PortOut, PortOut = circuit.PortIn });
        Passband behind = Of(padded);
        Assert.Equal(plain.LossDb, turned.LossDb, 1e-9);
        Assert.Equal(plain.LossDb + 6, behind.LossDb, 1e-9);
        foreach (Passband other in new[] { turned, behind })
        {
            Assert.Equal(1, other.Low3DbHz!.Value / plain.Low3DbHz!.Value, 1e-8);
            Assert.Equal(1, other.High3DbHz!.Value / plain.High3DbHz!.Value, 1e-8);
            Assert.Equal(plain.Low60DbHz ?? 0, other.Low60DbHz ?? 0, 1e-7 * plain.PeakHz);
            Assert.Equal(plain.High60DbHz ?? 0, other.High60DbHz ?? 0, 1e-7 * plain.PeakHz);
            Assert.Equal(plain.RippleDb!.Value, other.RippleDb!.Value, 1e-6);
        }

        static Passband Of(Circuit c) => PassbandFinder.Find(new CircuitTwoPort(CircuitSolver.Create(c))).Main!;
    }, iter: 12);
}
