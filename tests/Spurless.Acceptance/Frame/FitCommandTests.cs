using System.Globalization;
using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>fit as a user calls it, on the demo's unlabelled filter.</summary>
public class FitCommandTests
{
    private static readonly string Circuit = Repository.PathOf("demo", "filters", "unmarked.circuit.yaml");
    private static readonly string Sweep = Repository.PathOf("demo", "filters", "unmarked.s2p");

    [Fact]
    public async Task Fit_writes_its_fixed_fields_and_a_file_that_the_other_commands_read()
    {
        using WorkFolder folder = new();
        string fitted = folder["fitted.circuit.yaml"];
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "fit", Circuit, Sweep, "--format", "json", "--out", fitted);
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        Assert.Equal("spurless-fit/1", json.RootElement.GetProperty("format").GetString());
        Assert.Equal(13, json.RootElement.GetProperty("parameters").GetArrayLength());
        foreach (JsonElement p in json.RootElement.GetProperty("parameters").EnumerateArray())
        {
            (double low, double value, double high) = (
                p.GetProperty("low").GetDouble(), p.GetProperty("value").GetDouble(), p.GetProperty("high").GetDouble());
            Assert.True(low <= value && value <= high);
            Assert.Equal(high <= 2 * low, p.GetProperty("identifiable").GetBoolean());
            Assert.Contains(p.GetProperty("quantity").GetString(), (string[])["capacitance_f", "inductance_h", "q"]);
            Assert.False(string.IsNullOrEmpty(p.GetProperty("part").GetString()));
        }

        // The middle tank's level: a trait of the circuit, not of the sweep.
        Assert.Equal(
            ["C3", "C4", "C5", "L2"],
            json.RootElement.GetProperty("inseparable")[0].EnumerateArray().Select(static e => e.GetString()!).Order());

        // The sweep was made with a floor of -74 dB and 0.05 % of trace noise, so over all S-parameters about -68 dB.
        Assert.InRange(json.RootElement.GetProperty("rms_residual_db").GetDouble(), -70, -66);
        (int again, string csv, _) = await CapturedTerminal.RunAsync("response", fitted, "--at", "145.05 MHz", "--format", "csv");
        Assert.Equal(0, again);
        double s21Db = double.Parse(csv.Split('\n')[1].Split(',')[1], CultureInfo.InvariantCulture);
        double measured = double.Parse(
            (await CapturedTerminal.RunAsync("response", Sweep, "--at", "145 MHz", "--format", "csv")).Output.Split('\n')[1].Split(',')[1],
            CultureInfo.InvariantCulture);
        Assert.Equal(measured, s21Db, 0.15);
    }

    [Fact]
    public async Task Fit_of_the_demo_is_the_fitted_file_that_the_demo_holds()
    {
        using WorkFolder folder = new();
        string fitted = folder["fitted.circuit.yaml"];
        Assert.Equal(0, (await CapturedTerminal.RunAsync("fit", Circuit, Sweep, "--format", "csv", "--out", fitted)).Status);
        string[] expected = File.ReadAllLines(Repository.PathOf("demo", "filters", "unmarked-fitted.circuit.yaml")),
        found = File.ReadAllLines(fitted);
        Assert.Equal(expected.Length, found.Length);

        // The last of six figures may differ on another machine.
        foreach ((string a, string b) in expected.Zip(found))
        {
            string[] wordsA = a.Split(' '), wordsB = b.Split(' ');
            Assert.Equal(wordsA.Length, wordsB.Length);
            foreach ((string x, string y) in wordsA.Zip(wordsB))
            {
                if (double.TryParse(x, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
                    && double.TryParse(y, NumberStyles.Float, CultureInfo.InvariantCulture, out double other))
                {
                    Assert.Equal(number, other, 0.002 * Math.Abs(number));
                }
                else
                {
                    Assert.Equal(x, y);
                }
            }
        }
    }

    [Fact]
    public async Task Fit_of_magnitudes_that_response_wrote_is_taken()
    {
        using WorkFolder folder = new();
        string csv = folder["sweep.csv"];
        Assert.Equal(0, (await CapturedTerminal.RunAsync("response", Sweep, "--format", "csv", "--out", csv)).Status);
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "fit", Circuit, csv, "--format", "json", "--starts", "4");
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        Assert.Equal("spurless-fit/1", json.RootElement.GetProperty("format").GetString());
    }

    [Fact]
    public async Task Fit_report_is_a_whole_page_with_sweep_and_fit()
    {
        (int status, string page, string error) = await CapturedTerminal.RunAsync("fit", Circuit, Sweep, "--format", "html");
        Assert.Equal((0, ""), (status, error));
        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
        Assert.Contains("Cautions", page, StringComparison.Ordinal);
        Assert.Contains("What is left over", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Fit_of_a_sweep_of_something_else_tells_no_values()
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "fit", Circuit, Repository.PathOf("demo", "filters", "duplexer-high.s2p"));
        Assert.Equal((1, ""), (status, output));
        Assert.Contains("does not explain this sweep", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, "three-tank.circuit.yaml:0:0: nothing in the circuit is unknown", "three-tank.circuit.yaml", "unmarked.s2p")]
    [InlineData(1, "this is no sweep", "unmarked.circuit.yaml", "three-tank.circuit.yaml")]
    [InlineData(1, "this is no circuit file", "unmarked.s2p", "unmarked.circuit.yaml")]
    [InlineData(1, "there is no such file", "unmarked.circuit.yaml", "nothing.s2p")]
    public async Task Fit_of_the_wrong_files_says_so(int status, string says, string circuit, string sweep)
    {
        (int ended, string output, string error) = await CapturedTerminal.RunAsync(
            "fit", Repository.PathOf("demo", "filters", circuit), Repository.PathOf("demo", "filters", sweep));
        Assert.Equal((status, ""), (ended, output));
        Assert.Contains(says, error, StringComparison.Ordinal);
    }
}
