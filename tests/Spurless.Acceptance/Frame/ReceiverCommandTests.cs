using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

public sealed class ReceiverCommandTests : IDisposable
{
    private readonly WorkFolder _folder = WorkFolder.WithDemo();

    public void Dispose() => _folder.Dispose();

    /// <summary>What is written is what a study then counts with, and what stood there is told.</summary>
    [Fact]
    public async Task Add_writes_the_figures_and_a_study_uses_them()
    {
        string site = _folder["demo/quernmoss.site.yaml"], measured = _folder["demo/quernmoss.receiver.yaml"];
        string before = await File.ReadAllTextAsync(site);
        double noise = await NoiseFloor(site);
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "receiver", measured, "--add", site, "--receiver", "repeater input", "--format", "json");
        Assert.True(status == 0, error);
        Assert.Contains("iip3: -2.4 dBm, where -2 dBm stood", error, StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(output);
        Assert.Contains(
            json.RootElement.GetProperty("written").EnumerateArray(),
            static w => w.GetProperty("key").GetString() == "noise_figure" && w.GetProperty("was").GetString() == "6 dB"
                && w.GetProperty("now").GetString() == "6.2 dB");
        string after = await File.ReadAllTextAsync(site);
        Assert.StartsWith(before[..before.IndexOf("    noise_figure", StringComparison.Ordinal)], after, StringComparison.Ordinal);
        Assert.Equal(0.2, await NoiseFloor(site) - noise, 1e-5);
        (status, _, error) = await CapturedTerminal.RunAsync("check", site);
        Assert.Equal((0, ""), (status, error));
    }

    [Theory]
    [InlineData("--add", "a.site.yaml")]
    [InlineData("--receiver", "input")]
    public async Task Add_and_receiver_belong_together(string option, string value)
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync(
            "receiver", _folder["demo/quernmoss.receiver.yaml"], option, value);
        Assert.Equal(2, status);
        Assert.Contains("--add and --receiver belong together", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Site_without_that_receiver_stays_as_it_is()
    {
        string site = _folder["demo/quernmoss.site.yaml"];
        byte[] before = await File.ReadAllBytesAsync(site);
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "receiver", _folder["demo/quernmoss.receiver.yaml"], "--add", site, "--receiver", "repeater inputt");
        Assert.Equal((1, ""), (status, output));
        Assert.Contains("write --receiver \"repeater input\"", error, StringComparison.Ordinal);
        Assert.Equal(before, await File.ReadAllBytesAsync(site));
    }

    /// <summary>A file without readings has a sheet to take them with.</summary>
    [Fact]
    public async Task Html_of_a_file_without_readings_is_the_sheet_for_the_bench()
    {
        string empty = _folder["empty.receiver.yaml"];
        await File.WriteAllTextAsync(empty, "spurless_receiver: 1\nname: bench\nfrequency: 145.05 MHz\nchannel: 12.5 kHz\n");
        (int status, string page, string error) = await CapturedTerminal.RunAsync("receiver", empty, "--format", "html");
        Assert.True(status == 0, error);
        Assert.Contains("On the bench: how to measure", page, StringComparison.Ordinal);
        Assert.Contains("145.1 and 145.15 MHz", page, StringComparison.Ordinal);
    }

    private static async Task<double> NoiseFloor(string site)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync("study", site, "--format", "json", "--top", "1");
        Assert.True(status == 0, error);
        using JsonDocument json = JsonDocument.Parse(output);
        return json.RootElement.GetProperty("receivers")[0].GetProperty("noise_floor_dbm").GetDouble();
    }
}
