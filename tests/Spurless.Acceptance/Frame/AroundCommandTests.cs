using System.Globalization;
using System.Text.Json;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary><c>survey</c>, <c>register near</c> and <c>register screen</c> as one types them, on the demo's invented files.</summary>
public sealed class AroundCommandTests : IDisposable
{
    private readonly WorkFolder _folder = WorkFolder.WithDemo();

    public void Dispose() => _folder.Dispose();

    private static async Task<string> RunAsync(params string[] arguments)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(arguments);
        Assert.True(status == 0, error);
        return output;
    }

    private string[] Survey(params string[] more) =>
    [
        "survey", _folder["demo/sweeps/hill.sweep.csv"], "--resolution", "2.5 kHz",
        "--padded", _folder["demo/sweeps/hill-padded.sweep.csv"], "--pad", "10 dB", "--quiet", .. more,
    ];

    // Two parts are wrong, and both are said as what they are: words of the command line, not a file of that name.
    [Fact]
    public async Task Survey_chain_that_cannot_be_read_is_a_fault_of_the_command_line()
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            Survey("--chain", "cable 3,5 dB; pad 10; preamplifier nothing.s2p"));
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("spurless: --chain: cable: '3,5 dB' has a comma in the number; write 3.5 dB\n", error, StringComparison.Ordinal);
        Assert.Contains("spurless: --chain: pad: '10' has no unit; write 10 dB\n", error, StringComparison.Ordinal);
        Assert.Contains("nothing.s2p", error, StringComparison.Ordinal);
        Assert.DoesNotContain("--chain:0", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, "0 emitters were written into a.site.yaml")]
    [InlineData(1, "1 emitter was written into a.site.yaml")]
    [InlineData(2, "2 emitters were written into a.site.yaml")]
    public void One_emitter_that_was_written_is_one(int count, string says) =>
        Assert.Equal(says, Commands.RegisterNear.Written(count, "a.site.yaml"));

    /// <summary>The four commands of the how-to: every transmitter stands in the file once, and a study counts it.</summary>
    [Fact]
    public async Task Register_and_sweep_fill_a_site_file_once_each()
    {
        string site = _folder["demo/unlisted.site.yaml"];
        string database = _folder["register.db"];
        string survey = _folder["hill.survey.json"];
        await RunAsync("register", "import", _folder["demo/register"], "--into", database, "--as-of", "2031-03-04");
        await RunAsync(Survey("--format", "json", "--out", survey));
        string[] near = ["register", "near", site, "--from", database, "--radius", "25 km", "--match", survey, "--quiet"];

        JsonElement matches = JsonDocument.Parse(await RunAsync([.. near, "--format", "json"])).RootElement.GetProperty("matches");
        string text = await RunAsync([.. near, "--add"]);
        string first = File.ReadAllText(site);
        await RunAsync([.. near, "--add"]);

        Assert.Contains(matches.EnumerateArray(), static m => m.GetProperty("outcome").GetString() == "joined");
        Assert.Contains("Joined with what was measured", text, StringComparison.Ordinal);
        Assert.Equal(first, File.ReadAllText(site));
        JsonElement study = JsonDocument.Parse(await RunAsync("study", site, "--quiet", "--format", "json")).RootElement;
        JsonElement[] carriers = [.. study.GetProperty("receivers")[0].GetProperty("carriers").EnumerateArray()];
        long[] frequencies = [.. carriers.Select(static c => c.GetProperty("frequency_hz").GetInt64()).Order()];

        // Of what was measured and joined the licence stands there and no line beside it.
        foreach (JsonElement match in matches.EnumerateArray().Where(static m => m.GetProperty("outcome").GetString() == "joined"))
        {
            double hertz = match.GetProperty("frequency_hz").GetDouble();
            Assert.Single(frequencies, f => Math.Abs(f - hertz) < 3_000);
        }
    }

    /// <summary>Into a file that has them nothing is written again; what was measured is said beside what stands there.</summary>
    [Fact]
    public async Task Survey_into_a_site_that_has_the_emitters_says_what_was_measured_beside_what_stands_there()
    {
        string site = _folder["demo/unlisted.site.yaml"];
        await RunAsync(Survey("--add", site));
        string first = File.ReadAllText(site);

        (int status, _, string error) =
            await CapturedTerminal.RunAsync([.. Survey("--add", site).Where(static a => a != "--quiet")]);

        Assert.Equal(0, status);
        Assert.Equal(first, File.ReadAllText(site));
        Assert.Contains("0 emitters were written into", error, StringComparison.Ordinal);
        Assert.Matches(@"line 157\.5 MHz: measured -?\d+.* dBm.*; the file says -?\d+.* dBm", error);
    }

    [Fact]
    public async Task Near_and_survey_and_screen_make_pages()
    {
        string near = await RunAsync(
            "register", "near", _folder["demo/unlisted.site.yaml"], "--from", _folder["demo/register"], "--radius", "25 km", "--quiet",
            "--format", "html");
        string survey = await RunAsync(Survey("--format", "html"));
        string screened = _folder["screen.html"];
        await RunAsync(
            "register", "screen", _folder["demo/register"], "--receivers", _folder["demo/receivers.csv"], "--out", screened, "--quiet");

        foreach (string page in (string[])[near, survey, File.ReadAllText(screened)])
        {
            Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
            Assert.EndsWith("</html>", page.TrimEnd(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Near_with_a_match_that_is_none_says_what_to_give()
    {
        File.WriteAllText(_folder["none.json"], "{}");
        (int status, string output, string error) = await CapturedTerminal.RunAsync(
            "register", "near", _folder["demo/unlisted.site.yaml"], "--from", _folder["demo/register"], "--match", _folder["none.json"]);

        Assert.Equal((1, ""), (status, output));
        Assert.Contains("no result of a survey in the format spurless-survey/1; make it by 'survey SWEEP --format json", error,
            StringComparison.Ordinal);
    }

    /// <summary>Two thousand receivers are four tiles; four processes with a tile each write what one writes.</summary>
    [Fact]
    public async Task Screen_by_four_processes_is_the_screen_of_one()
    {
        Random random = new(9);
        string receivers = _folder["many.csv"];
        File.WriteAllText(
            receivers,
            "name,latitude,longitude,frequency,channel,noise_figure,iip3,antenna.gain,antenna.height\n"
                + string.Concat(Enumerable.Range(0, 1_900).Select(i => string.Create(
                    CultureInfo.InvariantCulture,
                    $"r{i},{40.4 + (0.2 * random.NextDouble()):0.0000},{-35.3 + (0.2 * random.NextDouble()):0.0000},"
                        + $"{145 + (0.0125 * random.Next(160)):0.0000} MHz,12.5 kHz,6 dB,-8 dBm,2.15 dBi,15 m\n"))));
        string database = _folder["register.db"];
        await RunAsync("register", "import", _folder["demo/register"], "--into", database, "--as-of", "2031-03-04");
        string[] screen = ["register", "screen", database, "--receivers", receivers, "--quiet"];
        await RunAsync([.. screen, "--out", _folder["one.csv"]]);

        string[] parts = [.. Enumerable.Range(1, 4).Select(i => _folder[$"part{i}.csv"])];
        Ended[] ran = await Task.WhenAll(parts.Select((part, i) =>
            BuiltProgram.RunAsync(_folder.Path, [.. screen, "--tiles", FormattableString.Invariant($"{i + 1}-{i + 1}"), "--out", part])));

        Assert.All(ran, static r => Assert.True(r.Status == 0, r.Error));
        string whole = File.ReadAllText(_folder["one.csv"]);
        string head = whole[..(whole.IndexOf('\n', StringComparison.Ordinal) + 1)];
        Assert.Equal(1_901, whole.Count(static c => c == '\n'));
        Assert.Equal(whole, string.Concat(parts.Select((p, i) =>
            File.ReadAllText(p) is var text && i > 0 && text.StartsWith(head, StringComparison.Ordinal) ? text[head.Length..] : text)));
    }
}
