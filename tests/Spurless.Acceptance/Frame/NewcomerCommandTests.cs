using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary><c>newcomer</c> as one types it: the demo's newcomer fails, and passes once its conditions are written into its file.</summary>
public sealed class NewcomerCommandTests : IDisposable
{
    private readonly WorkFolder _folder = WorkFolder.WithDemo();

    private string Site => _folder["demo/quernmoss-cured.site.yaml"];

    private string Newcomer => _folder["demo/newcomer-dale-link.site.yaml"];

    public void Dispose() => _folder.Dispose();

    /// <summary>The needs of the answer, written as keys of its transmitters, make it pass; with 1 dB less of either it fails.</summary>
    [Theory]
    [InlineData(0, 0, true)]
    [InlineData(1, 0, false)]
    [InlineData(0, 1, false)]
    public async Task Newcomer_with_its_conditions_in_the_file_passes(double lessOfOne, double lessOfTwo, bool passes)
    {
        JsonElement[] before = await ReceiversAsync();
        Assert.False(before[0].GetProperty("passes").GetBoolean());
        double[] needs = [.. before[0].GetProperty("needs").EnumerateArray().Select(static n => n.GetProperty("needed_db").GetDouble())];
        Assert.Equal(2, needs.Length);
        string[] parts = File.ReadAllText(Newcomer).Split("power: 10 W");
        string one = FormattableString.Invariant($"power: 10 W\n    isolator: {needs[0] - lessOfOne:0.0} dB");
        string two = FormattableString.Invariant($"power: 10 W\n    isolator: {needs[1] - lessOfTwo:0.0} dB");
        File.WriteAllText(Newcomer, parts[0] + one + parts[1] + two + parts[2]);
        Assert.Equal(passes, (await ReceiversAsync())[0].GetProperty("passes").GetBoolean());
    }

    /// <summary>What arrives at the site's transmitters is said at the newcomer's, and 'check' knows the site's names.</summary>
    [Fact]
    public async Task Newcomer_states_what_arrives_at_a_transmitter_of_the_site()
    {
        string text = File.ReadAllText(Newcomer);
        File.WriteAllText(
            Newcomer, text.Replace(
                "coupling: { dale link two: 30 dB }", "coupling: { dale link two: 30 dB }\n    coupling_to: { telemetry scanner: 45 dB }",
                StringComparison.Ordinal));
        Assert.Contains("there is no emitter 'telemetry scanner'", (await CapturedTerminal.RunAsync("check", Newcomer)).Error,
            StringComparison.Ordinal);
        (int status, string output, string error) = await CapturedTerminal.RunAsync("check", Newcomer, "--newcomer-to", Site);
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("1 receiver, 2 emitters", output, StringComparison.Ordinal);

        // Of what comes in at that transmitter one thing less is not known.
        (_, string told, _) = await CapturedTerminal.RunAsync("newcomer", Site, Newcomer, "--format", "json");
        Assert.Contains("and 10 more in the transmitter of telemetry scanner are not known", told, StringComparison.Ordinal);
        File.WriteAllText(Newcomer, text);
        (_, string before, _) = await CapturedTerminal.RunAsync("newcomer", Site, Newcomer, "--format", "json");
        Assert.Contains("and 11 more in the transmitter of telemetry scanner are not known", before, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Newcomer_says_all_that_is_wrong_with_both_files()
    {
        File.WriteAllText(Site, File.ReadAllText(Site).Replace("channel: 12.5 kHz", "channel: 12.5", StringComparison.Ordinal));
        File.WriteAllText(
            Newcomer, File.ReadAllText(Newcomer).Replace("iip3: 0 dBm", "iip3: 0 dB", StringComparison.Ordinal)
                .Replace("power: 10 W", "power: ten", StringComparison.Ordinal));
        (int status, string output, string error) = await CapturedTerminal.RunAsync("newcomer", Site, Newcomer);
        Assert.Equal((1, ""), (status, output));
        string[] lines = error.TrimEnd('\n').Split('\n');
        Assert.Equal(4, lines.Length);
        Assert.StartsWith($"{Site}:11:14: ", lines[0], StringComparison.Ordinal);
        Assert.Equal(3, lines.Count(l => l.StartsWith(Newcomer + ":", StringComparison.Ordinal)));
        Assert.All(lines, static l => Assert.Contains("; ", l, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Newcomer_name_in_both_is_an_error_of_the_newcomer()
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync("newcomer", Site, Site);
        Assert.Equal((1, ""), (status, output));
        Assert.Equal($"{Site}:0:0: this is the site's own file; name the file of who asks to join it\n", error);
        File.WriteAllText(
            Newcomer, File.ReadAllText(Newcomer).Replace("name: dale input", "name: gauging station", StringComparison.Ordinal));
        (status, _, error) = await CapturedTerminal.RunAsync("newcomer", Site, Newcomer);
        Assert.Equal(1, status);
        string line = Assert.Single(error.TrimEnd('\n').Split('\n'));
        Assert.StartsWith($"{Newcomer}:12:11: the name 'gauging station' belongs to the emitter of {Site}, line ", line,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("newcomer")]
    [InlineData("newcomer", "a.site.yaml")]
    public async Task Newcomer_without_both_files_is_a_usage_error(params string[] words)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(words);
        Assert.Equal((2, ""), (status, output));
        Assert.NotEmpty(error);
    }

    private async Task<JsonElement[]> ReceiversAsync()
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync("newcomer", Site, Newcomer, "--format", "json");
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        return [.. json.RootElement.GetProperty("receivers").Clone().EnumerateArray()];
    }
}
