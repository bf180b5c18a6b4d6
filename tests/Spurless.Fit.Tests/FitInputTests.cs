using System.Text;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;
using Spurless.Tests.Common;

namespace Spurless.Fit.Tests;

/// <summary>What a fit is given that says nothing, and measured one-ports.</summary>
public sealed class FitInputTests(ITestOutputHelper output)
{
    [Fact]
    public void Sweep_of_an_amplifier_is_refused()
    {
        FitSweep loud = DemoFilter.Sweep.Select(
            static t => SweepTrace.Of(t.Parameter, [.. t.Values.Select(v => t.Parameter == SweepParameter.S21 ? 10 * v : v)]));
        Assert.Null(CircuitFit.TryRun(DemoFilter.Traced, loud, new FitOptions(), out Refusal? problem));
        Assert.Contains("passive", problem!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Circuit_without_anything_unknown_is_refused()
    {
        Assert.Null(CircuitFit.TryRun(DemoFilter.ThreeTanks, DemoFilter.Sweep, new FitOptions(), out Refusal? problem));
        Assert.Contains("nothing in the circuit is unknown", problem!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Sweep_without_a_common_frequency_is_refused()
    {
        TwoPortBlock block = new()
        {
            Name = "N1",
            From = "b",
            To = "c",
            Source = MeasuredTwoPort.From(DemoFilter.Touchstone("# MHz S RI R 50\n1 0 0 1 0 1 0 0 0\n2 0 0 1 0 1 0 0 0\n")),
        };
        Circuit circuit = new()
        {
            Name = "block",
            PortIn = "a",
            PortOut = "c",
            Parts =
            [
                new Capacitor { Name = "C1", From = "a", To = "b", Capacitance = PartValue.Unknown() },
                new Inductor { Name = "L1", From = "b", To = Circuit.Ground, Inductance = PartValue.Known(1e-6) },
                block,
            ],
        };
        Assert.Null(CircuitFit.TryRun(circuit, DemoFilter.Sweep, new FitOptions(), out Refusal? problem));
        Assert.Contains("no frequency in common", problem!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Sweep_of_something_else_altogether_says_nothing()
    {
        // A low-pass of one coil.
        Circuit other = new()
        {
            Name = "other",
            PortIn = "a",
            PortOut = "b",
            Parts = [new Inductor { Name = "L", From = "a", To = "b", Inductance = PartValue.Known(80e-9) }],
        };
        FitResult result = CircuitFit.TryRun(DemoFilter.Traced, DemoFilter.Complex(other, 3), new FitOptions { Advise = false }, out _)!;
        Assert.True(result.IsStructured);
        Assert.True(result.ExplainsNothing || result.Values.Any(static v => v.OnBound), $"{result.Unexplained}");
        Assert.NotEmpty(result.Remarks);
    }

    [Fact]
    public void Sweep_with_few_points_is_refused()
    {
        Assert.Null(
            CircuitFit.TryRun(
                DemoFilter.Traced, DemoFilter.Sweep.At([.. Enumerable.Range(0, 10)]), new FitOptions(), out Refusal? problem));
        Assert.Contains("10 usable points", problem!.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("frequency_hz,s21_db\n1e6,-3\n2e6,-4\n", null)]
    [InlineData("frequency_hz,s21_db,s11_db\n1e6,-3,-10\n2e6,-4,-11\n", null)]
    [InlineData("# made\nfrequency_hz;s21_db\n1e6;-3\n", null)]
    [InlineData("frequency_hz,s11_db\n1e6,-3\n", "t.csv:1:1: there is no column 's21_db'; write the head")]
    [InlineData("frequency_hz,s21_db,phase\n1e6,-3,2\n", "t.csv:1:21: the column 'phase' is none of a sweep's; write the head")]
    [InlineData("frequency_hz,s21_db\n1e6,three\n", "t.csv:2:5: 'three'; write a magnitude in dB")]
    [InlineData("frequency_hz,s21_db\n2e6,-3\n1e6,-3\n", "t.csv:3:1: the frequency is not above the one before; sort the rows")]
    [InlineData("frequency_hz,s21_db\n", "t.csv:0:0: the sweep has no points; write a row a frequency")]
    [InlineData("frequency_hz,s21_db\n1e6,NaN\n", "t.csv:2:5: 'NaN'; write a magnitude in dB")]
    [InlineData("", "t.csv")]
    public void Table_of_magnitudes_is_read_or_told(string text, string? wrong)
    {
        DiagnosticBag diagnostics = new();
        FitSweep? sweep = MagnitudeSweepReader.Read(Encoding.UTF8.GetBytes(text), "t.csv", diagnostics);
        Assert.Equal(wrong is null, sweep is not null);
        if (wrong is not null)
        {
            Assert.StartsWith(wrong, diagnostics.InOrder()[0].ToString(), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("cool_load.s1p")]
    [InlineData("hot_load.s1p")]
    [InlineData("open_behind_cable.s1p")]
    public void Measured_load_is_met_by_a_lossy_line_and_a_few_parts(string file)
    {
        // Laboratory sweeps (tests/data/touchstone/README.md): a cable, then a termination or nothing. Port 2 hangs on a resistor that
        // nobody sees.
        bool open = file.StartsWith("open", StringComparison.Ordinal);
        Line line = new()
        {
            Name = "W1",
            From = "a",
            To = "b",
            ImpedanceOhm = 50,
            Velocity = 0.7,
            Loss = LineLoss.At(0.1, 100e6),
            Length = PartValue.Unknown(0.005, 3),
        };
        Circuit circuit = new()
        {
            Name = file,
            PortIn = "a",
            PortOut = "o",
            Parts =
            [
                line,
                new Resistor
                {
                    Name = "R1",
                    From = "b",
                    To = "c",
                    Resistance = open ? PartValue.Unknown(0.01, 1e5) : PartValue.Unknown(5, 500),
                },
                open
                    ? new Capacitor { Name = "C2", From = "c", To = Circuit.Ground, Capacitance = PartValue.Unknown(0.01e-12, 1e-9) }
                    : new Inductor { Name = "L1", From = "c", To = Circuit.Ground, Inductance = PartValue.Unknown(0.05e-9, 1e-6) },
                new Capacitor { Name = "C1", From = "b", To = Circuit.Ground, Capacitance = PartValue.Unknown(0.01e-12, 1e-9) },
                new Resistor { Name = "R9", From = "b", To = "o", Resistance = PartValue.Known(1e9) },
            ],
        };
        FitSweep sweep = FitSweep.From(DemoFilter.Touchstone(File.ReadAllText(TestData.Path("touchstone/measured/" + file)), file), 50);
        FitResult result = CircuitFit.TryRun(circuit, sweep, new FitOptions { Advise = false }, out Refusal? problem)
            ?? throw new InvalidOperationException(problem?.ToString());
        TraceFit trace = Assert.Single(result.Traces);
        output.WriteLine(
            $"{file}: left over {20 * Math.Log10(trace.Residual):F1} dB, "
                + $"noise {20 * Math.Log10(trace.Noise):F1} dB, structured {result.IsStructured}");
        output.WriteLine(string.Join('\n', result.Values.Select(static v => $"{v.Part} {v.Value:E3} {v.Low:E3} {v.High:E3}")));

        // It is called structured exactly where the residual's power is 1.4 times the noise's or more, and the model takes off most of what
        // there is.
        Assert.Equal(trace.Structure > 1.4, result.IsStructured);
        double whole = Math.Sqrt(sweep.Traces[0].Values.Average(static v => v.Magnitude * v.Magnitude));
        Assert.InRange(trace.Residual / whole, 0, 0.5);
        Assert.True(!result.IsStructured || result.Remarks.Any(static r => r is FitRemark.ErrorOfModel or FitRemark.NothingExplained));
    }

    [Fact]
    public void Fitted_file_keeps_comments_and_reads_back_to_the_same_response()
    {
        FitResult result = CircuitFit.TryRun(DemoFilter.Traced, DemoFilter.Sweep, new FitOptions { Advise = false }, out _)!;
        Assert.True(FittedFile.TryWrite(DemoFilter.Text, result, out string? edited, out Refusal? problem), problem?.ToString());
        Assert.All(
            DemoFilter.Text.Split('\n').Where(static l => l.TrimStart().StartsWith('#')),
            l => Assert.Contains(l, edited, StringComparison.Ordinal));
        Assert.Equal(10, edited.Split('\n').Count(static l => l.Contains("# 95 %: ", StringComparison.Ordinal)));
        Assert.DoesNotContain("unknown", edited[edited.IndexOf("parts:", StringComparison.Ordinal)..], StringComparison.Ordinal);
        double[] f = DemoFilter.Grid(100e6, 200e6, 51);
        foreach (
            (ScatteringMatrix a, ScatteringMatrix b) in DemoFilter.Response(DemoFilter.Read(edited), f).Zip(
                DemoFilter.Response(result.Fitted, f)))
        {
            // Six figures of each value, at a loaded Q of some 20.
            Assert.InRange((a.S21 - b.S21).Magnitude, 0, 2e-4);
        }
    }

    [Fact]
    public void Fitted_file_in_other_forms_keeps_them()
    {
        // One of every kind, in block style and with Windows' line ends.
        const string Text =
            "spurless_circuit: 1\nname: kinds\nports: { in: a, out: d }\nparts:\n  C1:\n    capacitor: "
                + "unknown   # a chip\n    range: [1 pF, 100 pF]\n    between: [a, b]\n  L1: { inductor: 30 nH, "
                    + "about: 5 %, between: [b, gnd], q: unknown at 145 MHz } # bent\n"
            + "  L2:\n    coil:\n      turns: 2\n      diameter: 7 mm\n      length: 4 mm\n      wire: 1 mm\n    between: [c, "
                + "gnd]\n  M1: { coupling: unknown, range: [0.01, 0.4], of: [L1, L2] }\n  C2: { capacitor: 33 pF, "
                    + "between: [b, gnd] }\n  C3: { capacitor: 33 pF, between: [c, gnd] }\n"
            + "  R1: { resistor: unknown, range: [100 ohm, 100 kohm], between: [b, gnd] }\n  W1: { line: { impedance: 50 ohm, "
                + "length: unknown, velocity: 0.66 }, range: [0.05 m, 1 m], between: [c, d] }\n";
        foreach (string text in (string[])[Text, Text.Replace("\n", "\r\n", StringComparison.Ordinal)])
        {
            Circuit traced = DemoFilter.Read(text);
            Circuit truth = FittedCircuit.With(
                FitUnknown.Of(traced).Circuit,
                [
                    ("C1", CircuitQuantity.CapacitanceF, 10e-12),
                    ("M1", CircuitQuantity.Coupling, 0.08),
                    ("R1", CircuitQuantity.ResistanceOhm, 5e3),
                    ("W1", CircuitQuantity.LengthM, 0.3), ("L1", CircuitQuantity.Q, 120),
                ]);
            FitResult result =
                CircuitFit.TryRun(traced, DemoFilter.Complex(truth, 8), new FitOptions { Advise = false }, out Refusal? problem)
                    ?? throw new InvalidOperationException(problem?.ToString());
            Assert.True(FittedFile.TryWrite(text, result, out string? edited, out problem), problem?.ToString());
            output.WriteLine(edited);
            Assert.Contains("# a chip", edited, StringComparison.Ordinal);
            Circuit read = DemoFilter.Read(edited);
            Assert.All(read.Parts, static p => Assert.False(p.HasUnknown));
            double[] f = DemoFilter.Grid(100e6, 200e6, 51);
            foreach ((ScatteringMatrix a, ScatteringMatrix b) in DemoFilter.Response(read, f).Zip(DemoFilter.Response(result.Fitted, f)))
            {
                Assert.InRange((a.S21 - b.S21).Magnitude, 0, 5e-4);
            }
        }
    }

    [Fact]
    public void Fitted_file_of_chosen_parts_leaves_the_rest_and_a_coil_keeps_its_geometry()
    {
        const string Text =
            "spurless_circuit: 1\nname: two\nports: { in: a, out: b }\nparts:\n  C1: { capacitor: "
                + "unknown, range: [1 pF, 100 pF], between: [a, b] }\n"
            + "  C2: { capacitor: unknown, range: [1 pF, 100 pF], between: [b, gnd] }\n"
            + "  L1: { coil: { turns: 2, diameter: 7 mm, length: 4 mm, wire: 1 mm }, about: 20 %, between: [b, gnd] }\n";
        Circuit traced = DemoFilter.Read(Text);
        Circuit truth = FittedCircuit.With(
            FitUnknown.Of(traced).Circuit, [("C1", CircuitQuantity.CapacitanceF, 10e-12), ("C2", CircuitQuantity.CapacitanceF, 22e-12)]);
        FitResult result = CircuitFit.TryRun(traced, DemoFilter.Complex(truth, 8), new FitOptions { Advise = false }, out _)!;
        HashSet<string> parts = ["C1", "L1"];
        Assert.True(FittedFile.TryWrite(Text, result, out string? edited, out _, parts, keepCoils: true));
        Assert.DoesNotContain("C1: { capacitor: unknown", edited, StringComparison.Ordinal);
        Assert.Contains("C2: { capacitor: unknown, range: [1 pF, 100 pF], between: [b, gnd] }\n", edited, StringComparison.Ordinal);
        Assert.Contains("coil: { turns: 2, diameter: 7 mm, length: 4 mm, wire: 1 mm }", edited, StringComparison.Ordinal);
        Assert.Matches(@"L1: .*# found \d+(\.\d+)? nH; 95 %: ", edited);
    }
}
