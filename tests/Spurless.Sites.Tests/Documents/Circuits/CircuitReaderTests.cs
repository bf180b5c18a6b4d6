using Spurless.Circuits.Parts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;
using static Spurless.Tests.Common.CircuitTexts;

namespace Spurless.Sites.Tests.Documents.Circuits;

public sealed class CircuitReaderTests
{
    [Fact]
    public void Read_every_kind_of_part_with_every_key()
    {
        Circuit circuit = Good(Everything).Circuit;
        Assert.Equal(
            ("every kind of part", "a", "f", 75.0, 80.0),
            (circuit.Name, circuit.PortIn, circuit.PortOut, circuit.ImpedanceOhm, circuit.LeakageDb!.Value));
        Assert.Equal(["L1", "C1", "C2", "L2", "R1", "C4", "M12", "W1", "X1", "W2", "N1", "L3"], circuit.Parts.Select(p => p.Name));

        Inductor l1 = Part<Inductor>(circuit, "L1");
        Assert.Equal(
            (24e-9, 0.4e-12, 150.0, 146e6),
            (l1.Inductance.Value!.Value, l1.SelfCapacitanceF, l1.Loss!.Q!.Value.Value!.Value, l1.Loss.QFrequencyHz));
        Assert.Equal(PartTolerance.Uniform(0.05), l1.Tolerance);
        Assert.Equal(("a", "gnd"), (l1.From, l1.To));

        Capacitor c1 = Part<Capacitor>(circuit, "C1");
        Assert.Equal(0.6e-9, c1.SeriesInductanceH);
        Assert.Equal(PartTolerance.Series(24), c1.Tolerance);
        Assert.Equal(new PartRating(PeakVoltageV: 50, PowerW: 1), c1.Rated);

        Capacitor c2 = Part<Capacitor>(circuit, "C2");
        Assert.Equal(PartValue.Unknown(0.5e-12, 47e-12), c2.Capacitance);
        Assert.Equal((0.1, -30.0), (c2.About!.Value, c2.PpmPerKelvin));

        Coil l2 = Part<Coil>(circuit, "L2");
        Assert.Equal((2.0, 6e-3, 4e-3, 3e-3), (l2.Turns, l2.DiameterM, l2.LengthM, l2.LeadM));

        // 18 AWG is 1.024 mm: 0.127 mm x 92^(18/39).
        Assert.Equal(1.024e-3, l2.WireM, 1e-6);
        Assert.Equal(PartTolerance.Normal(0.01), Part<Resistor>(circuit, "R1").Tolerance);
        Assert.Equal(new PartRating(CurrentA: 2), Part<Resistor>(circuit, "R1").Rated);
        Assert.Equal(0.1, Part<Capacitor>(circuit, "C4").Loss!.SeriesResistanceOhm);

        Coupling m = Part<Coupling>(circuit, "M12");
        Assert.Equal((0.02, "L1", "L2"), (m.Coefficient.Value!.Value, m.First, m.Second));

        Line w1 = Part<Line>(circuit, "W1");
        Assert.Equal((50.0, 0.34, 0.66), (w1.ImpedanceOhm, w1.Length.Value!.Value, w1.Velocity));

        // 0.1 dB/m at 146 MHz, growing with the root: 0.2 dB/m at four times the frequency.
        Assert.Equal(0.2, w1.Loss.DbPerMetre(584e6), 1e-12);

        Transformer x1 = Part<Transformer>(circuit, "X1");
        Assert.Equal(
            (1.0, 4.0, "c", "gnd", "d", "gnd"), (x1.FirstTurns, x1.SecondTurns, x1.FirstFrom, x1.FirstTo, x1.SecondFrom, x1.SecondTo));

        Stub w2 = Part<Stub>(circuit, "W2");
        Assert.Equal((StubEnd.Short, 1.0, PartValue.Unknown(0.1, 0.5)), (w2.End, w2.Velocity, w2.Length));

        TwoPortBlock n1 = Part<TwoPortBlock>(circuit, "N1");
        Assert.Equal((100e6, 200e6), (n1.Source.LowestHz, n1.Source.HighestHz));
        Assert.Equal(PartValue.Unknown(), Part<Inductor>(circuit, "L3").Loss!.Q);
    }

    [Fact]
    public void Read_from_bytes_takes_a_byte_order_mark()
    {
        DiagnosticBag bag = new();
        byte[] bytes = [0xEF, 0xBB, 0xBF, .. System.Text.Encoding.UTF8.GetBytes(CircuitTemplate.Text)];
        using MemoryStream stream = new(bytes);
        Assert.NotNull(
            CircuitReader.Read(
                stream, "x", (string _, out Refusal? refusal) => { refusal = new Refusal("none", "none"); return null; }, bag));
    }

    [Fact]
    public void Read_template_is_a_filter_that_reads() => Assert.Equal(7, Good(CircuitTemplate.Text).Circuit.Parts.Count);

    [Fact]
    public void Read_name_may_be_left_out() =>
        Assert.Equal("x.circuit.yaml", Good(WithParts("R1: { resistor: 1 ohm, between: [a, b] }")).Circuit.Name);

    [Fact]
    public void RequireKnown_names_every_unknown_at_its_place()
    {
        CircuitDocument document = Good(Everything);
        DiagnosticBag bag = new();
        Assert.False(document.RequireKnown(bag));
        Assert.Equal(
            [
                "x.circuit.yaml:7:3: a value of C2 is unknown; give it a value, or let 'fit' find it from a sweep",
                "x.circuit.yaml:14:3: a value of W2 is unknown; give it a value, or let 'fit' find it from a sweep",
                "x.circuit.yaml:16:3: a value of L3 is unknown; give it a value, or let 'fit' find it from a sweep",
            ],
            bag.InOrder().Select(d => d.ToString()));
    }

    [Theory]
    [InlineData("L1: { inductor: 24, between: [a, b] }", "4:19", "no unit")]
    [InlineData("L1: { inductor: 24 pF, between: [a, b] }", "4:19", "write")]
    [InlineData("L1: { inductor: 0 nH, between: [a, b] }", "4:19", "'0 nH' is not above 0")]
    [InlineData("L1: { inductor: [24 nH], between: [a, b] }", "4:19", "a list")]
    [InlineData("L1: { inducter: 24 nH, between: [a, b] }", "4:9", "unknown key 'inducter'; write 'inductor'")]
    [InlineData("L1: { inductor: 24 nH, betwen: [a, b] }", "4:26", "unknown key 'betwen'; write 'between'")]
    [InlineData("L1: { between: [a, b] }", "4:7", "nothing says what kind of part this is")]
    [InlineData("L1: 24 nH", "4:7", "a single value where a part should stand")]
    [InlineData("L1: { inductor: 24 nH, capacitor: 2 pF, between: [a, b] }", "4:26", "'capacitor' makes a second kind of part")]
    [InlineData("L1: { inductor: 24 nH, between: [a] }", "4:35", "the list has 1 item")]
    [InlineData("L1: { inductor: 24 nH }", "4:7", "the key 'between' is missing")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], q: 150 }", "4:46", "does not say at what")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], q: 0 at 146 MHz }", "4:46", "above 0")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], q: 150 at 146 MHz, esr: 1 ohm }", "4:62", "two ways of saying one thing")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], esl: 1 nH }", "4:43", "unknown key 'esl'")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], range: [1 nH, 2 nH] }", "4:50", "a range beside a known value")]
    [InlineData("L1: { inductor: unknown, between: [a, b], range: [2 nH, 1 nH] }", "4:52", "not below its second")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], tolerance: 5 }", "4:54", "'5' is no tolerance")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], tolerance: E25 }", "4:54", "'E25' is no tolerance")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], tolerance: 100 % }", "4:54", "'100 %' is no tolerance")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], rated: [50 V, 3 m] }", "4:57", "'3 m' is no rating")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], rated: [50 V, 60 V] }", "4:50", "two ratings of one kind")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], ppm: 30 ppm }", "4:48", "not a plain number")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], about: 0 % }", "4:50", "not above 0 %")]
    [InlineData("L1: { coil: { turns: 2, diameter: 6 mm, length: 4 mm, wire: 99 AWG }, between: [a, b] }", "4:63", "gauge")]
    [InlineData("L1: { coil: { turns: 2, diametre: 6 mm, length: 4 mm, wire: 1 mm }, between: [a, b] }", "4:27", "write 'diameter'")]
    [InlineData("L1: { coil: { turns: 0, diameter: 6 mm, length: 4 mm, wire: 1 mm }, between: [a, b] }", "4:24", "out of range")]
    [InlineData("W1: { line: { impedance: 50 ohm, length: 1 m, velocity: 66 }, between: [a, b] }", "4:59", "out of range")]
    [InlineData("W1: { line: { impedance: 50 ohm, length: 1 m }, between: [a, gnd] }", "4:60", "what is at its far end")]
    [InlineData("W1: { line: { impedance: 50 ohm, length: 1 m }, between: [a, gnd], end: opn }", "4:75", "write 'open'")]
    [InlineData("X1: { transformer: { turns: [1, -4] }, between: [a, gnd], and: [b, gnd] }", "4:35", "out of range")]
    [InlineData("X1: { transformer: { turns: [1, 4] }, between: [a, gnd] }", "4:7", "the key 'and' is missing")]
    [InlineData("N1: { two_port: nothing.s2p, between: [a, b] }", "4:19", "there is no file 'nothing.s2p'")]
    [InlineData("N1: { two_port: load.s1p, between: [a, b] }", "4:19", "'load.s1p' has one port")]
    [InlineData("N1: { two_port: broken.s2p, between: [a, b] }", "4:19", "the sweep 'broken.s2p' cannot be used")]
    public void Read_wrong_part_says_where_and_what(string part, string place, string words)
    {
        Assert.Null(Read(WithParts(part), out IReadOnlyList<Diagnostic> findings));
        Assert.True(
            findings.Any(
                d =>
                    d.ToString().StartsWith("x.circuit.yaml:" + place + ":", StringComparison.Ordinal)
                        && d.ToString().Contains(words, StringComparison.Ordinal)),
            string.Join('\n', findings));
    }

    [Fact]
    public void Read_broken_sweep_is_reported_at_its_own_place()
    {
        Read(WithParts("N1: { two_port: broken.s2p, between: [a, b] }"), out IReadOnlyList<Diagnostic> findings);
        Assert.Contains(findings, d => d.File == "broken.s2p" && d.Line == 2);
    }

    [Fact]
    public void Read_coupling_that_cannot_be_says_where_and_what()
    {
        string[] coils =
        [
            "L1: { inductor: 24 nH, between: [a, gnd] }",
            "L2: { inductor: 24 nH, between: [b, gnd] }",
            "R1: { resistor: 1 ohm, between: [a, b] }",
        ];
        Expect([.. coils, "M1: { coupling: 1.2, of: [L1, L2] }"], "7:19", "'1.2' is no coupling coefficient");
        Expect([.. coils, "M1: { coupling: 0.2, of: [L1, R1] }"], "7:3", "M1 couples 'R1', which is no inductor");
        Expect([.. coils, "M1: { coupling: 0.2, of: [L1, L9] }"], "7:3", "M1 couples 'L9', which does not exist");
        Expect([.. coils, "M1: { coupling: 0.2, of: [L1, L1] }"], "7:3", "couples L1 with itself");
    }

    [Fact]
    public void Read_network_that_cannot_be_analysed_names_the_parts_at_their_place()
    {
        Expect(
            ["R1: { resistor: 1 ohm, between: [a, b] }", "C1: { capacitor: 1 pF, between: [b, b] }"],
            "5:3",
            "C1 has both ends on node 'b'");
        Expect(
            ["R1: { resistor: 1 ohm, between: [a, b] }", "C1: { capacitor: 1 pF, between: [b, c] }"],
            "5:3",
            "node 'c' is touched by C1 alone");
        Expect(["R1: { resistor: 1 ohm, between: [a, gnd] }"], "2:1", "port 'out' is on node 'b', which no part touches");
        Expect(
            ["R1: { resistor: 1 ohm, between: [a, gnd] }", "R2: { resistor: 1 ohm, between: [b, gnd] }"],
            "2:1",
            "no part leads from port 'in'");
        Expect(
            [
                "R1: { resistor: 1 ohm, between: [a, b] }",
                "X1: { transformer: { turns: [1, 1] }, between: [a, gnd], and: [c, d] }",
                "R2: { resistor: 1 ohm, between: [c, d] }",
            ],
            "5:3",
            "no path to ground");
    }

    [Fact]
    public void Read_head_that_is_wrong_says_where_and_what()
    {
        ExpectText(
            "spurless_circuit: 2\nports: { in: a, out: b }\nparts: { R1: { resistor: 1 ohm, between: [a, b] } }\n", "1:19", "out of range");
        ExpectText(
            "ports: { in: a, out: b }\nparts: { R1: { resistor: 1 ohm, between: [a, b] } }\n", "1:1", "'spurless_circuit' is missing");
        ExpectText("spurless_circuit: 1\nparts: { R1: { resistor: 1 ohm, between: [a, b] } }\n", "1:1", "'ports' is missing");
        ExpectText(
            "spurless_circuit: 1\nports: { in: a, out: b, impedance: 50 }\nparts: { R1: { resistor: 1 ohm, between: [a, b] } }\n",
            "2:36",
            "no unit");
        ExpectText(
            "spurless_circuit: 1\nports: { in: gnd, out: b }\nparts: { R1: { resistor: 1 ohm, between: [gnd, b] } }\n", "2:1", "on ground");
        ExpectText("spurless_circuit: 1\nports: { in: a, out: b }\nparts: {}\n", "3:8", "no parts");
        ExpectText(
            "spurless_circuit: 1\nports: { in: a, out: b }\nleakage: -3 dB\nparts: { R1: { resistor: 1 ohm, between: [a, b] } }\n",
            "3:10",
            "not above 0 dB");
        ExpectText(
            "spurless_circuit: 1\nport: { in: a, out: b }\nparts: { R1: { resistor: 1 ohm, between: [a, b] } }\n",
            "2:1",
            "unknown key 'port'; write 'ports'");
        ExpectText("", "", "");
        ExpectText("just words\n", "1:1", "a single value");
        ExpectText("spurless_circuit: 1\nports: { in: a, out: [\n", "", "");
    }

    [Fact]
    public void Read_all_errors_at_once()
    {
        Read(
            WithParts(
                "L1: { inductor: 24, between: [a, b] }",
                "C1: { capacitor: 2 nH, between: [a, gnd] }",
                "R1: { resistr: 1 ohm, between: [a, b] }"),
            out IReadOnlyList<Diagnostic> findings);
        Assert.Equal([4, 5, 6], findings.Select(d => d.Line));
    }

    private static T Part<T>(Circuit circuit, string name)
        where T : Part => Assert.IsType<T>(circuit.Parts.Single(p => p.Name == name));

    private static void Expect(string[] parts, string place, string words) => ExpectText(WithParts(parts), place, words);

    private static void ExpectText(string text, string place, string words)
    {
        Assert.Null(Read(text, out IReadOnlyList<Diagnostic> findings));
        Assert.Contains(findings, d => d.Severity == Severity.Error);
        if (place.Length > 0)
        {
            Assert.True(
                findings.Any(
                    d =>
                        d.ToString().StartsWith("x.circuit.yaml:" + place + ":", StringComparison.Ordinal)
                            && d.ToString().Contains(words, StringComparison.Ordinal)),
                string.Join('\n', findings));
        }
    }
}
