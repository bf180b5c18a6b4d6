using System.Text.Json;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Evidence;
using Spurless.Reports.Html;
using Spurless.Reports.Locating;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Locating;

public sealed class LocateWriterTests
{
    private static readonly LocateAnswer Demo = Ask("quernmoss-heard.site.yaml");

    [Fact]
    public void WriteText_begins_with_the_conclusion_and_ends_with_what_to_do()
    {
        StringWriter text = new();
        LocateWriter.WriteText(Demo, text, TextInk.None);
        string[] lines = text.ToString().Split('\n');
        Assert.StartsWith("repeater input, 145.0500 MHz", lines[0], StringComparison.Ordinal);
        Assert.StartsWith("It is 2 x 158.3000 - 171.5500 = 145.0500", lines[2], StringComparison.Ordinal);
        string whole = string.Join(' ', text.ToString().Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("a filter here does not cure it", whole, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Next: have the telemetry scanner lowered by 3 dB", whole, StringComparison.Ordinal);
        Assert.Contains("hospital paging (on at", whole, StringComparison.Ordinal);
        Assert.Contains("with 10 dB of pad in line at the antenna it fell by 9.6 dB", whole, StringComparison.Ordinal);
        Assert.All(lines, static l => Assert.True(l.Length <= TextFlow.DefaultWidth, l));
    }

    [Fact]
    public void WriteJson_has_the_fixed_fields_and_probabilities_that_sum_to_one()
    {
        using MemoryStream stream = new();
        LocateWriter.WriteJson(Demo, stream);
        using JsonDocument json = JsonDocument.Parse(stream.ToArray());
        Assert.Equal("spurless-locate/1", json.RootElement.GetProperty("format").GetString());
        JsonElement receiver = json.RootElement.GetProperty("receivers")[0];
        Assert.Equal("repeater input", receiver.GetProperty("name").GetString());
        JsonElement[] hypotheses = [.. receiver.GetProperty("hypotheses").EnumerateArray()];
        Assert.Equal(1, hypotheses.Sum(static h => h.GetProperty("probability").GetDouble()), 1e-6);
        foreach (JsonElement h in hypotheses)
        {
            string mechanism = h.GetProperty("mechanism").GetString()!;
            Assert.Contains(mechanism, (string[])["receiver", "transmitter", "outside", "other"]);
            Assert.Equal(mechanism != "other", h.TryGetProperty("terms", out _));
            Assert.Equal(JsonValueKind.Array, h.GetProperty("because").ValueKind);
            Assert.Equal(JsonValueKind.Array, h.GetProperty("tied_with").ValueKind);
            Assert.True(h.TryGetProperty("made_in", out _));
        }

        Assert.Equal("emitter_reduced", receiver.GetProperty("next_observation").GetProperty("kind").GetString());
        Assert.Equal("hospital paging", receiver.GetProperty("ruled_out").EnumerateArray()
            .Select(static r => r.GetProperty("emitter").GetString()).First(static e => e == "hospital paging"));
    }

    [Fact]
    public void WriteCsv_has_a_row_for_each_hypothesis()
    {
        StringWriter text = new();
        LocateWriter.WriteCsv(Demo, text);
        string[] lines = text.ToString().TrimEnd('\n').Split('\n');
        Assert.Equal(LocateWriter.CsvHead, lines[0]);
        Assert.Equal(Demo.Receivers[0].Ranked.Count, lines.Length - 1);
        Assert.StartsWith(
            "repeater input,transmitter,telemetry scanner,2 x 158.3000 - 171.5500 = 145.0500,telemetry scanner",
            lines[1].Replace("\"", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task RenderAsync_holds_pictures_worksheet_and_cautions_and_asks_nothing_of_the_outside()
    {
        string page = await LocateReport.RenderAsync(Demo, Made);
        Assert.Contains("aria-label=\"Worksheet\"", page, StringComparison.Ordinal);

        // After the demo's evening one observation still tells something apart: transmitter or joint, by 3 dB at the scanner.
        Assert.Single(Demo.Receivers[0].Next);
        Assert.Equal(1, page.Split("<span class=\"blank\">").Length - 1);
        Assert.Contains("Nobody climbs", page, StringComparison.Ordinal);
        Assert.Contains("How likely each place of making is", page, StringComparison.Ordinal);
        Assert.Contains("Reading against attenuation at the antenna", page, StringComparison.Ordinal);
        Assert.Contains("The log, moment by moment", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain(" style=", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", page.Replace("http://www.w3.org", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    /// <summary>
    /// With one pad read little is known, and five observations are worth asking for, the best first. Five are the most that a sheet holds;
    /// one that would bring less than a thousandth of a nat stands on none: no figure would show it.
    /// </summary>
    [Fact]
    public async Task RenderAsync_of_little_evidence_asks_for_five_observations_worth_making()
    {
        string path = DemoSites.PathOf("quernmoss-heard.site.yaml");
        string text = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        int second = text.IndexOf("  - attenuator_test: { receiver: repeater input, inserted: 6 dB", StringComparison.Ordinal);
        LocateAnswer answer = Ask(SourceFile.OfText(path, text[..second], new SiteFolder(path)));

        IReadOnlyList<Advice> next = answer.Receivers[0].Next;
        Assert.Equal(5, next.Count);
        Assert.All(next, static n => Assert.True(n.GainNats >= 1e-3));
        Assert.Equal(next.Select(static n => n.GainNats).OrderDescending(), next.Select(static n => n.GainNats));
        string page = await LocateReport.RenderAsync(answer, Made);
        Assert.Equal(5, page.Split("<span class=\"blank\">").Length - 1);
        StringWriter written = new();
        LocateWriter.WriteText(answer, written, TextInk.None);
        Assert.All(written.ToString().Split('\n'), static l => Assert.True(l.Length <= TextFlow.DefaultWidth, l));
    }

    [Fact]
    public async Task Study_with_evidence_shows_it_in_text_json_csv_and_report()
    {
        StringWriter text = new();
        StudyText.Write(Demo.Study, text, TextInk.None, Demo);
        Assert.Contains("What the evidence says", text.ToString(), StringComparison.Ordinal);

        using MemoryStream stream = new();
        StudyJson.Write(Demo.Study, stream, Demo);
        using JsonDocument json = JsonDocument.Parse(stream.ToArray());
        JsonElement[] products = [.. json.RootElement.GetProperty("receivers")[0].GetProperty("products").EnumerateArray()];
        JsonElement made = products.First(static p => p.GetProperty("mechanism").GetString() == "transmitter");
        Assert.True(made.GetProperty("posterior").GetDouble() > 0.6);

        StringWriter csv = new();
        StudyCsv.Write(Demo.Study, csv, Demo);
        Assert.EndsWith(",posterior", csv.ToString().Split('\n')[0], StringComparison.Ordinal);

        string report = await StudyReport.RenderAsync(Demo.Study, Made, Demo);
        Assert.Contains("What the evidence says", report, StringComparison.Ordinal);
        Assert.Contains("By the evidence: It is not made in the receive chain", report, StringComparison.Ordinal);
    }

    private static ReportContext Made => ReportContext.Now(TimeProvider.System, "1");

    private static LocateAnswer Ask(string file)
    {
        DiagnosticBag findings = new();
        SourceFile source = SourceFile.Read(DemoSites.PathOf(file), FileKind.Site, findings)!;
        Assert.Empty(findings.InOrder());
        return Ask(source);
    }

    private static LocateAnswer Ask(SourceFile source)
    {
        LoadedSite? site = SiteLoader.Load(source, out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return LocateService.Ask(new LocateQuestion { Site = site!, Filters = FiltersAtHand.Beside(source.Path, site!) }).Answer!;
    }
}
