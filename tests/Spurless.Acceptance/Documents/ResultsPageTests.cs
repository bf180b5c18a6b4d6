using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Documents;

/// <summary>docs/formats/results.md shows keys and kinds of values that the program writes.</summary>
public class ResultsPageTests
{
    // What writes each format, on the demo.
    private static readonly Dictionary<string, string> Writers = new()
    {
        ["spurless-study/1"] = "study demo/quernmoss-filtered.site.yaml",
        ["spurless-response/1"] = "response demo/filters/three-tank.circuit.yaml --at \"145.05 MHz\"",
        ["spurless-stress/1"] = "stress demo/filters/three-tank.circuit.yaml --power \"50 W\" --at \"145.65 MHz\"",
        ["spurless-tolerance/1"] = "tolerance demo/filters/three-tank.circuit.yaml --samples 200 --at \"145.05 MHz\"",
        ["spurless-coil/1"] = "coil --turns 5 --diameter \"10 mm\" --length \"10 mm\" --wire \"1 mm\" --at \"146 MHz\"",
        ["spurless-fit/1"] = "fit demo/filters/unmarked.circuit.yaml demo/filters/unmarked.s2p",
        ["spurless-path/1"] = "path demo/hill.site.yaml --from \"valley relay\"",
        ["spurless-design/1"] = "design demo/filters/quiet-input.requirement.yaml --count 2",
        ["spurless-import/1"] = "register import demo/register --into register.db --as-of 2031-03-04",
        ["spurless-near/1"] = "register near demo/unlisted.site.yaml --from demo/register --radius \"25 km\" "
            + "--match demo/quernmoss.site.yaml",
        ["spurless-survey/1"] = "survey demo/sweeps/hill.sweep.csv --padded demo/sweeps/hill-padded.sweep.csv --pad \"10 dB\"",
        ["spurless-cure/1"] = "cure demo/quernmoss.site.yaml",
        ["spurless-bypass/1"] = "bypass demo/quernmoss.bypass.yaml",
        ["spurless-receiver/1"] = "receiver demo/quernmoss.receiver.yaml",
        ["spurless-locate/1"] = "locate demo/quernmoss-heard.site.yaml",
        ["spurless-newcomer/1"] = "newcomer demo/quernmoss-cured.site.yaml demo/newcomer-dale-link.site.yaml",
        ["spurless-plan/1"] = "plan demo/quernmoss.site.yaml --band \"145.0 MHz-145.8 MHz\" --raster \"12.5 kHz\" --count 2",
        ["spurless-mix/1"] = "mix 145.05 --of 160.525,466.1",
        ["spurless-listen/1"] = "listen demo/recordings/warble.wav --site demo/quernmoss.site.yaml",
    };

    private static readonly Dictionary<string, string> Blocks = ReadBlocks().ToDictionary(static b => Format(b), static b => b);

    public static TheoryData<string> Formats => [.. Blocks.Keys];

    [Fact]
    public void Page_shows_every_format_that_has_a_writer() =>
        Assert.Equal(Writers.Keys.Order(StringComparer.Ordinal), Blocks.Keys.Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Formats))]
    public async Task Page_shows_what_is_written(string format)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended ended = await BuiltProgram.RunAsync(folder.Path, [.. BuiltProgram.Split(Writers[format]), "--format", "json"]);
        Assert.True(ended.Status == 0, ended.Error);
        using JsonDocument shown = JsonDocument.Parse(Blocks[format]);
        using JsonDocument written = JsonDocument.Parse(ended.Output);
        AssertHas(shown.RootElement, [written.RootElement], format);
    }

    // Every key shown stands in what is written, with the same kind of value; a figure may be unknown. Of a list each shown item is sought
    // among all that are written.
    private static void AssertHas(JsonElement shown, IReadOnlyList<JsonElement> written, string path)
    {
        JsonElement[] known = [.. written.Where(static w => w.ValueKind != JsonValueKind.Null)];
        if (shown.ValueKind == JsonValueKind.Object)
        {
            foreach (JsonProperty property in shown.EnumerateObject())
            {
                JsonElement[] found =
                [
                    .. known.Where(w => w.TryGetProperty(property.Name, out _)).Select(w => w.GetProperty(property.Name)),
                ];
                Assert.True(found.Length > 0, $"{path}.{property.Name} is not written");
                AssertHas(property.Value, found, $"{path}.{property.Name}");
            }
        }
        else if (shown.ValueKind == JsonValueKind.Array && shown.GetArrayLength() > 0)
        {
            Assert.All(known, w => Assert.True(w.ValueKind == JsonValueKind.Array, $"{path} is no list"));
            JsonElement[] items = [.. known.SelectMany(static w => w.EnumerateArray())];
            Assert.True(items.Length > 0 || path.EndsWith(".inseparable", StringComparison.Ordinal), $"{path} is empty");
            if (items.Length > 0)
            {
                Assert.All(shown.EnumerateArray(), s => AssertHas(s, items, path + "[]"));
            }
        }
        else if (shown.ValueKind != JsonValueKind.Null)
        {
            Assert.All(known, w => Assert.True(Kind(w) == Kind(shown), $"{path} is written as {w.ValueKind}"));
        }
    }

    private static string Kind(JsonElement element) =>
        element.ValueKind is JsonValueKind.True or JsonValueKind.False ? "yes or no" : element.ValueKind.ToString();

    private static string Format(string block)
    {
        using JsonDocument json = JsonDocument.Parse(block);
        return json.RootElement.GetProperty("format").GetString()!;
    }

    private static IEnumerable<string> ReadBlocks()
    {
        List<string>? block = null;
        foreach (string line in File.ReadLines(Repository.PathOf("docs", "formats", "results.md")))
        {
            if (line == "```json")
            {
                block = [];
            }
            else if (line == "```" && block is not null)
            {
                yield return string.Join('\n', block);
                block = null;
            }
            else
            {
                block?.Add(line);
            }
        }
    }
}
