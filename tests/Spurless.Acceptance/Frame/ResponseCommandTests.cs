using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>response as a user calls it, on the demo's filter.</summary>
public class ResponseCommandTests
{
    private static readonly string Filter = Repository.PathOf("demo", "filters", "three-tank.circuit.yaml");

    [Theory]
    // The demo's own description: nodal analysis outside the program, tolerance of its printed digit.
    [InlineData("145.05 MHz", -2.92, 0.01)]
    [InlineData("145.65 MHz", -2.9, 0.06)]
    [InlineData("160.525 MHz", -33.7, 0.06)]
    [InlineData("171.55 MHz", -44.5, 0.06)]
    [InlineData("466.1 MHz", -69.6, 0.06)]
    public async Task Response_of_the_demo_filter_is_that_of_its_description(string at, double s21Db, double tolerance)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync("response", Filter, "--at", at, "--format", "json");
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        JsonElement s21 = json.RootElement.GetProperty("points")[0].GetProperty("s21");
        double magnitude = double.Hypot(s21[0].GetDouble(), s21[1].GetDouble());
        Assert.Equal(s21Db, 20 * Math.Log10(magnitude), tolerance);
        Assert.Equal(50, json.RootElement.GetProperty("impedance_ohm").GetDouble());
    }

    [Theory]
    [InlineData("10 MHz", "; 10 MHz is missing; ask within the sweep, or measure further")]
    [InlineData("10 MHz,20 MHz", "; 10 MHz to 20 MHz is missing; ask within the sweep, or measure further")]
    [InlineData("600 MHz", "; 600 MHz is missing; ask within the sweep, or measure further")]
    public async Task Response_outside_of_a_sweep_says_what_is_missing(string at, string says)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "response", Repository.PathOf("demo", "filters", "three-tank.s2p"), "--at", at);
        Assert.Equal((1, ""), (status, output));
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    // One line says what the file is, where each of its keys was called unknown.
    [Theory]
    [InlineData("circuit file", "filters", "three-tank.circuit.yaml")]
    [InlineData("Touchstone file", "filters", "three-tank.s2p")]
    [InlineData("bypass relay", "quernmoss.bypass.yaml")]
    [InlineData("measurements of a receiver", "quernmoss.receiver.yaml")]
    [InlineData("requirement file", "filters", "quiet-input.requirement.yaml")]
    [InlineData("profile of a path", "hill.profile.csv")]
    [InlineData("recording", "recordings", "warble.wav")]
    public async Task Site_that_is_another_kind_of_file_is_told_as_that(string kind, params string[] path)
    {
        string file = Repository.PathOf(["demo", .. path]);
        foreach (string command in (string[])["study", "locate", "cure"])
        {
            (int status, string output, string error) = await CapturedTerminal.RunAsync(command, file);
            Assert.Equal((1, ""), (status, output));
            Assert.Equal(
                $"{file}:0:0: this is no site file ({kind}); name a *.site.yaml; 'spurless new site' writes one to fill in\n", error);
        }
    }

    [Fact]
    public async Task Response_pass_band_is_that_of_the_description()
    {
        // -3 dB of the peak at 141.217 and 148.831 MHz; centre is their geometric mean.
        (_, string output, _) = await CapturedTerminal.RunAsync("response", Filter, "--at", "145 MHz", "--format", "json");
        using JsonDocument json = JsonDocument.Parse(output);
        JsonElement pass = json.RootElement.GetProperty("passband");
        Assert.Equal(148.831e6 - 141.217e6, pass.GetProperty("width_3db_hz").GetDouble(), 2e3);
        Assert.Equal(Math.Sqrt(148.831e6 * 141.217e6), pass.GetProperty("centre_hz").GetDouble(), 2e3);
    }

    [Fact]
    public async Task Response_as_Touchstone_reads_back_to_the_same()
    {
        using WorkFolder folder = new();
        string sweep = folder["f.s2p"];
        string[] call =
            ["response", Filter, "--from", "140 MHz", "--to", "150 MHz", "--points", "11", "--format", "s2p", "--out", sweep];
        Assert.Equal(0, (await CapturedTerminal.RunAsync(call)).Status);
        (_, string direct, _) = await CapturedTerminal.RunAsync(
            "response", Filter, "--from", "140 MHz", "--to", "150 MHz", "--points", "11", "--format", "csv");
        (int status, string again, string error) = await CapturedTerminal.RunAsync("response", sweep, "--format", "csv");
        Assert.Equal((0, ""), (status, error));
        Assert.Equal(direct, again);
    }

    [Theory]
    [InlineData(2, "--from is not below --to", "--from", "200 MHz", "--to", "100 MHz")]
    [InlineData(2, "a sweep needs both", "--from", "200 MHz")]
    [InlineData(2, "two ways of saying", "--at", "145 MHz", "--points", "5")]
    [InlineData(2, "'145' has no unit", "--at", "145")]
    [InlineData(2, "no number of points", "--from", "100 MHz", "--to", "200 MHz", "--points", "1")]
    public async Task Response_faulty_options_say_what_to_write(int status, string says, params string[] options)
    {
        (int ended, _, string error) = await CapturedTerminal.RunAsync(["response", Filter, .. options]);
        Assert.Equal(status, ended);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Response_of_another_kind_of_file_is_an_input_error()
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync("response", Repository.PathOf("demo", "quernmoss.site.yaml"));
        Assert.Equal(1, status);
        Assert.Contains("neither a circuit nor a Touchstone file", error, StringComparison.Ordinal);
    }
}
