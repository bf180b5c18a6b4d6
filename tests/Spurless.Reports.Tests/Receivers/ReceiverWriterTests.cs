using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Receivers;
using Spurless.Reports.Text;
using Spurless.Sites.Documents;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Receivers;

public sealed class ReceiverWriterTests
{
    private const string Head =
        "spurless_receiver: 1\nname: <b>bench</b>\nfrequency: 145.05 MHz\nchannel: 12.5 kHz\nif_bandwidth: 8 kHz\n";

    private static readonly ReceiverAnswer Demo = Ask(File.ReadAllText(DemoSites.PathOf("quernmoss.receiver.yaml")));

    private static ReceiverAnswer Ask(string text)
    {
        DiagnosticBag bag = new();
        string path = DemoSites.PathOf("quernmoss.receiver.yaml");
        LoadedMeasurements? loaded = SourceReader.Measurements(SourceFile.OfText(path, text, new SiteFolder(path)), bag);
        Assert.True(loaded is not null, string.Join('\n', bag.InOrder()));
        return ReceiverService.Ask(new ReceiverQuestion { Measurements = loaded });
    }

    private static string Text(ReceiverAnswer answer, IReadOnlyList<SiteFigure>? written = null)
    {
        StringWriter to = new();
        ReceiverWriter.WriteText(answer, written ?? [], to, TextInk.None);
        return to.ToString();
    }

    private static string OneLine(string text) =>
        string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    // -121.2 - 7.5 dBm; over kTB in 8 kHz, 6.24 dB; (3 x -44.5 + 128.7)/2 = -2.4 dBm, sqrt((3 x 0.7)^2 + 1)/2 = 1.16 dB.
    [Fact]
    public void WriteText_begins_with_the_conclusion_and_ends_with_cautions()
    {
        string text = Text(Demo);
        Assert.StartsWith(
            "The noise floor is -128.7 dBm, a noise figure of 6.2 dB +-1.0 dB. The third-order intercept is -2.4 dBm +-1.2 dB.",
            OneLine(text), StringComparison.Ordinal);
        Assert.Contains("5 to 10 dB is common practice", OneLine(text), StringComparison.Ordinal);
        Assert.Contains("never put two-tone levels into a duplexer or bypass that may transmit", OneLine(text), StringComparison.Ordinal);
        Assert.All(text.Split('\n'), static l => Assert.True(TextFlow.WidthOf(l) <= TextFlow.DefaultWidth, l));
    }

    [Fact]
    public void WriteText_of_nothing_measured_says_what_to_read()
    {
        string text = OneLine(Text(Ask(Head)));
        Assert.StartsWith("Nothing was measured yet", text, StringComparison.Ordinal);
        Assert.Contains("two_tone, order 3, tones: [145.1 MHz, 145.15 MHz]", text, StringComparison.Ordinal);
    }

    [Fact]
    public void WriteText_of_far_tones_alone_does_not_promise_them_for_close_ones()
    {
        string text = OneLine(Text(Ask(Head
            + "measured: [{ two_tone: { order: 3, tones: [160.525 MHz, 176 MHz], level: -30 dBm, product: -94 dBm } }]\n")));
        Assert.Contains(
            "The third-order intercept is 2.0 dBm +-1.6 dB for tones at 160.525 and 176 MHz, front end included: closer tones may find a "
                + "lower one.",
            text, StringComparison.Ordinal);
    }

    [Fact]
    public void WriteText_tells_what_disagrees_and_what_was_written()
    {
        string two = "{ two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: LEVEL dBm, product: -100 dBm } }";
        ReceiverAnswer answer = Ask(Head + "measured:\n  - " + two.Replace("LEVEL", "-40", StringComparison.Ordinal) + "\n  - "
            + two.Replace("LEVEL", "-30", StringComparison.Ordinal) + "\n");
        string text = OneLine(Text(answer, [new SiteFigure("iip3", "-8 dBm", "-2.8 dBm", null, null)]));
        Assert.Contains("One thing does not fit: see below.", text, StringComparison.Ordinal);
        Assert.Contains("Two readings of the intercept of order 3 lie 15.0 dB apart", text, StringComparison.Ordinal);
        Assert.Contains("- iip3: -2.8 dBm, where -8 dBm stood.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void WriteJson_has_the_fixed_fields()
    {
        using MemoryStream stream = new();
        ReceiverWriter.WriteJson(Demo, [], stream);
        using JsonDocument json = JsonDocument.Parse(stream.ToArray());
        JsonElement root = json.RootElement;
        Assert.Equal("spurless-receiver/1", root.GetProperty("format").GetString());
        Assert.Equal(-128.7, root.GetProperty("noise_floor_dbm").GetDouble(), 1e-6);
        Assert.Equal(6.244, root.GetProperty("noise_figure_db").GetDouble(), 1e-3);
        JsonElement third = root.GetProperty("intercepts").EnumerateArray().Single(static i => i.GetProperty("order").GetInt32() == 3);
        Assert.Equal(-2.4, third.GetProperty("iip_dbm").GetDouble(), 1e-6);
        Assert.Equal(Math.Sqrt((2.1 * 2.1) + 1) / 2, third.GetProperty("sigma_db").GetDouble(), 1e-5);
        Assert.Equal(JsonValueKind.String, third.GetProperty("from")[0].ValueKind);
        JsonElement image = root.GetProperty("responses")[0];
        Assert.Equal((102_250_000L, 80.2), (image.GetProperty("frequency_hz").GetInt64(), image.GetProperty("rejection_db").GetDouble()));
        Assert.Equal(92.2, root.GetProperty("blocking_db").GetDouble(), 1e-6);
        Assert.Equal(0, root.GetProperty("warnings").GetArrayLength());
    }

    [Fact]
    public void WriteJson_of_nothing_measured_has_nulls()
    {
        using MemoryStream stream = new();
        ReceiverWriter.WriteJson(Ask(Head), [], stream);
        using JsonDocument json = JsonDocument.Parse(stream.ToArray());
        foreach (string key in new[] { "noise_floor_dbm", "noise_figure_db", "sensitivity_dbm", "blocking_db" })
        {
            Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty(key).ValueKind);
        }
    }

    [Fact]
    public void WriteCsv_has_a_row_a_figure()
    {
        StringWriter to = new();
        ReceiverWriter.WriteCsv(Demo, to);
        string[] lines = to.ToString().TrimEnd('\n').Split('\n');
        Assert.Equal(ReceiverWriter.CsvHead, lines[0]);
        Assert.Equal(12, lines.Length); // 3 of noise, 3 intercepts, 2 front-end losses, 2 responses, 1 blocking
        Assert.Contains(lines, static l => l.StartsWith("intercept,3,,-2.400000,dBm,1.162970,", StringComparison.Ordinal));
    }

    [Fact]
    public async Task RenderAsync_has_the_bench_sheet_and_escapes_names()
    {
        string page = await ReceiverReport.RenderAsync(Ask(Head), [], new ReportContext { GeneratedAt = default, ProgramVersion = "0" });
        Assert.Contains("&lt;b&gt;bench&lt;/b&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.Contains("On the bench: how to measure", page, StringComparison.Ordinal);
        Assert.Contains("Never key a transmitter into a generator", page, StringComparison.Ordinal);
        Assert.Contains("20 dB and more of isolation in the combiner", page, StringComparison.Ordinal);
        Assert.DoesNotContain("+-", await ReceiverReport.RenderAsync(
            Demo, [], new ReportContext { GeneratedAt = default, ProgramVersion = "0" }), StringComparison.Ordinal);
    }

    // Every warning and every gap has its sentence: a new one without is found here, not by a user.
    [Fact]
    public void Of_every_warning_and_gap_is_a_sentence()
    {
        foreach (ReceiverWarningKind kind in Enum.GetValues<ReceiverWarningKind>())
        {
            ReceiverWarning warning = new(kind) { Entry = Demo.Document.Measured[0], Other = Demo.Document.Measured[1], Order = 3 };
            Assert.NotEmpty(ReceiverWarningWords.Of(warning, Typography.Plain));
        }

        foreach (ReceiverGap gap in Enum.GetValues<ReceiverGap>())
        {
            Assert.NotEmpty(ReceiverWarningWords.Of(gap, Demo.Document));
        }
    }
}
