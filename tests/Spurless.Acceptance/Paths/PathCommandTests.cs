using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Paths;

/// <summary>The command <c>path</c>, by a profile and by a site.</summary>
public sealed class PathCommandTests
{
    // Decibels are written with six decimals; the reference has seven.
    private const double SixDecimals = 5.5e-7;

    /// <summary>Reference results of ITU-R P.1812, origin in tests/data/itu-p1812/README.md: Lb (eq. 69), Lbfs (8), Ldp (41), Lba (46), Lbs
    /// (44).</summary>
    [Theory]
    [InlineData("hillside_1km", 53.18551669, 1, 87.0385433, 72.14737981, 15.33794877, 112.9858494, 96.62572426)]
    [InlineData("ridge_10km", 53.20515067, 10, 119.3011611, 91.99531592, 28.45461349, 176.120892, 149.8301084)]
    [InlineData("to_sea_100km", 53.39987472, 50, 122.2167031, 111.9821411, 10.23456525, 244.912483, 151.2970167)]
    public async Task Path_over_a_reference_profile_writes_its_figures(
        string profile, double latitude, int time, double loss, double free, double diffraction, double ducting, double scatter)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "path", "--profile", Repository.PathOf(
                "tests", "data", "itu-p1812", profile + ".csv"), "--frequency", "95.3 MHz", "--heights", "60 m,7 m",
            "--latitude", latitude.ToString(
                System.Globalization.CultureInfo.InvariantCulture), "--time", $"{time}", "--refractivity", "326.079979",
            "--gradient", "45", "--coast", "500 km,500 km", "--polarisation", "horizontal", "--format", "json");
        Assert.Equal((0, ""), (status, error));
        using JsonDocument json = JsonDocument.Parse(output);
        JsonElement root = json.RootElement;
        Assert.Equal("spurless-path/1", root.GetProperty("format").GetString());
        Assert.Equal(loss, root.GetProperty("loss_db").GetDouble(), SixDecimals);
        JsonElement parts = root.GetProperty("parts");
        Assert.Equal(free, parts.GetProperty("free_space_db").GetDouble(), SixDecimals);
        Assert.Equal(diffraction, parts.GetProperty("diffraction_db").GetDouble(), SixDecimals);
        Assert.Equal(ducting, parts.GetProperty("ducting_db").GetDouble(), SixDecimals);
        Assert.Equal(scatter, parts.GetProperty("troposcatter_db").GetDouble(), SixDecimals);
        Assert.Equal(JsonValueKind.Null, root.GetProperty("bearing_deg").ValueKind);
    }

    [Fact]
    public async Task Path_of_the_demo_names_the_hill_in_the_way_and_its_report_is_whole()
    {
        string site = Repository.PathOf("demo", "hill.site.yaml");
        (int status, string text, string error) = await CapturedTerminal.RunAsync("path", site, "--from", "valley relay");
        Assert.Equal((0, ""), (status, error));
        Assert.StartsWith("From valley relay to hill input, 21.7 km on 160.525 MHz, the path loses ", text, StringComparison.Ordinal);
        Assert.Contains("hides one", text, StringComparison.Ordinal);
        (status, string html, error) = await CapturedTerminal.RunAsync("path", site, "--from", "valley relay", "--format", "html");
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("Cautions", html, StringComparison.Ordinal);
        Assert.Contains("<svg", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("path", "nothing says where the ground is")]
    [InlineData("path demo/hill.site.yaml --profile x.csv", "two ways of saying")]
    [InlineData("path --profile demo/hill.profile.csv", "--frequency is missing|--heights is missing|--latitude is missing")]
    [InlineData("path demo/hill.site.yaml", "--from is missing")]
    [InlineData("path demo/hill.site.yaml --from \"valey relay\"", "write \"valley relay\"")]
    [InlineData("path demo/hill.site.yaml --from \"valley relay\" --latitude 40", "--latitude belongs to --profile")]
    [InlineData("path --profile demo/hill.profile.csv --frequency \"145 MHz\" --heights \"3 m\" --latitude 40", "not two lengths")]
    [InlineData("path --profile demo/hill.profile.csv --frequency \"145 MHz\" --heights \"3 m,4 m\" --latitude 40 --time 80", "1 to 50")]
    public async Task Path_with_a_wrong_command_line_says_what_to_write(string line, string expected)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        string[] words = [.. BuiltProgram.Split(line).Select(w => w.StartsWith("demo/", StringComparison.Ordinal) ? folder[w] : w)];
        (int status, string output, string error) = await CapturedTerminal.RunAsync(words);
        Assert.Equal((2, ""), (status, output));
        Assert.All(expected.Split('|'), part => Assert.Contains(part, error, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Path_to_ground_without_a_tile_names_the_tile()
    {
        (int status, _, string error) = await CapturedTerminal.RunAsync(
            "path", Repository.PathOf("demo", "hill.site.yaml"), "--from", "far island");
        Assert.Equal(1, status);
        Assert.Contains("no elevation tile N41W036", error, StringComparison.Ordinal);
    }

    /// <summary>
    /// The invented register lies round the invented hill: with tiles its levels come from the ground, without them as before.
    /// </summary>
    [Fact]
    public async Task Near_takes_the_ground_where_there_are_tiles()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        string site = folder["demo/hill.site.yaml"];
        string[] words = ["register", "near", site, "--from", folder["demo/register"], "--radius", "25 km", "--format", "json"];
        (int status, string output, string error) = await CapturedTerminal.RunAsync(words);
        Assert.Equal((0, ""), (status, error));
        File.WriteAllText(site, File.ReadAllText(site).Replace("terrain: elevation", "# terrain: elevation", StringComparison.Ordinal));
        (int without, string bare, _) = await CapturedTerminal.RunAsync(words);
        Assert.Equal(0, without);
        (double? Level, string Assumed)[] ground = Emitters(output);
        (double? Level, string Assumed)[] free = Emitters(bare);
        Assert.Equal(free.Length, ground.Length);
        Assert.Contains(ground, static e => e.Level is not null && e.Assumed.Contains("P.1812", StringComparison.Ordinal));
        Assert.DoesNotContain(free, static e => e.Assumed.Contains("P.1812", StringComparison.Ordinal));
        Assert.All(
            ground.Where(static e => e.Level is not null && !e.Assumed.Contains("P.1812", StringComparison.Ordinal)),
            static e => Assert.Contains("the ground between is not counted", e.Assumed, StringComparison.Ordinal));
    }

    private static (double? Level, string Assumed)[] Emitters(string output)
    {
        using JsonDocument json = JsonDocument.Parse(output);
        return
        [
            .. json.RootElement.GetProperty("emitters").EnumerateArray().Select(static e => (
                e.GetProperty("level_dbm").ValueKind == JsonValueKind.Null ? (double?)null : e.GetProperty("level_dbm").GetDouble(),
                string.Join('|', e.GetProperty("assumed").EnumerateArray().Select(static a => a.GetString())))),
        ];
    }
}
