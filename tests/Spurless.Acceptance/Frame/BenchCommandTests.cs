using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>
/// coil, stress and tolerance as a user calls them. Figures of the demo: its own description, computed outside the program.
/// </summary>
public class BenchCommandTests
{
    private static readonly string Filter = Repository.PathOf("demo", "filters", "three-tank.circuit.yaml");
    private static readonly string Requirement = Repository.PathOf("demo", "filters", "quiet-input.requirement.yaml");

    [Fact]
    public async Task Stress_of_the_demo_filter_says_24_3_watts_of_heat_and_do_not()
    {
        string[] call = ["stress", Filter, "--power", "50 W", "--at", "145.65 MHz"];
        using JsonDocument json = await JsonOf(call);
        JsonElement root = json.RootElement;
        Assert.Equal("spurless-stress/1", root.GetProperty("format").GetString());
        Assert.Equal(50, root.GetProperty("available_w").GetDouble());
        Assert.Equal(24.3, root.GetProperty("dissipated_w").GetDouble(), 0.06);
        Assert.Equal(25.37, root.GetProperty("delivered_w").GetDouble(), 0.006);
        Assert.Equal(0.38, root.GetProperty("reflected_w").GetDouble(), 0.006);
        JsonElement[] parts = [.. root.GetProperty("parts").EnumerateArray()];
        JsonElement l2 = parts.Single(static p => p.GetProperty("part").GetString() == "L2");
        Assert.Equal(7.5, l2.GetProperty("dissipation_w").GetDouble(), 0.05);
        Assert.Equal(6.8, l2.GetProperty("rms_current_a").GetDouble(), 0.05);
        Assert.Equal(
            312, parts.Single(static p => p.GetProperty("part").GetString() == "C3").GetProperty("peak_voltage_v").GetDouble(), 0.5);
        Assert.False(root.GetProperty("may_transmit").GetBoolean());

        (_, string text, _) = await CapturedTerminal.RunAsync(call);
        Assert.StartsWith("No, do not transmit through it: 50 W leave 24.3 W of heat in it", text, StringComparison.Ordinal);
        foreach (string caution in (string[])["burn", "capacitor that opens", "hot", "licence"])
        {
            Assert.Contains(caution, text, StringComparison.Ordinal);
        }

        // The circuit has coils and capacitors only: nothing in it is of that ceramic.
        Assert.DoesNotContain("Beryllia", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stress_balance_of_powers_holds()
    {
        foreach (string[] load in (string[][])[[], ["--load", "30+20j ohm"], ["--swr", "3"]])
        {
            using JsonDocument json = await JsonOf(["stress", Filter, "--power", "50 W", "--at", "145.65 MHz", .. load]);
            double Get(string name) => json.RootElement.GetProperty(name).GetDouble();
            Assert.Equal(
                0, (Get("available_w") - Get("delivered_w") - Get("reflected_w") - Get("dissipated_w")) / Get("available_w"), 1e-9);
        }
    }

    [Fact]
    public async Task Stress_judges_by_what_a_part_is_rated_for()
    {
        using WorkFolder folder = new();
        string file = folder["pad.circuit.yaml"];
        // 50 ohm in series between 50 ohm, 9 W: 4 W in the resistor (E = 60 V peak over 150 ohm, by hand): 5 W bear it, 2 W do not.
        foreach ((string watts, bool bears) in new[] { ("5 W", true), ("2 W", false) })
        {
            await File.WriteAllTextAsync(
                file,
                $"spurless_circuit: 1\nname: pad\nports: {{ in: a, out: b }}\nparts:\n  R1: {{ resistor: "
                    + $"50 ohm, between: [a, b], rated: [200 V, {watts}] }}\n");
            using JsonDocument json = await JsonOf(["stress", file, "--power", "9 W", "--at", "1 MHz"]);
            Assert.Equal(bears, json.RootElement.GetProperty("may_transmit").GetBoolean());
            Assert.Equal(bears ? 11.25 : 4.5, json.RootElement.GetProperty("safe_power_w").GetDouble(), 1e-6);
            Assert.Equal("R1", json.RootElement.GetProperty("gives_first").GetString());
            (_, string text, _) = await CapturedTerminal.RunAsync("stress", file, "--power", "9 W", "--at", "1 MHz");
            Assert.StartsWith(bears ? "Yes" : "No", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Tolerance_of_the_demo_filter_has_the_three_percentiles_of_its_description()
    {
        using JsonDocument json = await JsonOf(["tolerance", Filter, "--at", "145.05 MHz", "--samples", "8000"]);
        JsonElement root = json.RootElement;
        Assert.Equal("spurless-tolerance/1", root.GetProperty("format").GetString());
        Assert.Equal(8000, root.GetProperty("samples").GetInt32());
        Assert.Equal(JsonValueKind.Null, root.GetProperty("yield").ValueKind);
        JsonElement s21 = root.GetProperty("bands")[0].GetProperty("s21_db");
        Assert.Equal(-3.16, s21.GetProperty("p95").GetDouble(), 0.3);
        Assert.Equal(-5.10, s21.GetProperty("p50").GetDouble(), 0.3);
        Assert.Equal(-10.4, s21.GetProperty("p5").GetDouble(), 0.3);
        JsonElement[] ranking = [.. root.GetProperty("ranking").EnumerateArray()];
        Assert.Equal(10, ranking.Length);
        Assert.Equal(1, ranking.Sum(static r => r.GetProperty("share").GetDouble()), 1e-9);
        Assert.Contains(root.GetProperty("make_tunable").GetString(), new[] { "L2", "C4" });
    }

    [Fact]
    public async Task Tolerance_against_a_mask_is_the_same_for_a_seed_and_another_for_another()
    {
        string[] call =
        [
            "tolerance", Filter, "--mask", Requirement, "--samples", "500", "--temperature", "-10..40 C", "--from", "140 MHz", "--to",
            "150 MHz", "--points", "5",
        ];
        (_, string first, _) = await CapturedTerminal.RunAsync([.. call, "--format", "json"]);
        (_, string again, _) = await CapturedTerminal.RunAsync([.. call, "--format", "json"]);
        (_, string other, _) = await CapturedTerminal.RunAsync([.. call, "--format", "json", "--seed", "2"]);
        Assert.Equal(first, again);
        Assert.NotEqual(first, other);
        using JsonDocument json = JsonDocument.Parse(first);
        Assert.InRange(json.RootElement.GetProperty("yield").GetDouble(), 0.001, 0.999);
        Assert.Equal(5, json.RootElement.GetProperty("bands").GetArrayLength());
        Assert.Equal(6, json.RootElement.GetProperty("mask").GetArrayLength());
    }

    [Fact]
    public async Task Tolerance_of_parts_that_state_none_is_told_and_can_be_given()
    {
        using WorkFolder folder = new();
        string file = folder["r.circuit.yaml"];
        await File.WriteAllTextAsync(
            file, "spurless_circuit: 1\nports: { in: a, out: b }\nparts:\n  R1: { resistor: 100 ohm, between: [a, b] }\n");
        (int status, string none, _) = await CapturedTerminal.RunAsync("tolerance", file, "--at", "1 MHz");
        Assert.Equal(0, status);
        Assert.Contains("No part has a tolerance", none, StringComparison.Ordinal);
        using JsonDocument json = await JsonOf(["tolerance", file, "--at", "1 MHz", "--others", "10 %", "--samples", "20000"]);
        // 90 to 110 ohm evenly: loss 20 lg((100 + R)/100), monotone, so its percentiles are those of R (closed form).
        JsonElement s21 = json.RootElement.GetProperty("bands")[0].GetProperty("s21_db");
        Assert.Equal(-20 * Math.Log10(2.09), s21.GetProperty("p5").GetDouble(), 0.01);
        Assert.Equal(-20 * Math.Log10(1.91), s21.GetProperty("p95").GetDouble(), 0.01);
    }

    [Theory]
    // The demo's description: within 1 %, without leads.
    [InlineData("3.8 mm", 27.6e-9)]
    [InlineData("3.2 mm", 28.6e-9)]
    public async Task Coil_of_the_demo_is_what_its_description_says_and_its_leads_stand_apart(string length, double henries)
    {
        string[] call = ["coil", "--turns", "2", "--diameter", "7 mm", "--length", length, "--wire", "1 mm"];
        using JsonDocument bare = await JsonOf(call);
        using JsonDocument led = await JsonOf([.. call, "--leads", "3 mm", "--at", "145.05 MHz"]);
        double inductance = bare.RootElement.GetProperty("inductance_h").GetDouble();
        Assert.Equal(henries, inductance, 0.01 * henries);
        Assert.Equal(inductance, led.RootElement.GetProperty("inductance_h").GetDouble());
        Assert.Equal(0, bare.RootElement.GetProperty("lead_inductance_h").GetDouble());

        // Two straight wires of 3 mm: 2 x 0.2 nH/mm x 3 mm x (ln(4 x 3/1) - 1) = 1.782 nH (formula from memory, by hand).
        Assert.Equal(1.782e-9, led.RootElement.GetProperty("lead_inductance_h").GetDouble(), 1e-12);
        Assert.Equal(JsonValueKind.Null, bare.RootElement.GetProperty("q").ValueKind);
        Assert.InRange(led.RootElement.GetProperty("q").GetDouble(), 100, 1000);
        foreach (string key in (string[])["turns", "sheet_inductance_h", "self_capacitance_f", "self_resonance_hz"])
        {
            Assert.True(led.RootElement.GetProperty(key).GetDouble() > 0, key);
        }

        Assert.NotEmpty(led.RootElement.GetProperty("warnings").EnumerateArray());
    }

    [Fact]
    public async Task Coil_for_an_inductance_comes_back_to_it_in_inches_and_AWG_too()
    {
        string[] form = ["--diameter", "0.5 in", "--length", "1 in", "--wire", "18 AWG"];
        using JsonDocument wanted = await JsonOf(["coil", "--inductance", "519.5 nH", .. form]);
        double turns = wanted.RootElement.GetProperty("turns").GetDouble();

        // 10 turns, 12.7 mm, 25.4 mm, 1.024 mm: 519.54 nH (computed outside the program from the formulas named).
        Assert.Equal(10, turns, 0.01);
        using JsonDocument back = await JsonOf(
            ["coil", "--turns", turns.ToString("R", System.Globalization.CultureInfo.InvariantCulture), .. form]);
        Assert.Equal(519.5e-9, back.RootElement.GetProperty("inductance_h").GetDouble(), 1e-16);
    }

    [Fact]
    public async Task Coil_on_a_core_and_resonators()
    {
        // 5 nH a turn squared, 10 turns: 500 nH (definition). Helical: Q 60 S sqrt f, N 1600/(S f), S = 1.5 in at 146 MHz (1959 formulas,
        // from memory).
        using JsonDocument core = await JsonOf(["coil", "--core", "5 nH", "--turns", "10"]);
        Assert.Equal(500e-9, core.RootElement.GetProperty("inductance_h").GetDouble(), 1e-18);
        using JsonDocument helix = await JsonOf(["coil", "--helical", "1.5 in", "--at", "146 MHz"]);
        Assert.Equal(1087, helix.RootElement.GetProperty("q").GetDouble(), 1.0);
        Assert.Equal(7.31, helix.RootElement.GetProperty("turns").GetDouble(), 0.01);
        using JsonDocument line = await JsonOf(["coil", "--coaxial", "10 mm,36 mm", "--at", "146 MHz"]);
        Assert.Equal(299792458 / 146e6 / 4, line.RootElement.GetProperty("length_m").GetDouble(), 1e-9);
    }

    [Theory]
    [InlineData(
        "--turns or --inductance are two ways",
        "coil",
        "--turns",
        "2",
        "--inductance",
        "24 nH",
        "--diameter",
        "7 mm",
        "--length",
        "4 mm",
        "--wire",
        "1 mm")]
    [InlineData("--wire is missing", "coil", "--turns", "2", "--diameter", "7 mm", "--length", "4 mm")]
    [InlineData("'7' has no unit", "coil", "--diameter", "7")]
    [InlineData("needs more turns than fit", "coil", "--inductance", "24 uH", "--diameter", "7 mm", "--length", "4 mm", "--wire", "1 mm")]
    [InlineData("as thick as the coil", "coil", "--turns", "2", "--diameter", "1 mm", "--length", "4 mm", "--wire", "1 mm")]
    [InlineData("--at is missing", "coil", "--helical", "38 mm")]
    [InlineData("write the inner diameter first", "coil", "--coaxial", "36 mm,10 mm", "--at", "146 MHz")]
    [InlineData("write one of them", "coil", "--core", "5 nH", "--helical", "38 mm")]
    public async Task Coil_faulty_options_say_what_to_write(string says, params string[] call) => await Faulty(2, says, call);

    [Theory]
    [InlineData("--power needs", "--at", "145 MHz")]
    [InlineData("--at needs", "--power", "50 W")]
    [InlineData("two ways of saying what is connected", "--power", "50 W", "--at", "145 MHz", "--load", "50 ohm", "--swr", "2")]
    [InlineData("no standing wave ratio", "--power", "50 W", "--at", "145 MHz", "--swr", "0.5")]
    [InlineData("gives power", "--power", "50 W", "--at", "145 MHz", "--load", "-5 ohm")]
    public async Task Stress_faulty_options_say_what_to_write(string says, params string[] options) =>
        await Faulty(2, says, ["stress", Filter, .. options]);

    [Theory]
    [InlineData("no number of samples", "--samples", "3")]
    [InlineData("no seed", "--seed", "-1")]
    [InlineData("no tolerance", "--others", "5")]
    [InlineData("has no unit", "--temperature", "-10..40")]
    [InlineData("write the lower one first", "--temperature", "40..-10 C")]
    [InlineData("two ways of saying", "--at", "145 MHz", "--points", "5")]
    [InlineData(
        "more than fit in memory",
        "--samples",
        "10000000",
        "--at",
        "1 MHz,2 MHz,3 MHz,4 MHz,5 MHz,6 MHz,7 MHz,8 MHz,9 MHz,10 MHz,11 MHz,12 MHz,13 MHz,14 "
            + "MHz,15 MHz,16 MHz,17 MHz,18 MHz,19 MHz,20 MHz,21 MHz")]
    public async Task Tolerance_faulty_options_say_what_to_write(string says, params string[] options) =>
        await Faulty(2, says, ["tolerance", Filter, .. options]);

    [Fact]
    public async Task Bench_faulty_files_are_input_errors_with_their_place()
    {
        using WorkFolder folder = new();
        string unknown = folder["u.circuit.yaml"];
        await File.WriteAllTextAsync(
            unknown, "spurless_circuit: 1\nports: { in: a, out: b }\nparts:\n  C1: { capacitor: unknown, between: [a, b] }\n");
        await Faulty(1, "u.circuit.yaml:4:3: a value of C1 is unknown", ["stress", unknown, "--power", "5 W", "--at", "145 MHz"]);
        await Faulty(
            1, "a measured sweep tells nothing of its parts", ["tolerance", Repository.PathOf("demo", "filters", "three-tank.s2p")]);
        await Faulty(1, "this is no requirement file", ["tolerance", Filter, "--mask", Filter]);
        string other = folder["o.requirement.yaml"];
        await File.WriteAllTextAsync(
            other, (await File.ReadAllTextAsync(Requirement)).Replace("impedance: 50 ohm", "impedance: 75 ohm", StringComparison.Ordinal));
        await Faulty(1, "the requirement is for ports of 75 ohm", ["tolerance", Filter, "--mask", other]);
    }

    [Fact]
    public async Task Bench_sheet_in_HTML_is_one_page_with_its_cautions()
    {
        string[][] calls =
        [
            ["stress", Filter, "--power", "50 W", "--at", "145.65 MHz"],
            ["tolerance", Filter, "--mask", Requirement, "--samples", "100", "--at", "145.05 MHz"],
        ];
        foreach (string[] call in calls)
        {
            (int status, string page, string error) = await CapturedTerminal.RunAsync([.. call, "--format", "html"]);
            Assert.Equal((0, ""), (status, error));
            Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
            Assert.Contains(">Cautions</h2>", page, StringComparison.Ordinal);
            Assert.Contains("<svg", page, StringComparison.Ordinal);
            Assert.Matches("[0-9a-f]{64}", page);
            Assert.Equal(call[0] == "tolerance", page.Contains("class=\"band\"", StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Tolerance_stopped_ends_with_130_and_writes_nothing()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();
        CapturedTerminal terminal = new();
        int status = await CommandFront.RunAsync(["tolerance", Filter, "--at", "145.05 MHz"], terminal, stop.Token);
        Assert.Equal(130, status);
        Assert.Empty(terminal.OutputText);
    }

    [Fact]
    public async Task Requirement_files_are_checked_and_have_a_template_and_a_schema()
    {
        Assert.Equal(0, (await CapturedTerminal.RunAsync("check", Requirement)).Status);
        using WorkFolder folder = new();
        string made = folder["new.requirement.yaml"];
        Assert.Equal(0, (await CapturedTerminal.RunAsync("new", "requirement", "--out", made)).Status);
        Assert.Equal(0, (await CapturedTerminal.RunAsync("tolerance", Filter, "--mask", made, "--samples", "50")).Status);
        (int status, string schema, _) = await CapturedTerminal.RunAsync("schema", "requirement");
        Assert.Equal(0, status);
        Assert.Contains("spurless_requirement", schema, StringComparison.Ordinal);
        await File.WriteAllTextAsync(
            made, (await File.ReadAllTextAsync(made)).Replace("by: 25 dB", "bye: 25 dB", StringComparison.Ordinal));
        (int faulty, _, string error) = await CapturedTerminal.RunAsync("tolerance", Filter, "--mask", made);
        Assert.Equal(1, faulty);
        Assert.Matches(@"new\.requirement\.yaml:\d+:\d+: .*bye", error);
    }

    [Fact]
    public async Task Bench_formats_hold_the_same_figures()
    {
        (_, string stress, _) = await CapturedTerminal.RunAsync(
            "stress", Filter, "--power", "50 W", "--at", "145.65 MHz", "--format", "csv");
        Assert.StartsWith("part,peak_voltage_v,rms_current_a,dissipation_w", stress, StringComparison.Ordinal);
        Assert.Equal(11, stress.Trim().Split('\n').Length);
        (_, string tolerance, _) = await CapturedTerminal.RunAsync(
            "tolerance", Filter, "--from", "140 MHz", "--to", "150 MHz", "--points", "3", "--samples", "100", "--format", "csv");
        Assert.Equal(4, tolerance.Trim().Split('\n').Length);
        Assert.StartsWith("frequency_hz,s21_db,s21_p5_db", tolerance, StringComparison.Ordinal);
    }

    private static async Task<JsonDocument> JsonOf(string[] call)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync([.. call, "--format", "json"]);
        Assert.Equal((0, ""), (status, error));
        return JsonDocument.Parse(output);
    }

    private static async Task Faulty(int status, string says, string[] call)
    {
        (int ended, string output, string error) = await CapturedTerminal.RunAsync(call);
        Assert.Equal(status, ended);
        Assert.Empty(output);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }
}
