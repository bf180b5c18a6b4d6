using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Relays;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bypasses;
using Spurless.Reports.Html;
using Spurless.Reports.Text;
using Spurless.Sites.Bypasses;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Bypasses;

public sealed class BypassWriterTests
{
    private static readonly string Path = DemoSites.PathOf("quernmoss.bypass.yaml");

    private static readonly BypassAnswer Demo = Ask(File.ReadAllText(Path));

    private static BypassAnswer Ask(string text)
    {
        DiagnosticBag bag = new();
        LoadedBypass? loaded = SourceReader.Bypass(SourceFile.OfText(Path, text, new SiteFolder(Path)), bag);
        Assert.True(loaded is not null, string.Join('\n', bag.InOrder()));
        return BypassService.Ask(new BypassQuestion { Bypass = loaded }).Answer!;
    }

    private static string With(string right, string wrong) => File.ReadAllText(Path).Replace(right, wrong, StringComparison.Ordinal);

    private static string Text(BypassAnswer answer)
    {
        StringWriter to = new();
        BypassWriter.WriteText(answer, to, TextInk.None);
        return to.ToString();
    }

    private static string OneLine(string text) =>
        string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    // L/R ln(36.9/(36.9 - 26.25)) + 3 ms = 4.56 ms by the coil's closed form; 7.5 W in L2 (the demo's figure) for that long are 34 mJ.
    [Fact]
    public void WriteText_begins_with_the_verdict_and_ends_with_cautions()
    {
        string text = Text(Demo);
        Assert.StartsWith("At 50 W it comes over in 4.56 ms; until then L2 takes 34.2 mJ. Under ", OneLine(text), StringComparison.Ordinal);
        Assert.Contains("it stays in the filter. Single sideband at low level makes it chatter", OneLine(text), StringComparison.Ordinal);
        Assert.Contains("It fails towards harm", OneLine(text), StringComparison.Ordinal);
        Assert.Contains("supply gone", text, StringComparison.Ordinal);
        Assert.All(text.Split('\n'), static l => Assert.True(TextFlow.WidthOf(l) <= TextFlow.DefaultWidth, l));
    }

    [Theory]
    [InlineData(
        "operates_at: 8.4 V", "operates_at: 11.9 V",
        "It never comes over: the supply drives 36.9 mA through the coil, which needs 37.2 mA.")]
    [InlineData("gain: 50", "gain: 1", "It never comes over: the driver cannot carry what the coil needs.")]
    [InlineData("power: 50 W", "power: 5 mW", "At 5 mW it stays in the filter: it takes 10.5 mW to bring it over.")]
    public void Conclusion_what_does_not_come_over_says_why(string right, string wrong, string said) =>
        Assert.Equal(said, BypassWords.Conclusion(Ask(With(right, wrong))));

    // 11.9 V over 320 ohm is 37.2 mA, 11.8 V give 36.9 mA (by hand).
    [Theory]
    [InlineData(0.0046, "s", "4.6 ms")]
    [InlineData(50, "W", "50 W")]
    [InlineData(0.9995, "W", "1 W")]
    [InlineData(1500, "W", "1.5 kW")]
    [InlineData(2.5e-5, "J", "25 uJ")]
    [InlineData(0, "A", "0 A")]
    public void Si_has_three_digits(double value, string unit, string text) => Assert.Equal(text, BypassWords.Si(value, unit));

    [Fact]
    public void Ways_say_which_is_right_for_the_power()
    {
        // 50 V assumed on a capacitor with 374 V at 50 W and the worst phase: 50 W x (50/374)^2 = 0.89 W is borne; a circulator lets
        // (1/3 + 0.1)^2 = 18.8 % through, so 4.8 W (by hand).
        Assert.StartsWith("for 50 W: the transmitter's own key line", BypassRows.Ways(Demo)[0], StringComparison.Ordinal);
        Assert.StartsWith("for 500 mW: through the filter", BypassRows.Ways(Ask(With("power: 50 W", "power: 500 mW")))[0],
            StringComparison.Ordinal);
        Assert.StartsWith("for 3 W: a circulator", BypassRows.Ways(Ask(With("power: 50 W", "power: 3 W")))[0], StringComparison.Ordinal);
    }

    [Fact]
    public void WriteJson_has_the_fixed_fields_and_its_sums_agree()
    {
        using MemoryStream to = new();
        BypassWriter.WriteJson(Demo, to);
        JsonElement root = JsonDocument.Parse(to.ToArray()).RootElement;
        Assert.Equal("spurless-bypass/1", root.GetProperty("format").GetString());
        foreach (string name in (string[])["operates_at_w", "releases_below_w", "attack_s", "hang_s", "coil_current_a",
            "strongest_off_air_dbm", "isolation_db", "off_air_sum_dbm"])
        {
            Assert.Equal(JsonValueKind.Number, root.GetProperty(name).ValueKind);
        }

        double parts = root.GetProperty("parts").EnumerateArray().Sum(static p => p.GetProperty("energy_j").GetDouble());
        Assert.Equal(root.GetProperty("filter_energy_j").GetDouble(), parts, 1e-5); // six digits each
        Assert.Equal(6, root.GetProperty("margins").GetArrayLength());
    }

    [Fact]
    public void WriteJson_what_does_not_exist_is_null()
    {
        using MemoryStream to = new();
        BypassWriter.WriteJson(
            Ask(With("operates_at: 8.4 V", "operates_at: 11.9 V").Replace("filter: ", "# ", StringComparison.Ordinal)), to);
        JsonElement root = JsonDocument.Parse(to.ToArray()).RootElement;
        foreach (string name in (string[])["operates_at_w", "releases_below_w", "attack_s", "hang_s", "strongest_off_air_dbm",
            "isolation_db"])
        {
            Assert.Equal(JsonValueKind.Null, root.GetProperty(name).ValueKind);
        }
    }

    [Fact]
    public void WriteCsv_has_a_row_a_figure()
    {
        StringWriter to = new();
        BypassWriter.WriteCsv(Demo, to);
        string[] lines = to.ToString().TrimEnd().Split('\n');
        Assert.Equal(BypassWriter.CsvHead, lines[0]);
        string[] attack = lines.Single(static l => l.StartsWith("attack_s,", StringComparison.Ordinal)).Split(',');
        Assert.Equal(Demo.Press.AttackS!.Value, double.Parse(attack[1], CultureInfo.InvariantCulture), 1e-7);
    }

    [Fact]
    public async Task RenderAsync_is_one_page_without_script_that_says_the_same()
    {
        string page = await BypassReport.RenderAsync(
            Ask(With("name: relay", "name: <b>relay")), new ReportContext { GeneratedAt = default, ProgramVersion = "0" });
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<b>relay", page, StringComparison.Ordinal);
        Assert.Contains("it comes over in 4.56 ms", page, StringComparison.Ordinal);
        Assert.Contains("RF off", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(728)]
    [InlineData(358)]
    public void Picture_stands_within_its_frame_and_marks_the_moments(double width)
    {
        RelayPictureModel model = BypassReport.Picture(Demo);
        Scene scene = RelayPictureScene.Draw(model, width);
        Assert.All(scene.Items.OfType<SceneText>(), t =>
        {
            Assert.InRange(t.Box.Left, -0.5, width);
            Assert.InRange(t.Box.Right, 0, width + 0.5);
            Assert.InRange(t.Box.Bottom, 0, scene.Height);
        });
        SceneText[] words = [.. scene.Items.OfType<SceneText>()];
        for (int i = 0; i < words.Length; i++)
        {
            Assert.All(words[(i + 1)..], w => Assert.False(w.Box.Overlaps(words[i].Box), $"{w.Text} over {words[i].Text}"));
        }

        Assert.Single(scene.Items.OfType<SceneRect>(), static r => r.Hatched);
        Assert.Contains("4.56 ms", scene.Description, StringComparison.Ordinal);
    }
}
