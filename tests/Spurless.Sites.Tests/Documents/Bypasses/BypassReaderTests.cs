using System.Text.Json.Nodes;
using CsCheck;
using Spurless.Circuits.Relays;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Bypasses;

namespace Spurless.Sites.Tests.Documents.Bypasses;

public sealed class BypassReaderTests
{
    // The example of the format's description.
    private const string Whole = """
        spurless_bypass: 1
        name: n
        impedance: 75 ohm
        frequency: 145.65 MHz
        tap: { capacitor: 2.2 pF }
        detector:
          rectifier: doubler
          diode: { saturation_current: 20 nA, emission: 1.05, series: 5 ohm, junction: 0.8 pF }
          smoothing: 10 nF
          bleed: 100 kohm
        driver:
          supply: 12 V
          saturation: 0.2 V
          stages: [ { base_resistor: 10 kohm, gain: 100, vbe: 0.65 V }, { base_resistor: 4.7 kohm, gain: 50, vbe: 0.7 V } ]
        relay: { coil: 320 ohm, inductance: 0.4 H, operates_at: 8.4 V, releases_at: 1.2 V, travel: 3 ms, release_travel: 2 ms,
          clamp: 0.9 V, contact: { loss: 0.1 dB, open: 0.8 pF } }
        filter: f.circuit.yaml
        site: s.site.yaml
        transmitter: { power: 50 W, swr: 2 }
        """;

    private static readonly StubFiles Files = new(("f.circuit.yaml", ""), ("s.site.yaml", ""), ("my-filter.circuit.yaml", ""),
        ("my.site.yaml", ""));

    private static (BypassDocument? Value, string Findings) Read(string text)
    {
        DiagnosticBag bag = new();
        BypassDocument? value = BypassReader.Read(text, "b", Files, bag);
        return (value, string.Join("\n", bag.InOrder()));
    }

    [Fact]
    public void Read_gives_every_value()
    {
        (BypassDocument? read, string findings) = Read(Whole);
        Assert.Equal("", findings);
        Assert.NotNull(read);
        Assert.Equal(("n", 75.0, 145_650_000L), (read.Name, read.ImpedanceOhm, read.Frequency.Hertz));
        RelayCircuit c = read.Circuit;
        Assert.Equal((145.65e6, 2.2e-12, Rectifier.Doubler), (c.Detector.FrequencyHz, c.Detector.TapF, c.Detector.Rectifier));
        Assert.Equal(new Diode(20e-9, 1.05, 5, 0.8e-12), c.Detector.Diode);
        Assert.Equal((10e-9, 100e3, 12.0, 0.2), (c.SmoothingF, c.BleedOhm, c.SupplyV, c.SaturationV));
        Assert.Equal([new DriverStage(10e3, 100, 0.65), new DriverStage(4.7e3, 50, 0.7)], c.Stages);
        Assert.Equal(new RelayCoil(320, 0.4, 8.4, 1.2, 3e-3, 2e-3, 0.9), c.Coil);
        Assert.Equal((0.1, 0.8e-12), (read.ContactLossDb, read.ContactOpenF));
        Assert.Equal(("f.circuit.yaml", "s.site.yaml"), (read.Filter!.Path, read.Site!.Path));
        Assert.Equal((50.0, 2.0), (read.PowerW, read.StandingWaveRatio));
        Assert.Equal(1.0 / 3, read.Reflection, 1e-12);
    }

    [Fact]
    public void Read_what_may_be_left_out_has_its_default()
    {
        string text = Whole.Replace("impedance: 75 ohm\n", "", StringComparison.Ordinal)
            .Replace(" clamp: 0.9 V,", "", StringComparison.Ordinal)
            .Replace("filter: f.circuit.yaml\nsite: s.site.yaml\n", "", StringComparison.Ordinal)
            .Replace(", swr: 2", "", StringComparison.Ordinal);
        (BypassDocument? read, string findings) = Read(text);
        Assert.Equal("", findings);
        Assert.Equal((50.0, 0.7, 0.0), (read!.ImpedanceOhm, read.Circuit.Coil.ClampV, read.Reflection));
        Assert.True(read is { Filter: null, Site: null, StandingWaveRatio: null });
    }

    [Fact]
    public void Read_template_has_no_finding_and_what_it_comments_out_is_right_too()
    {
        Assert.Equal("", Read(BypassTemplate.Text).Findings);
        string all = BypassTemplate.Text.Replace("# filter:", "filter:", StringComparison.Ordinal)
            .Replace("# site:", "site:", StringComparison.Ordinal);
        (BypassDocument? read, string findings) = Read(all);
        Assert.Equal("", findings);
        Assert.Equal(("my-filter.circuit.yaml", "my.site.yaml"), (read!.Filter!.Path, read.Site!.Path));
    }

    [Theory]
    [InlineData("vbe: 0.65 V", "vbe: 13 V", "b:14:55: 13 V from base to emitter cannot come from a supply of 12 V; write the voltage")]
    [InlineData("releases_at: 1.2 V", "releases_at: 9 V", "let go at 9 V, where it has not pulled yet: operates_at is 8.4 V; write")]
    [InlineData("saturation: 0.2 V", "saturation: 12 V", "12 V of saturation leave nothing of a supply of 12 V; write what is left")]
    [InlineData("capacitor: 2.2 pF", "capacitor: 2.2", "b:5:19: '2.2' has no unit; write 2.2 pF")]
    [InlineData("swr: 2 }", "swr: 0.5 }", "'0.5' is out of range; write a standing wave ratio from 1 to 100, as in 2")]
    [InlineData("doubler", "bridge", "the word 'bridge' is not known here; write one of single, doubler")]
    [InlineData("power: 50 W, ", "", "power")]
    [InlineData("gain: 50", "gain: 0", "a current gain from 1 to 100000")]
    [InlineData("f.circuit.yaml", "g.circuit.yaml", "b:17:9: there is no file 'g.circuit.yaml'; write a path relative to this file")]
    [InlineData("bleed: 100 kohm", "bleeds: 100 kohm", "'bleeds'")]
    [InlineData("frequency: 145.65 MHz", "frequency: 1 kHz", "'1 kHz' is out of range; write 10 kHz to 10 GHz")]
    public void Read_what_cannot_be_is_told_at_its_place(string right, string wrong, string said)
    {
        (BypassDocument? read, string findings) = Read(Whole.Replace(right, wrong, StringComparison.Ordinal));
        Assert.Null(read);
        Assert.Contains(said, findings, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_many_mistakes_are_told_at_once()
    {
        string text = Whole.Replace("vbe: 0.65 V", "vbe: 13 V", StringComparison.Ordinal)
            .Replace("releases_at: 1.2 V", "releases_at: 9 V", StringComparison.Ordinal)
            .Replace("f.circuit.yaml", "g.circuit.yaml", StringComparison.Ordinal)
            .Replace("2.2 pF", "2.2", StringComparison.Ordinal)
            .Replace("power: 50 W", "power: 50 V", StringComparison.Ordinal);
        string findings = Read(text).Findings;
        Assert.Equal(5, findings.Split('\n').Length);
    }

    [Fact]
    public void Text_of_the_schema_knows_the_keys_of_the_format()
    {
        JsonNode schema = JsonNode.Parse(BypassSchema.Text())!;
        Assert.Equal(
            [
                "spurless_bypass", "name", "impedance", "frequency", "tap", "detector", "driver", "relay", "filter", "site", "transmitter",
            ],
            schema["properties"]!.AsObject().Select(static p => p.Key));
        Assert.Equal(
            [
                "coil", "inductance", "operates_at", "releases_at", "travel", "release_travel", "clamp", "contact",
            ],
            schema["properties"]!["relay"]!["properties"]!.AsObject().Select(static p => p.Key));
    }

    [Fact]
    public void Read_mutated_file_never_throws()
    {
        string[] pieces = ["", "\n", ": ", "{", "}", "[", "]", "-1", "0 Hz", "NaN", "1e999 V", "x", "'", "- ", "~", "9", "0 pF"];
        Gen.Select(Gen.Int[0, Whole.Length], Gen.Int[0, 30], Gen.Int[0, pieces.Length - 1]).Array[1, 5].Sample(
            edits =>
            {
                string text = Whole;
                foreach ((int at, int length, int piece) in edits)
                {
                    int from = at % (text.Length + 1);
                    text = text[..from] + pieces[piece] + text[Math.Min(text.Length, from + length)..];
                }

                (BypassDocument? value, string findings) = Read(text);
                Assert.True(value is not null || findings.Length > 0);
            },
            iter: 2_000);
    }
}
