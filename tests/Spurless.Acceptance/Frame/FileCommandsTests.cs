using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>check, new and schema.</summary>
public sealed class FileCommandsTests : IDisposable
{
    private readonly WorkFolder _folder = WorkFolder.WithDemo();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Check_every_file_of_the_demo_has_nothing_wrong()
    {
        string[] files =
        [
            .. Directory.EnumerateFiles(_folder["demo"], "*", SearchOption.AllDirectories).Where(
                static f => !f.EndsWith(".md", StringComparison.Ordinal)),
        ];
        Assert.NotEmpty(files);
        foreach (string file in files)
        {
            (int status, string output, string error) = await CapturedTerminal.RunAsync("check", file);
            Assert.Equal((0, ""), (status, error));
            Assert.EndsWith(": nothing wrong\n", output, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("site", "my.site.yaml", "site file (1 receiver, 3 emitters)")]
    [InlineData("circuit", "my.circuit.yaml", "circuit file (7 parts)")]
    [InlineData("requirement", "my.requirement.yaml", "requirement file (2 rejections)")]
    [InlineData("bypass", "my.bypass.yaml", "bypass relay (2 driver stages)")]
    [InlineData("receiver", "my.receiver.yaml", "measurements of a receiver (4 readings)")]
    public async Task New_template_reads_without_a_finding(string kind, string name, string holds)
    {
        string path = _folder[name];
        (int made, _, string fault) = await CapturedTerminal.RunAsync("new", kind, "--out", path);
        Assert.Equal((0, ""), (made, fault));
        (int status, string output, string error) = await CapturedTerminal.RunAsync("check", path);
        Assert.Equal((0, ""), (status, error));
        Assert.Equal($"{path}: {holds}: nothing wrong\n", output);
    }

    [Fact]
    public async Task New_does_not_write_over_a_file()
    {
        File.WriteAllText(_folder["mine.site.yaml"], "mine");
        (int status, _, string error) = await CapturedTerminal.RunAsync("new", "site", "--out", _folder["mine.site.yaml"]);
        Assert.Equal(2, status);
        Assert.Contains("is there already", error, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(_folder["mine.site.yaml"]));
    }

    [Theory]
    [InlineData("site")]
    [InlineData("circuit")]
    [InlineData("requirement")]
    [InlineData("receiver")]
    public async Task Schema_is_one_of_JSON_Schema_2020_12(string kind)
    {
        (int status, string output, _) = await CapturedTerminal.RunAsync("schema", kind);
        Assert.Equal(0, status);
        using JsonDocument schema = JsonDocument.Parse(output);
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
        Assert.Equal("object", schema.RootElement.GetProperty("type").GetString());
    }

    [Theory]
    [InlineData("a.txt", "spurless: 1\nsite: x\n", "site file")]
    [InlineData("a.txt", "# comment\nspurless_circuit: 1\n", "circuit file")]
    [InlineData("a.txt", "! comment\n# MHz S RI R 50\n145 0.1 0 0.5 0 0.5 0 0.1 0\n", "Touchstone file")]
    [InlineData("a.S2P", "# MHz S RI R 50\n145 0.1 0 0.5 0 0.5 0 0.1 0\n", "Touchstone file (2 ports, 1 point, 145 MHz to 145 MHz)")]
    [InlineData("a.log.csv", "time,r,e\n2031-03-04T19:02:00Z,1,\n2031-03-04T19:03:00Z,,\n", "observation log (2 rows, 2 names)")]
    [InlineData("a.csv", "name;frequency;bandwidth;antenna.gain\nx;145 MHz;16 kHz;6 dBd\n", "table of emitters (1 emitter)")]
    public async Task Check_kind_is_told_by_name_or_by_head(string name, string text, string kind)
    {
        File.WriteAllText(_folder[name], text);
        (_, string output, _) = await CapturedTerminal.RunAsync("check", _folder[name]);
        Assert.StartsWith($"{_folder[name]}: {kind}", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_log_tells_every_fault_at_its_cell()
    {
        File.WriteAllText(_folder["a.log.csv"], "time,r\nyesterday,1\n2031-03-04T19:02:00Z,on\n2031-03-04T19:01:00Z,0\n");
        (int status, _, string error) = await CapturedTerminal.RunAsync("check", _folder["a.log.csv"]);
        Assert.Equal(1, status);
        Assert.Collection(
            error.TrimEnd('\n').Split('\n'),
            l => Assert.StartsWith($"{_folder["a.log.csv"]}:2:1: 'yesterday' ", l, StringComparison.Ordinal),
            l => Assert.StartsWith($"{_folder["a.log.csv"]}:3:22: 'on' ", l, StringComparison.Ordinal),
            l => Assert.StartsWith($"{_folder["a.log.csv"]}:4:1: ", l, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Check_json_holds_the_findings_too()
    {
        File.WriteAllText(_folder["bad.site.yaml"], "spurless: 1\nsite: s\nreceivers: []\n");
        (int status, string output, string error) = await CapturedTerminal.RunAsync("check", _folder["bad.site.yaml"], "--format", "json");
        Assert.Equal(1, status);
        using JsonDocument json = JsonDocument.Parse(output);
        Assert.Equal("spurless-check/1", json.RootElement.GetProperty("format").GetString());
        Assert.Equal(error.TrimEnd('\n').Split('\n').Length, json.RootElement.GetProperty("findings").GetArrayLength());
        Assert.Equal(3, json.RootElement.GetProperty("findings")[0].GetProperty("line").GetInt32());
    }
}
