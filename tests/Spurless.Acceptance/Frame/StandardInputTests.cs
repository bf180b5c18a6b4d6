using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary><c>-</c> is standard input wherever a command reads one file: the answer is that of the file.</summary>
public sealed class StandardInputTests
{
    private static readonly string Circuit = Repository.PathOf("demo", "filters", "three-tank.circuit.yaml");

    private static readonly string Unmarked = Repository.PathOf("demo", "filters", "unmarked.circuit.yaml");
    private static readonly string Sweep = Repository.PathOf("demo", "filters", "unmarked.s2p");

    public static TheoryData<string, string> Lines => new()
    {
        { "listen FILE --format csv", Repository.PathOf("demo", "recordings", "warble.wav") },
        { "survey FILE --resolution 2.5kHz --format csv", Repository.PathOf("demo", "sweeps", "hill.sweep.csv") },
        { "response FILE --at 145.05MHz --format csv", Circuit },
        { "design FILE --count 1 --format csv", Repository.PathOf("demo", "filters", "quiet-input.requirement.yaml") },
        { $"fit FILE {Sweep} --format csv", Unmarked },
        { $"fit {Unmarked} FILE --format csv", Sweep },
        { "response FILE --format csv", Repository.PathOf("demo", "filters", "three-tank.s2p") },
        { "stress FILE --power 50W --at 145.65MHz --format csv", Circuit },
        { "tolerance FILE --at 145.05MHz --samples 100 --format csv", Circuit },
        {
            "path --profile FILE --frequency 98MHz --heights 12m,19m --latitude 48 --format json",
            Repository.PathOf("demo", "hill.profile.csv")
        },
    };

    [Theory]
    [MemberData(nameof(Lines))]
    public async Task Dash_reads_standard_input(string line, string file)
    {
        string[] words = line.Split(' ');
        (int status, string output, string error) = await CapturedTerminal.RunAsync([.. words.Select(w => w == "FILE" ? file : w)]);
        Assert.True(status == 0, error);
        (int piped, string same, string says) = await CapturedTerminal.RunWithInputAsync(
            await File.ReadAllBytesAsync(file), [.. words.Select(static w => w == "FILE" ? "-" : w)]);
        Assert.True(piped == 0, says);
        Assert.Equal(output, same);
    }

    /// <summary>A site names files beside it, which then are sought in the folder one is in: the demo's unlisted site names none.</summary>
    [Fact]
    public async Task Dash_is_a_site_or_a_register_s_files_or_receivers()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        string near = folder["demo/unlisted.site.yaml"], register = folder["demo/register"];
        (_, string output, _) = await CapturedTerminal.RunAsync("register", "near", near, "--from", register, "--format", "csv");
        (int status, string same, string error) = await CapturedTerminal.RunWithInputAsync(
            await File.ReadAllBytesAsync(near), "register", "near", "-", "--from", register, "--format", "csv");
        Assert.True(status == 0, error);
        Assert.Equal(output, same);

        string rows = folder["rows.csv"], piped = folder["piped.csv"], receivers = folder["demo/receivers.csv"];
        Assert.Equal(0, (await CapturedTerminal.RunAsync("register", "screen", register, "--receivers", receivers, "--out", rows)).Status);
        (status, _, error) = await CapturedTerminal.RunWithInputAsync(
            await File.ReadAllBytesAsync(receivers), "register", "screen", register, "--receivers", "-", "--out", piped);
        Assert.True(status == 0, error);
        Assert.Equal(await File.ReadAllTextAsync(rows), await File.ReadAllTextAsync(piped));

        string zip = folder["register.zip"];
        System.IO.Compression.ZipFile.CreateFromDirectory(register, zip);
        (status, string said, error) = await CapturedTerminal.RunWithInputAsync(
            await File.ReadAllBytesAsync(zip), "register", "import", "-", "--into", folder["piped.db"], "--format", "json");
        Assert.True(status == 0, error);
        (_, string fromFiles, _) = await CapturedTerminal.RunAsync(
            "register", "import", register, "--into", folder["files.db"], "--format", "json");
        Assert.Equal(fromFiles.Replace("files.db", "piped.db", StringComparison.Ordinal), said);
    }

    [Theory]
    [InlineData("fit", "-", "-")]
    [InlineData("survey", "-", "--padded", "-", "--pad", "10dB")]
    public async Task Dash_twice_is_told(params string[] line)
    {
        (int status, _, string error) = await CapturedTerminal.RunWithInputAsync("spurless_circuit: 1\n", line);
        Assert.Equal(2, status);
        Assert.Contains("can be read once", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dash_with_add_is_told()
    {
        (int status, _, string error) = await CapturedTerminal.RunWithInputAsync("", "register", "near", "-", "--from", "x.db", "--add");
        Assert.Equal(2, status);
        Assert.Contains("name the file", error, StringComparison.Ordinal);
    }
}
