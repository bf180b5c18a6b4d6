using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

public class MixTests
{
    [Fact]
    public async Task Mix_offsets_and_orders_are_those_of_the_arithmetic()
    {
        // By hand: 2 x 158.3 - 171.55 = 145.05 (order 3); 2 x 171.55 - 158.3 = 184.8, far off.
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "mix", "145.055", "--of", "158.3, 171.55 MHz", "--format", "json");
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        Assert.Equal("spurless-mix/1", json.RootElement.GetProperty("format").GetString());
        JsonElement product = Assert.Single(json.RootElement.GetProperty("products").EnumerateArray());
        Assert.Equal(3, product.GetProperty("order").GetInt32());
        Assert.Equal(145_050_000, product.GetProperty("frequency_hz").GetInt64());
        Assert.Equal(-5_000, product.GetProperty("offset_hz").GetInt64());
        Assert.Equal([2, -1], product.GetProperty("terms").EnumerateArray().Select(static t => t.GetProperty("coefficient").GetInt32()));
    }

    [Theory]
    [InlineData("145.0625", true)] // 145.05 is 12.5 kHz off: the edge counts
    [InlineData("145.062501", false)]
    public async Task Mix_edge_of_the_width_counts(string frequency, bool found)
    {
        (_, string output, _) = await CapturedTerminal.RunAsync("mix", frequency, "--of", "158.3,171.55", "--format", "csv");
        Assert.Equal(found ? 2 : 1, output.TrimEnd('\n').Split('\n').Length);
    }

    // '160,525' may be one frequency with a decimal comma: nothing in it tells, so the reading is said beside the answer.
    [Theory]
    [InlineData("145.05", "160,525,466,1",
        "--of was read as 160.0000, 525.0000, 466.0000, 1.0000 MHz; if the commas were meant as decimal points, write points")]
    [InlineData("145.05", "160.525,466.1", "")]
    [InlineData("145.05", "160,525,466", "")]
    [InlineData("145.05", "160 MHz,525 MHz", "")]
    [InlineData("145", "160,525", "")]
    public async Task Mix_of_whole_megahertz_in_pairs_says_how_it_read_them(string frequency, string of, string remark)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync("mix", frequency, "--of", of);
        Assert.Equal((0, remark.Length == 0 ? "" : $"spurless: {remark}\n"), (status, error));
        Assert.NotEmpty(output);
        (_, _, error) = await CapturedTerminal.RunAsync("mix", frequency, "--of", of, "--quiet");
        Assert.Equal("", error);
    }

    [Fact]
    public async Task Mix_csv_holds_the_mixture_as_people_write_it()
    {
        (_, string output, _) = await CapturedTerminal.RunAsync("mix", "145.05", "--of", "160.525,466.1", "--format", "csv");
        Assert.Equal("order,frequency_hz,offset_hz,mixture\n3,145050000,0,466.1000 - 2 x 160.5250 = 145.0500\n", output);
    }

    [Theory]
    [InlineData("145050")]
    [InlineData("20000")]
    public async Task Mix_bare_number_that_looks_like_kilohertz_is_asked_about(string number)
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync("mix", "145.05", "--of", number + ",466.1");
        Assert.Equal(2, status);
        Assert.Contains("is it in kHz? write ", error, StringComparison.Ordinal);
        Assert.Equal(0, (await CapturedTerminal.RunAsync("mix", "145.05", "--of", number + " kHz,466.1")).Status);
        Assert.Equal(0, (await CapturedTerminal.RunAsync("mix", "145.05", "--of", "10368,466.1")).Status); // the 3 cm band
    }

    [Fact]
    public async Task Mix_says_of_how_many_and_what_stands_twice()
    {
        (_, string two, _) = await CapturedTerminal.RunAsync("mix", "145.05", "--of", "160.525,466.1");
        Assert.Contains("each of one or more of the 2 frequencies.", two.Replace('\n', ' '), StringComparison.Ordinal);
        Assert.DoesNotContain("more than once", two, StringComparison.Ordinal);
        (_, string twice, _) = await CapturedTerminal.RunAsync("mix", "145.05", "--of", "160.525,160.525,466.1,94.2");
        Assert.Contains("each of at most 3 of the 4 frequencies.", twice.Replace('\n', ' '), StringComparison.Ordinal);
        Assert.Contains("160.5250 MHz stands there more than once", twice, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Mix_nothing_lands_says_so()
    {
        (int status, string output, _) = await CapturedTerminal.RunAsync("mix", "145.05", "--of", "433.1");
        Assert.Equal(0, status);
        Assert.Contains("no mixture", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Mix_carriers_on_one_frequency_are_two_signals()
    {
        // 145.05 + 433 - 433 with two carriers on 433 is a product; with one it would be none.
        (_, string output, _) = await CapturedTerminal.RunAsync("mix", "145.06", "--of", "145.06,433,433", "--orders", "3");
        Assert.Contains("145.0600 + 433.0000 - 433.0000 = 145.0600", output, StringComparison.Ordinal);
    }
}
