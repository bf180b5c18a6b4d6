using System.Text.Json;
using System.Text.RegularExpressions;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Newcomers;
using Spurless.Reports.Text;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Newcomers;

/// <summary>The invented newcomer of the demo in every format; the figures are worked by hand in the demo's isolator test.</summary>
public sealed class NewcomerWriterTests
{
    private static readonly NewcomerAnswer Demo = Ask(static text => text);

    // With the isolators that the answer asks for.
    private static readonly NewcomerAnswer Cured = Ask(static text => Isolated(text, 44.7, 7.4));

    private static readonly ReportContext Made = new()
    {
        GeneratedAt = new DateTimeOffset(2031, 3, 4, 5, 6, 0, TimeSpan.Zero),
        ProgramVersion = "1.2.3",
    };

    /// <summary>
    /// Worked by hand: 40 dBm less 30 dB of coupling arrive at the output of link one; turned round with 12 dB they are -2 dBm, 42 dB under
    /// its power, and reach the antenna connector 42 dB under its level: -80 dBm. Behind 1.2 dB of cable and the filter's loss of 3 dB that
    /// is about -84 dBm, of which half a decibel misses the channel: 44.6 dB over -128.94 dBm.
    /// </summary>
    [Fact]
    public void WriteText_says_no_by_how_much_and_what_makes_it_pass()
    {
        string text = Text(Demo);
        string[] lines = text.Split('\n');
        Assert.Equal("Dale link (invented) at Quernmoss repeater (invented)", lines[0]);
        Assert.StartsWith("No, not as it stands: Dale link (invented) fails on repeater input.", lines[2], StringComparison.Ordinal);
        string flat = Flat(text);
        Assert.Contains("The worst that is new stands 44.6 dB over the noise.", flat, StringComparison.Ordinal);
        Assert.Contains("by the newcomer: 44.7 dB of isolation more than there is, at the transmitter of dale link one", flat,
            StringComparison.Ordinal);
        Assert.All(lines, static l => Assert.True(l.Length <= TextFlow.DefaultWidth, l));
    }

    [Fact]
    public void WriteText_with_the_conditions_met_says_yes_as_far_as_it_is_known()
    {
        string flat = Flat(Text(Cured));
        Assert.Contains("Yes, as far as it is known: with Dale link (invented) nothing new is harmful on any of the two receivers.", flat,
            StringComparison.Ordinal);
        Assert.DoesNotContain("Before it goes on the air", flat, StringComparison.Ordinal);
        Assert.Contains("Not known, and what would tell", flat, StringComparison.Ordinal);
    }

    [Fact]
    public void WriteJson_has_the_fixed_fields_and_products_as_a_study_has_them()
    {
        using JsonDocument json = Json(Demo);
        Assert.Equal("spurless-newcomer/1", json.RootElement.GetProperty("format").GetString());
        JsonElement[] receivers = [.. json.RootElement.GetProperty("receivers").EnumerateArray()];
        Assert.Equal(["repeater input", "dale input"], receivers.Select(static r => r.GetProperty("name").GetString()));
        Assert.Equal(["site", "newcomer"], receivers.Select(static r => r.GetProperty("of").GetString()));
        Assert.Equal([false, true], receivers.Select(static r => r.GetProperty("passes").GetBoolean()));
        JsonElement worst = receivers[0].GetProperty("products")[0];
        Assert.Equal("transmitter", worst.GetProperty("mechanism").GetString());
        Assert.Equal(
            -worst.GetProperty("over_noise_db").GetDouble(), receivers[0].GetProperty("margin_db").GetDouble(), 1e-6);
        using JsonDocument study = StudyOfJoint();
        JsonElement studied = study.RootElement.GetProperty("receivers")[0];
        string[] keys = [.. studied.GetProperty("products")[0].EnumerateObject().Select(static p => p.Name)];
        Assert.Equal(keys, worst.EnumerateObject().Select(static p => p.Name));
        string[] causes = [.. studied.GetProperty("other_causes")[0].EnumerateObject().Select(static p => p.Name)];
        JsonElement cause = receivers[0].GetProperty("other_causes")[0];
        Assert.Equal([.. causes, "sum_of"], cause.EnumerateObject().Select(static p => p.Name));
    }

    /// <summary>No product without the newcomer on the site's receiver, none of the newcomer's alone on his.</summary>
    [Fact]
    public void WriteJson_lists_only_what_is_new()
    {
        using JsonDocument json = Json(Demo);
        foreach (JsonElement receiver in json.RootElement.GetProperty("receivers").EnumerateArray())
        {
            bool own = receiver.GetProperty("of").GetString() == "newcomer";
            foreach (JsonElement product in receiver.GetProperty("products").EnumerateArray())
            {
                bool[] dale =
                [
                    .. product.GetProperty("terms").EnumerateArray()
                        .Select(static t => t.GetProperty("emitter").GetString()!.StartsWith("dale", StringComparison.Ordinal)),
                ];
                Assert.Contains(!own, dale);
            }
        }
    }

    [Fact]
    public void WriteCsv_has_a_row_for_each_new_thing_and_none_is_lost()
    {
        StringWriter text = new();
        NewcomerWriter.WriteCsv(Demo, text);
        string[] lines = text.ToString().TrimEnd('\n').Split('\n');
        Assert.Equal(NewcomerWriter.CsvHead, lines[0]);
        int things = Demo.Receivers.Sum(static r => Math.Max(1, r.Findings.Products.Count + r.Causes.Count));
        Assert.Equal(things, lines.Length - 1);
        int columns = NewcomerWriter.CsvHead.Split(',').Length;
        Assert.All(lines, l => Assert.Equal(columns, Regex.Replace(l, "\"[^\"]*\"", "x").Split(',').Length));
        Assert.StartsWith("repeater input,site,false,-44.", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task RenderAsync_is_a_sheet_to_sign_that_asks_nothing_of_the_outside()
    {
        string page = await NewcomerReport.RenderAsync(Demo, Made);
        foreach (string part in (string[])
            [
                "Dale link (invented) asks to join Quernmoss repeater (invented)", "the keeper of the Dale link (invented)",
                "What was tested.", "Before it goes on the air", "44.7 dB of isolation", "Cautions",
                "None of this gives leave to transmit", "For the newcomer", "For the site’s owner", "Date",
            ])
        {
            Assert.Contains(part, page, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http://", page, StringComparison.Ordinal);
        Assert.DoesNotContain("https://", page, StringComparison.Ordinal);
        Assert.DoesNotContain(">-", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RenderAsync_of_one_that_passes_asks_for_nothing()
    {
        string page = await NewcomerReport.RenderAsync(Cured, Made);
        Assert.Contains("Nothing needs to be done by what is known.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("done on", page, StringComparison.Ordinal);
    }

    /// <summary>Names are a stranger's: whatever stands in them, the formats keep their form.</summary>
    [Fact]
    public async Task Writers_keep_their_form_with_any_name()
    {
        NewcomerAnswer odd = Ask(static text => text.Replace("dale link one", "\"<b>&, =1+1; 'x\"", StringComparison.Ordinal)
            .Replace("dale input", "\"=cmd|' /C '!A0\"", StringComparison.Ordinal));
        Assert.DoesNotContain("<b>&,", await NewcomerReport.RenderAsync(odd, Made), StringComparison.Ordinal);
        using JsonDocument json = Json(odd);
        Assert.Equal(2, json.RootElement.GetProperty("receivers").GetArrayLength());
        StringWriter csv = new();
        NewcomerWriter.WriteCsv(odd, csv);
        Assert.DoesNotContain("\n=cmd", csv.ToString(), StringComparison.Ordinal);
    }

    private static string Isolated(string text, double one, double two)
    {
        string[] parts = text.Split("power: 10 W");
        return FormattableString.Invariant(
            $"{parts[0]}power: 10 W\n    isolator: {one:0.0} dB{parts[1]}power: 10 W\n    isolator: {two:0.0} dB{parts[2]}");
    }

    private static NewcomerAnswer Ask(Func<string, string> change)
    {
        string path = DemoSites.PathOf("newcomer-dale-link.site.yaml");
        DiagnosticBag findings = new();
        SourceFile site = SourceFile.Read(DemoSites.PathOf("quernmoss-cured.site.yaml"), FileKind.Site, findings)!;
        SourceFile newcomer = SourceFile.OfText(path, change(File.ReadAllText(path)), site.Folder);
        NewcomerSites sites = NewcomerReader.Read(site, newcomer, findings)!;
        Assert.Empty(findings.InOrder());
        return NewcomerService.Ask(new NewcomerQuestion { Sites = sites }, null, TestContext.Current.CancellationToken).Answer!;
    }

    private static JsonDocument StudyOfJoint()
    {
        using MemoryStream stream = new();
        Spurless.Reports.Studies.StudyJson.Write(StudyService.Run(Demo.Question.Sites.Joint, new StudyOptions()), stream);
        return JsonDocument.Parse(stream.ToArray());
    }

    private static JsonDocument Json(NewcomerAnswer answer)
    {
        using MemoryStream stream = new();
        NewcomerWriter.WriteJson(answer, stream);
        return JsonDocument.Parse(stream.ToArray());
    }

    private static string Text(NewcomerAnswer answer)
    {
        StringWriter text = new();
        NewcomerText.Write(answer, text, TextInk.None);
        return text.ToString();
    }

    private static string Flat(string text) => string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
}
