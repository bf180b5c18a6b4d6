using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Tests.Documents;

/// <summary>The schema as an independent library applies it agrees with the reader.</summary>
public sealed class SiteSchemaTests
{
    private static readonly JsonSchema _schema = JsonSchema.FromText(SiteSchema.Text());

    private static bool Holds(string yaml)
    {
        using JsonDocument instance = JsonDocument.Parse(YamlAsJson.Read(yaml)!.ToJsonString());
        return _schema.Evaluate(instance.RootElement).IsValid;
    }

    [Fact]
    public void Text_holds_the_example_and_the_template()
    {
        Assert.True(Holds(TestData.Read("site", "example.site.yaml")));
        Assert.True(Holds(SiteTemplate.Text));
    }

    [Theory]
    [InlineData("quernmoss.site.yaml")]
    [InlineData("quernmoss-filtered.site.yaml")]
    [InlineData("quernmoss-measured.site.yaml")]
    [InlineData("quernmoss-cured.site.yaml")]
    public void Text_holds_the_demo(string file) => Assert.True(Holds(File.ReadAllText(TestData.Demo(file))));

    [Fact]
    public void Template_reads_without_any_finding()
    {
        SiteReading reading = SiteReader.Read(SiteTemplate.Text, "new.site.yaml", new StubFiles());
        Assert.Equal("", string.Join("\n", reading.Diagnostics));
        Assert.Equal(3, reading.Document!.Emitters.Count);
    }

    /// <summary>How a course runs between its points is read in the editor, where it is written.</summary>
    [Theory]
    [InlineData("isolator")]
    public void Text_says_how_a_course_runs_between_its_points(string key) => Assert.Contains(
        "straight in dB over the logarithm of frequency",
        Assert.Single(Descriptions(JsonNode.Parse(SiteSchema.Text()), key).Distinct()),
        StringComparison.Ordinal);

    private static IEnumerable<string> Descriptions(JsonNode? node, string key) => node switch
    {
        JsonObject all => all.SelectMany(
            p => Descriptions(p.Value, key).Concat(
                p.Key == key && p.Value is JsonObject of && of["description"] is { } said ? [said.GetValue<string>()] : [])),
        JsonArray all => all.SelectMany(v => Descriptions(v, key)),
        _ => [],
    };

    // Each row spoils the template in one place; reader and schema must both refuse it.
    [Theory]
    [InlineData("frequency: 145.050 MHz", "frequency: 145.050")]
    [InlineData("frequency: 145.050 MHz", "frequency: [145.050 MHz]")]
    [InlineData("frequency: 145.050 MHz", "frequecy: 145.050 MHz")]
    [InlineData("iip3: -10 dBm", "iip2: -10 dBm")]
    [InlineData("iip3: -10 dBm", "noise_figure: 6 dB")]
    [InlineData("spurless: 1", "spurless: 2")]
    [InlineData("site: my repeater", "")]
    [InlineData("signals: 3", "signals: 10")]
    [InlineData("feedline: { loss: 1.2 dB at 145 MHz }", "feedlin: { loss: 1.2 dB at 145 MHz }")]
    [InlineData("feedline: { loss: 1.2 dB at 145 MHz }", "feedline: { length: 3 m }")]
    [InlineData("distance: 2.1 km", "bearing: 20")]
    [InlineData("power: 100 W ", "power: 100 W\n    erp: 100 W")]
    [InlineData("power: 100 W ", "power: 100 W\n    path: { obstacle: { height: 20 m } }")]
    [InlineData(
        "power: 100 W ",
        "power: 100 W\n    path: { obstacle: { height: 20 m, distance: 1 km }, same structure: { vertical: 6 m, horizontal: 0 m } }")]
    [InlineData("power: 100 W ", "power: 100 W\n    path: {}")]
    [InlineData("level: -44 dBm ", "level: [-44 dBm]")]
    public void Schema_and_reader_refuse_the_same(string good, string bad)
    {
        Assert.Contains(good, SiteTemplate.Text, StringComparison.Ordinal);
        string text = SiteTemplate.Text.Replace(good, bad, StringComparison.Ordinal);
        Assert.Null(SiteReader.Read(text, "x", new StubFiles()).Document);
        Assert.False(Holds(text));
    }

    [Fact]
    public void Text_knows_every_key_of_the_example()
    {
        JsonNode schema = JsonNode.Parse(SiteSchema.Text())!;
        Assert.Equal(
            [
                "spurless", "site", "place", "receivers", "emitters", "exclusive", "search", "emitters_from", "terrain", "contact", "notes",
                "heard", "evidence",
            ],
            schema["properties"]!.AsObject().Select(p => p.Key));
        JsonObject receiver = schema["properties"]!["receivers"]!["items"]!["properties"]!.AsObject();
        JsonObject emitter = schema["properties"]!["emitters"]!["items"]!["properties"]!.AsObject();
        SiteReading reading = SiteReader.Read(TestData.Read("site", "example.site.yaml"), "x", StubFiles.OfExample);
        foreach (string key in reading.Document!.KeysPresent.Where(k => k.Count(c => c == '.') == 1))
        {
            string name = key[(key.IndexOf('.', StringComparison.Ordinal) + 1)..];
            Assert.True(
                key.StartsWith("receivers.", StringComparison.Ordinal)
                    ? receiver.ContainsKey(name)
                    : !key.StartsWith("emitters.", StringComparison.Ordinal) || emitter.ContainsKey(name),
                key);
        }
    }
}
