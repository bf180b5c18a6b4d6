using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>design as a user calls it, on the demo.</summary>
public class DesignCommandTests
{
    private static readonly string Requirement = Repository.PathOf("demo", "filters", "quiet-input.requirement.yaml");

    [Fact]
    public async Task Design_writes_its_fixed_fields_and_files_of_which_they_are_true()
    {
        using WorkFolder folder = new();
        string designed = folder["designed"];
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "design", Requirement, "--count", "2", "--format", "json", "--out", designed);
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        Assert.Equal("spurless-design/1", json.RootElement.GetProperty("format").GetString());
        JsonElement[] candidates = [.. json.RootElement.GetProperty("candidates").EnumerateArray()];
        Assert.Equal(2, candidates.Length);
        foreach ((JsonElement c, int i) in candidates.Select(static (c, i) => (c, i)))
        {
            Assert.Equal(i + 1, c.GetProperty("rank").GetInt32());
            Assert.True(c.GetProperty("meets").GetBoolean());
            Assert.Equal(4, c.GetProperty("rejections").GetArrayLength());
            Assert.InRange(c.GetProperty("yield").GetDouble(), 0, 1);
            string file = Path.Combine(designed, c.GetProperty("file").GetString()!);
            string[] lines = File.ReadAllLines(file);
            Assert.Equal(
                c.GetProperty("parts").GetInt32(),
                lines.SkipWhile(static l => l != "parts:").Skip(1).Count(static l => l.StartsWith("  ", StringComparison.Ordinal)));

            // The other commands say the same of the file.
            (int again, string told, _) = await CapturedTerminal.RunAsync("tolerance", file, "--mask", Requirement, "--format", "json");
            Assert.Equal(0, again);
            using JsonDocument spread = JsonDocument.Parse(told);
            Assert.Equal(c.GetProperty("yield").GetDouble(), spread.RootElement.GetProperty("yield").GetDouble(), 1e-9);
            Assert.All(
                spread.RootElement.GetProperty("mask").EnumerateArray(), static m => Assert.True(m.GetProperty("meets").GetBoolean()));
            JsonElement first = c.GetProperty("rejections")[0];
            (_, string response, _) = await CapturedTerminal.RunAsync("response", file, "--at", "153.35 MHz", "--format", "json");
            using JsonDocument point = JsonDocument.Parse(response);
            JsonElement s21 = point.RootElement.GetProperty("points")[0].GetProperty("s21");
            Assert.Equal(
                first.GetProperty("achieved_db").GetDouble(), -20 * Math.Log10(double.Hypot(s21[0].GetDouble(), s21[1].GetDouble())), 1e-5);
        }

        // A file that somebody changed since is left alone.
        string changed = Path.Combine(designed, candidates[0].GetProperty("file").GetString()!);
        await File.AppendAllTextAsync(changed, "# mine\n");
        (_, string second, _) = await CapturedTerminal.RunAsync(
            "design", Requirement, "--count", "2", "--format", "json", "--out", designed);
        Assert.EndsWith("# mine\n", await File.ReadAllTextAsync(changed), StringComparison.Ordinal);
        using JsonDocument renamed = JsonDocument.Parse(second);
        Assert.NotEqual(Path.GetFileName(changed), renamed.RootElement.GetProperty("candidates")[0].GetProperty("file").GetString());
    }

    [Fact]
    public async Task Design_sheet_stands_by_itself_and_holds_the_cautions()
    {
        (int status, string page, string error) = await CapturedTerminal.RunAsync(
            "design", Requirement, "--count", "1", "--format", "html");
        Assert.Equal((0, ""), (status, error));
        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
        Assert.Contains(">Cautions<", page, StringComparison.Ordinal);
        Assert.Contains(">Tuning<", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", page.Replace("http://www.w3.org/", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Design_of_a_requirement_that_contradicts_itself_says_all_of_it()
    {
        using WorkFolder folder = new();
        string file = folder["bad.requirement.yaml"];
        await File.WriteAllTextAsync(file, """
            spurless_requirement: 1
            name: bad
            pass: { from: 2000 MHz, to: 2010 MHz, loss: 2 dB }
            reject:
              - { at: 2100 MHz, by: 300 dB }
            parts: { inductor_q: 0.1 at 146 MHz }

            """);
        (int status, string output, string error) = await CapturedTerminal.RunAsync("design", file);
        Assert.Equal((1, ""), (status, output));
        Assert.Contains("ask for a band within 1 MHz to 1000 MHz", error, StringComparison.Ordinal);
        Assert.Contains($"{file}:5:", error, StringComparison.Ordinal);
        Assert.Contains("inductor_q is under 1", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("design")]
    [InlineData("design", "a.requirement.yaml", "--from-site", "b.site.yaml")]
    public async Task Design_without_one_source_is_a_usage_error(params string[] words)
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync(words);
        Assert.Equal(2, status);
        Assert.Contains("write", error, StringComparison.Ordinal);
    }
}
