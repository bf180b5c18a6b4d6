using System.Globalization;
using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>study as a user calls it, on the demo.</summary>
public class StudyCommandTests
{
    private static readonly string Demo = Repository.PathOf("demo", "quernmoss.site.yaml");
    private static readonly string Filtered = Repository.PathOf("demo", "quernmoss-filtered.site.yaml");

    [Fact]
    public async Task Study_of_standard_input_is_that_of_the_file()
    {
        string text = await File.ReadAllTextAsync(Repository.PathOf("demo", "unlisted.site.yaml"));
        (int status, string output, string error) = await CapturedTerminal.RunWithInputAsync(text, "study", "-");
        (_, string expected, _) = await CapturedTerminal.RunAsync("study", Repository.PathOf("demo", "unlisted.site.yaml"));
        Assert.Equal((0, ""), (status, error));
        Assert.Equal(expected, output);
        (int bad, _, string says) = await CapturedTerminal.RunWithInputAsync("spurless: 2\n", "check", "-");
        Assert.Equal(1, bad);
        Assert.StartsWith("-:1:", says, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Study_demo_has_the_figures_of_its_description()
    {
        // Levels of the demo's own description, computed once outside the program; tolerance 0.1 dB.
        (string Mixture, double OverNoise, string Verdict)[] expected =
        [
            ("2 x 158.3000 - 171.5500 = 145.0500", 33.9, "harmful"),
            ("466.1000 - 2 x 160.5250 = 145.0500", 23.3, "harmful"),
            ("145.6500 + 160.5250 - 161.1250 = 145.0500", 22.2, "harmful"),
            ("94.2000 + 50.8500 = 145.0500", 21.1, "harmful"),
            ("3 x 153.3500 - 2 x 157.5000 = 145.0500", 14.1, "harmful"),
            ("2 x 148.6125 - 152.1750 = 145.0500", -1.9, "marginal"),
        ];
        (int status, string output, string error) = await CapturedTerminal.RunAsync("study", Demo, "--format", "csv");
        Assert.Equal((0, ""), (status, error));
        string[][] rows = [.. output.TrimEnd('\n').Split('\n').Skip(1).Select(static l => l.Split(','))];
        foreach ((string mixture, double over, string verdict) in expected)
        {
            string[] row = rows.Single(r => r[14] == mixture && r[8] == "receiver");
            Assert.Equal(verdict, row[1]);
            Assert.Equal(over, double.Parse(row[3], System.Globalization.CultureInfo.InvariantCulture), 0.1);
        }
    }

    [Fact]
    public async Task Study_text_fits_80_columns()
    {
        (_, string output, _) = await CapturedTerminal.RunAsync("study", Filtered);
        Assert.All(output.Split('\n'), static l => Assert.True(l.Length <= 80, l));
    }

    [Fact]
    public async Task Study_top_says_how_many_it_left_out()
    {
        (_, string output, _) = await CapturedTerminal.RunAsync("study", Demo, "--top", "2", "--floor", "none", "--format", "json");
        using JsonDocument json = JsonDocument.Parse(output);
        JsonElement receiver = json.RootElement.GetProperty("receivers")[0];
        Assert.Equal(2, receiver.GetProperty("products").GetArrayLength());
        Assert.True(receiver.GetProperty("products_left_out").GetInt64() > 4);
    }

    // 700 carriers, five at a time: some thousand millions of mixtures. Refused before the search, and with --top only the strongest are
    // looked for.
    [Fact]
    public async Task Study_of_a_hopeless_list_says_so_at_once_and_top_gives_the_strongest()
    {
        string folder = Directory.CreateTempSubdirectory("spurless-").FullName;
        try
        {
            string path = Path.Combine(folder, "many.site.yaml");
            Random random = new(3);
            await File.WriteAllTextAsync(
                path,
                "spurless: 1\nsite: invented\nreceivers:\n  - { name: input, frequency: 145.05 MHz, channel: "
                    + "12.5 kHz, noise_figure: 6 dB, iip3: -5 dBm }\nemitters:\n"
                + string.Concat(Enumerable.Range(0, 700).Select(i => string.Create(
                    CultureInfo.InvariantCulture,
                    $"  - {{ name: e{i}, frequency: {146 + (random.Next(2_240) * 0.0125):0.0000} MHz, emission: "
                        + $"11K2F3E, level: {-85 + (60 * random.NextDouble()):0.00} dBm }}\n"))));
            (int status, string output, string error) = await CapturedTerminal.RunAsync(
                "study", path, "--floor", "none", "--orders", "2-5", "--signals", "5");
            Assert.Equal((1, ""), (status, output));
            Assert.Contains("by a forecast, and no list is made of more than 2,000,000; write --top N", error, StringComparison.Ordinal);

            (status, output, error) = await CapturedTerminal.RunAsync(
                "study", path, "--floor", "none", "--orders", "2-5", "--signals", "5", "--top", "2", "--format", "json");
            Assert.Equal((0, ""), (status, error));
            using JsonDocument json = JsonDocument.Parse(output);
            JsonElement receiver = json.RootElement.GetProperty("receivers")[0];
            Assert.Equal(2, receiver.GetProperty("products").GetArrayLength());
            Assert.True(receiver.GetProperty("products_left_out").GetInt64() > 2_000_000);
            Assert.True(receiver.GetProperty("products_left_out_forecast").GetBoolean());
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Study_thresholds_move_the_verdicts()
    {
        (_, string output, _) = await CapturedTerminal.RunAsync(
            "study", Demo, "--harmful-from", "30", "--marginal-from", "20 dB", "--format", "json");
        using JsonDocument json = JsonDocument.Parse(output);
        JsonElement receiver = json.RootElement.GetProperty("receivers")[0];
        Assert.All(receiver.GetProperty("products").EnumerateArray(), static p => Assert.Equal(
            p.GetProperty("over_noise_db").GetDouble() switch { >= 30 => "harmful", >= 20 => "marginal", _ => "clear" },
            p.GetProperty("verdict").GetString()));
    }

    [Fact]
    public async Task Study_against_says_what_went()
    {
        (int status, string output, _) = await CapturedTerminal.RunAsync("study", Filtered, "--against", Demo);
        Assert.Equal(0, status);
        Assert.Contains("went", output, StringComparison.Ordinal);
        Assert.Contains("466.1000 - 2 x 160.5250 = 145.0500", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--floor: '-150 dBq' ", "--floor", "-150 dBq")]
    [InlineData("--top: '0' is no count", "--top", "0")]
    [InlineData("--floor has no value: '--top' reads as the next option", "--floor", "--top", "3")]
    [InlineData("--marginal-from is above --harmful-from", "--marginal-from", "3")]
    public async Task Study_faulty_options_are_usage_errors(string says, params string[] options)
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync(["study", Demo, .. options]);
        Assert.Equal(2, status);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Study_negative_floor_is_a_value() =>
        Assert.Equal(0, (await CapturedTerminal.RunAsync("study", Demo, "--floor", "-150")).Status);
}
