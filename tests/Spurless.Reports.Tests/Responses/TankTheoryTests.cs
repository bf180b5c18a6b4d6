using System.Globalization;
using System.Numerics;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Reports.Responses;
using Spurless.Reports.Tests.Whole;
using Spurless.Sites.Responses;

namespace Spurless.Reports.Tests.Responses;

/// <summary>
/// What is said of circuits whose theory is closed: a tank across a line, B = w C - 1 / (w L), has S21 = 2 / (2 + j B Z0). It is 3 dB down
/// where |B| Z0 = 2, that is at w = (sqrt(1 + C Z0^2 / L) -+ 1) / (C Z0), and lossless where B is 0.
/// </summary>
public sealed class TankTheoryTests
{
    private const double Z0 = 50;

    [Fact]
    public void Band_of_a_tank_is_that_of_theory() =>
        Gen.Select(Gen.Double[100e6, 300e6], Gen.Double[3, 12]).Sample(static (hertz, loaded) =>
        {
            // Loaded by 25 ohm: Q = w C 25.
            double farads = loaded / (2 * Math.PI * hertz * Z0 / 2), henries = 1 / (Math.Pow(2 * Math.PI * hertz, 2) * farads);
            Dictionary<string, double> said = Figures(Tank(farads, henries), hertz);

            double root = Math.Sqrt(1 + (farads * Z0 * Z0 / henries)), low = (root - 1) / (farads * Z0) / (2 * Math.PI),
            high = (root + 1) / (farads * Z0) / (2 * Math.PI);

            // At the exact half power, 3.0103 dB, it would be; at 3 dB it is a third of a per cent of the width nearer.
            double off = (0.004 * (high - low) / 1e6) + 0.0006;
            Assert.Equal(low / 1e6, said["lower point 3 dB down"], off);
            Assert.Equal(high / 1e6, said["upper point 3 dB down"], off);
            Assert.Equal((high - low) / 1e6, said["width 3 dB down"], 2 * off);
            Assert.Equal(hertz / 1e6, said["at"], 0.02 * hertz / 1e6 / loaded);
            Assert.InRange(said["least loss"], 0, 0.011);

            // 6 dB down |B| Z0 = 2 sqrt 3: the root of three times as wide.
            Assert.Equal(Math.Sqrt(Math.Pow(10, 0.6) - 1), said["width 6 dB down"] / said["width 3 dB down"], 0.02);
        },
        iter: 30);

    // The delay of a single tank at its middle is 2 Q / w.
    [Fact]
    public void Delay_at_the_middle_of_a_tank_is_twice_its_q_over_the_angular_frequency() =>
        Gen.Select(Gen.Double[100e6, 300e6], Gen.Double[4, 12]).Sample(static (hertz, loaded) =>
        {
            double farads = loaded / (2 * Math.PI * hertz * Z0 / 2), henries = 1 / (Math.Pow(2 * Math.PI * hertz, 2) * farads);
            double said = Figures(Tank(farads, henries), hertz)["group delay at the centre"];
            Assert.Equal(2 * loaded / (2 * Math.PI * hertz) * 1e9, said, 0.06 + (0.02 * said));
        },
        iter: 20);

    // What the page prints in its table is what the network has there.
    [Fact]
    public async Task Table_of_the_page_is_the_network_itself()
    {
        ResponseAnswer answer = Answered.Response.Value;
        PrintedTable table = PrintedTable.OfPage(await Answered.PageOf("response")).Single(static t => t.Heads[0] == "MHz");
        Assert.True(table.Rows.Count > 12);
        foreach (string[] row in table.Rows)
        {
            double hertz = 1e6 * double.Parse(row[0], CultureInfo.InvariantCulture);
            Spurless.Circuits.TwoPorts.ScatteringMatrix s = answer.Network.At(hertz);
            Complex z = Z0 * (1 + s.S11) / (1 - s.S11);
            Near(20 * Math.Log10(s.S21.Magnitude), row[table.Column("gain, dB")]);
            Near(-20 * Math.Log10(s.S11.Magnitude), row[table.Column("return loss, dB")]);
            string[] parts = row[table.Column("input impedance, \u03A9")].Replace('\u2212', '-').Split(' ');
            Near(z.Real, parts[0]);
            Near(z.Imaginary, parts[1] + parts[2].TrimStart('j'));
        }

        static void Near(double value, string cell)
        {
            (double printed, double digit) = PrintedTable.Figure(cell)!.Value;
            Assert.Equal(value, printed, (0.5001 * digit) + 1e-9);
        }
    }

    private static Circuit Tank(double farads, double henries) => new()
    {
        Name = "tank",
        PortIn = "a",
        PortOut = "a",
        Parts =
        [
            new Capacitor { Name = "C", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(farads) },
            new Inductor { Name = "L", From = "a", To = Circuit.Ground, Inductance = PartValue.Known(henries) },
        ],
    };

    private static Dictionary<string, double> Figures(Circuit circuit, double near)
    {
        CircuitTwoPort network = new(CircuitSolver.Create(circuit));
        ResponseView view = new(new ResponseAnswer
        {
            Result = ResponseCalculator.Compute(network, circuit.Name, ResponseCalculator.DefaultFrequencies(network, near)),
            Network = network,
            Circuit = circuit,
        });
        return view.BandFigures.Where(static f => PrintedTable.Figure(f.Value) is not null)
            .GroupBy(static f => f.What).ToDictionary(static g => g.Key, static g => PrintedTable.Figure(g.First().Value)!.Value.Value);
    }
}
