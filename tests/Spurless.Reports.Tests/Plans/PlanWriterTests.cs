using System.Text.Json;
using Spurless.Drawing.Plans;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Plans;
using Spurless.Reports.Text;
using Spurless.Sites.Plans;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Plans;

public sealed class PlanWriterTests
{
    private static readonly PlanAnswer Demo = Ask(null, 2);
    private static readonly PlanAnswer Shifted = Ask(-1_000_000, 6);

    [Fact]
    public void WriteText_begins_with_the_conclusion_and_says_who_decides()
    {
        foreach (PlanAnswer answer in (PlanAnswer[])[Demo, Shifted])
        {
            string[] lines = Text(answer).Split('\n');
            Assert.Equal("Quernmoss repeater (invented): repeater input", lines[0]);
            Assert.StartsWith("Of 65 channels from 145.0000 to 145.8000 MHz ", lines[2], StringComparison.Ordinal);
            Assert.All(lines, static l => Assert.True(l.Length <= TextFlow.DefaultWidth, l));
            string whole = Words(answer);
            Assert.Contains("for frequency coordination and the licence to decide, not for this list", whole, StringComparison.Ordinal);
        }
    }

    // The demo's waterworks and highways bases stand 600 kHz apart, as far as our transmitter from the receiver: by the site file.
    [Fact]
    public void WriteText_of_the_demo_says_that_its_shift_brings_a_mixture_everywhere()
    {
        Assert.Contains(
            "Repeater output + waterworks base - highways base can land on every channel alike, since repeater output stands 0.6000 MHz "
                + "over the receiver: another shift moves that",
            Words(Demo),
            StringComparison.Ordinal);
        Assert.Contains(" none is free of mixtures", Words(Demo), StringComparison.Ordinal);
        Assert.DoesNotContain("every channel alike", Words(Shifted), StringComparison.Ordinal);
        Assert.Contains(" 25 are free of mixtures made in the receiver; the best is 145.1750 MHz with repeater output on 144.1750 MHz",
            Words(Shifted), StringComparison.Ordinal);
    }

    [Fact]
    public void Answer_of_a_band_that_is_quiet_throughout_says_all()
    {
        PlanAnswer quiet = Shifted with { Channels = 25, Offered = [.. Shifted.Offered.Where(static c => c.IsQuiet)] };
        Assert.StartsWith(
            "All 25 channels from 145.0000 to 145.8000 MHz are free of mixtures made in the receiver; the best is ",
            PlanWords.Answer(quiet, Typography.Plain),
            StringComparison.Ordinal);
        Assert.StartsWith(
            "Of 26 channels from 145.0000 to 145.8000 MHz 25 are free",
            PlanWords.Answer(quiet with { Channels = 26 }, Typography.Plain),
            StringComparison.Ordinal);
    }

    [Fact]
    public void WriteText_of_many_side_by_side_says_what_could_be_better_or_that_none_can()
    {
        Assert.Contains("Side by side With everything on the air on ", Words(Demo), StringComparison.Ordinal);
        Assert.Contains("No other set of as many is better.", Words(Demo), StringComparison.Ordinal);
        Assert.Matches("(No other set of as many is better|They were chosen one by one: another set could be better)", Words(Shifted));
    }

    [Fact]
    public void WriteJson_has_the_fixed_fields_best_first()
    {
        using MemoryStream stream = new();
        PlanWriter.WriteJson(Demo, stream);
        using JsonDocument json = JsonDocument.Parse(stream.ToArray());
        Assert.Equal("spurless-plan/1", json.RootElement.GetProperty("format").GetString());
        JsonElement[] channels = [.. json.RootElement.GetProperty("channels").EnumerateArray()];
        Assert.Equal(Demo.Offered.Select(static c => c.FrequencyHz), channels.Select(static c => c.GetProperty("frequency_hz").GetInt64()));
        foreach ((PlanChannel c, JsonElement written) in Demo.Offered.Zip(channels))
        {
            Assert.Equal((c.Harmful, c.Marginal), (written.GetProperty("harmful").GetInt32(), written.GetProperty("marginal").GetInt32()));
            Assert.Equal(c.WorstOverNoiseDb!.Value, written.GetProperty("worst_over_noise_db").GetDouble(), 1e-6);
            JsonElement nearest = written.GetProperty("nearest");
            Assert.Equal(c.Nearest!.Order, nearest.GetProperty("order").GetInt32());
            JsonElement[] terms = [.. nearest.GetProperty("terms").EnumerateArray()];
            Assert.Equal(c.Nearest.Order, terms.Sum(static t => Math.Abs(t.GetProperty("coefficient").GetInt32())));
            Assert.Equal(c.Nearest.FrequencyHz, nearest.GetProperty("frequency_hz").GetInt64());
            Assert.Equal(c.FrequencyHz + 600_000, written.GetProperty("transmit_hz").GetInt64());
        }

        Assert.Equal(2, json.RootElement.GetProperty("together").GetProperty("frequencies_hz").GetArrayLength());
    }

    [Fact]
    public void WriteCsv_has_a_row_for_every_channel_of_the_band()
    {
        StringWriter text = new();
        PlanWriter.WriteCsv(Shifted, text);
        string[] lines = text.ToString().TrimEnd('\n').Split('\n');
        Assert.Equal(66, lines.Length);
        int columns = lines[0].Split(',').Length;
        Assert.All(lines, l => Assert.Equal(columns, l.Split(',').Length));
        Assert.StartsWith("145175000,144175000,0,0,0,,,", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task RenderAsync_is_one_page_with_the_strip_and_its_table()
    {
        ReportContext context = new() { GeneratedAt = DateTimeOffset.UnixEpoch, ProgramVersion = "0" };
        string page = await PlanReport.RenderAsync(Demo, context);
        Assert.Contains("<svg class=\"pic\"", page, StringComparison.Ordinal);
        Assert.Contains(">Cautions</h2>", page, StringComparison.Ordinal);
        Assert.Contains("coordination and the licence", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(65, PlanReport.Strip(Demo).Channels.Count);
        Assert.Equal(65, System.Text.RegularExpressions.Regex.Count(page, "<tr><td class=\"num\">145\\."));
    }

    [Fact]
    public void Strip_has_taken_channels_at_their_place()
    {
        PlanAnswer answer = Demo with
        {
            Offered = [.. Demo.Offered.Where(static c => c.FrequencyHz != 145_100_000)],
            NotOffered = [new PlanTaken(145_100_000, PlanReason.Emitter, "someone")],
        };
        PlanStripModel strip = PlanReport.Strip(answer);
        Assert.Equal(strip.Channels.Select(static c => c.FrequencyHz).Order(), strip.Channels.Select(static c => c.FrequencyHz));
        Assert.Equal(145_100_000, Assert.Single(strip.Channels, static c => c.IsTaken).FrequencyHz);
        Assert.Contains("145.1000 MHz: someone stands there.", Text(answer), StringComparison.Ordinal);
    }

    private static string Text(PlanAnswer answer)
    {
        StringWriter text = new();
        PlanWriter.WriteText(answer, text, TextInk.None);
        return text.ToString();
    }

    private static string Words(PlanAnswer answer) =>
        string.Join(' ', Text(answer).Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    private static PlanAnswer Ask(long? shift, int count)
    {
        LoadedSite site = SiteLoader.Load(DemoSites.PathOf("quernmoss.site.yaml"), out IReadOnlyList<Diagnostic> _)!;
        return PlanService.Ask(new PlanQuestion
        {
            Site = site,
            FromHz = 145_000_000,
            ToHz = 145_800_000,
            RasterHz = 12_500,
            ShiftHz = shift,
            Count = count,
        }).Answer!;
    }
}
