using System.Text.Json.Nodes;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Tests.Documents.Receivers;

public sealed class MeasurementReaderTests
{
    private const string Head = "spurless_receiver: 1\nname: n\nfrequency: 145.05 MHz\nchannel: 12.5 kHz\n";

    // The example of the format's description, in the words of the template.
    private const string Whole = Head + """
        if_bandwidth: 8 kHz
        measured:
          - sensitivity: { level: -119 dBm }
          - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -44 dBm }
          - two_tone: { order: 3, tones: [160.525 MHz, 176 MHz], levels: [-30 dBm, -28 dBm], product: -94 dBm, plus_minus: 0.5 dB }
          - response: { at: 102.25 MHz, level: -41 dBm }
          - blocking: { at: 146.05 MHz, level: -29 dBm }
          - front_end: front-end.s2p
            plus_minus: 0.3 dB
          - product: { site: a.site.yaml, receiver: input, terms: { paging: 1, water: -2 }, over_noise: 22 dB }
        """;

    private static readonly StubFiles Files = new(("front-end.s2p", ""), ("a.site.yaml", ""));

    private static (ReceiverMeasurements? Value, string Findings) Read(string text)
    {
        DiagnosticBag bag = new();
        ReceiverMeasurements? value = MeasurementReader.Read(text, "r", Files, bag);
        return (value, string.Join("\n", bag.InOrder()));
    }

    [Fact]
    public void Read_gives_every_value()
    {
        (ReceiverMeasurements? read, string findings) = Read(Whole);
        Assert.Equal("", findings);
        Assert.NotNull(read);
        Assert.Equal(("n", 145_050_000L, 12_500L, 8_000L), (read.Name, read.Frequency.Hertz, read.Channel.Hertz, read.IfBandwidthHz));
        Assert.Equal(-119, Assert.IsType<SensitivityReading>(read.Measured[0]).Level!.Value.Dbm);
        TwoToneReading alike = Assert.IsType<TwoToneReading>(read.Measured[1]);
        Assert.Equal((3, -44.0), (alike.Order, alike.FirstLevel.Dbm));
        Assert.True(alike is { SecondLevel: null, Product: null });
        Assert.Equal((145_100_000L, 145_150_000L, 1.0), (alike.First.Hertz, alike.Second.Hertz, alike.SigmaDb));
        TwoToneReading apart = Assert.IsType<TwoToneReading>(read.Measured[2]);
        Assert.Equal((-30.0, -28.0, 0.5), (apart.FirstLevel.Dbm, apart.SecondLevel!.Value.Dbm, apart.SigmaDb));
        Assert.Equal(-94, apart.Product!.Value.Dbm);
        Assert.Equal(102_250_000L, Assert.IsType<ResponseReading>(read.Measured[3]).At.Hertz);
        Assert.Equal(-29, Assert.IsType<BlockingReading>(read.Measured[4]).Level.Dbm);
        FrontEndReading front = Assert.IsType<FrontEndReading>(read.Measured[5]);
        Assert.Equal(("front-end.s2p", 0.3), (front.Sweep.Path, front.SigmaDb));
        SiteProductReading product = Assert.IsType<SiteProductReading>(read.Measured[6]);
        Assert.Equal(("a.site.yaml", "input", 22.0), (product.Site.Path, product.Receiver, product.OverNoise.Value));
        Assert.Equal([("paging", 1), ("water", -2)], product.Terms.Select(static t => (t.Name, t.Value)));
    }

    [Fact]
    public void Read_template_has_no_finding_and_what_it_comments_out_is_right_too()
    {
        Assert.Equal("", Read(MeasurementTemplate.Text).Findings);
        string all = MeasurementTemplate.Text.Replace("  # - ", "  - ", StringComparison.Ordinal).Replace(
            "my.site.yaml", "a.site.yaml", StringComparison.Ordinal);
        (ReceiverMeasurements? read, string findings) = Read(all);
        Assert.Equal("", findings);
        Assert.Equal(7, read!.Measured.Count);
    }

    [Fact]
    public void Read_before_anything_was_measured_takes_the_usual_bandwidth()
    {
        (ReceiverMeasurements? read, string findings) = Read(Head);
        Assert.Equal("", findings);
        Assert.Equal((0, 8_000L), (read!.Measured.Count, read.IfBandwidthHz));
    }

    [Fact]
    public void Read_reports_all_that_is_wrong_at_once_at_its_place()
    {
        (ReceiverMeasurements? read, string findings) = Read(Head + """
            measured:
              - sensitivity: { level: 0.25 uV }
              - sensitivity: { level: -119 dBm, noise_figure: 6 dB }
              - two_tone: { order: 3, tones: [145.1 MHz], level: -44 dBm }
              - two_tone: { order: 10, tones: [145.1 MHz, 145.15 MHz], level: -44 }
              - two_tone: { order: 3, tones: [145.1 MHz, 145.2 MHz], level: -44 dBm }
              - two_tone: { order: 3, tones: [145.1 MHz, 145.1 MHz], level: -44 dBm }
              - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz] }
              - response: { at: 145.05 MHz, level: -41 dBm }
              - blocking: { at: 146.05 MHz, level: 40 dBm }
              - front_end: no.s2p
              - product: { site: a.site.yaml, receiver: input, terms: { paging: 1 }, over_noise: 0 dB }
              - squelch: { level: -120 dBm }
              - sensitivity: { level: -145 dBm }
            """);
        Assert.Null(read);
        string[] lines = findings.Split('\n');
        Assert.Equal(
            [6, 7, 8, 9, 9, 10, 11, 12, 13, 14, 15, 16, 16, 17, 18],
            lines.Select(static l => int.Parse(l.Split(':')[1], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.All(lines, static l => Assert.Contains("; ", l, StringComparison.Ordinal));
        Assert.Contains("pd", lines[0], StringComparison.Ordinal);
        Assert.Equal(
            "r:10:34: no mixture of order 3 of 145.1 MHz and 145.2 MHz lands on 145.05 MHz: the nearest lands on 145 MHz; write tones of "
                + "which twice the one less the other is the channel, as in [145.1 MHz, 145.15 MHz]",
            lines[5]);
        Assert.Contains("a noise figure of -17", findings, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("  - sensitivity: { level: -119 dBm, plus_minus: 1 dB }\n    plus_minus: 2 dB\n", "keep one of the two")]
    [InlineData("  - sensitivity: { level: -119 dBm, plus_minus: 30 dB }\n", "is over 20 dB")]
    [InlineData("  - front_end: front-end.s2p\n  - front_end: front-end.s2p\n", "there is a front end already")]
    [InlineData("  - two_tone: { order: 3, tones: [145.05 MHz, 145.15 MHz], level: -44 dBm }\n", "stands on the channel itself")]
    [InlineData("  - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -44 dBm, levels: [-4 dBm, -4 dBm] }\n", "level")]
    [InlineData("  - product: { site: a.site.yaml, receiver: i, terms: { a: 0, b: 1 }, over_noise: 3 dB }\n", "0 times is not at all")]
    public void Read_refuses_what_cannot_be(string entry, string said)
    {
        (ReceiverMeasurements? read, string findings) = Read(Head + "measured:\n" + entry);
        Assert.Null(read);
        Assert.Contains(said, findings, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_of_the_schema_knows_the_keys_of_the_format()
    {
        JsonNode schema = JsonNode.Parse(MeasurementSchema.Text())!;
        Assert.Equal(
            ["spurless_receiver", "name", "frequency", "channel", "if_bandwidth", "measured"],
            schema["properties"]!.AsObject().Select(static p => p.Key));
        Assert.Equal(
            ["sensitivity", "two_tone", "response", "blocking", "front_end", "product", "plus_minus"],
            schema["properties"]!["measured"]!["items"]!["properties"]!.AsObject().Select(static p => p.Key));
    }

    [Fact]
    public void Read_mutated_file_never_throws()
    {
        string[] pieces = ["", "\n", ": ", "{", "}", "[", "]", "-1", "0 Hz", "NaN", "1e999 dB", "x", "'", "- ", "at: ", "~", "9"];
        Gen.Select(Gen.Int[0, Whole.Length], Gen.Int[0, 30], Gen.Int[0, pieces.Length - 1]).Array[1, 5].Sample(
            edits =>
            {
                string text = Whole;
                foreach ((int at, int length, int piece) in edits)
                {
                    int from = at % (text.Length + 1);
                    text = text[..from] + pieces[piece] + text[Math.Min(text.Length, from + length)..];
                }

                (ReceiverMeasurements? value, string findings) = Read(text);
                Assert.True(value is not null || findings.Length > 0);
            },
            iter: 2_000);
    }
}
