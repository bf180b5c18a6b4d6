using System.Diagnostics;
using Spurless.Acceptance.Running;
using Spurless.Reports.Text;

namespace Spurless.Acceptance.Frame;

public class HelpTests
{
    public static TheoryData<string> Names => CommandList.Names;

    public static TheoryData<string> Examples => CommandList.Examples;

    [Fact]
    public async Task Help_of_the_program_lists_every_command()
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync("--help");
        Assert.Equal(0, status);
        Assert.Empty(error);
        Assert.All(CommandList.All, v => Assert.Contains($"\n  {CommandList.PathOf(v).Split(' ')[0]} ", output, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Help_of_a_command_fits_80_columns_and_explains_every_option(string command)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync([.. command.Split(' '), "--help"]);
        Assert.Equal(0, status);
        Assert.Empty(error);
        Assert.All(
            output.Split('\n').Where(static l => !l.StartsWith("  spurless ", StringComparison.Ordinal)),
            static l => Assert.True(TextFlow.WidthOf(l) <= 80, $"{l.Length} columns: {l}"));
        Assert.All(CommandList.Named(command).Examples, e => Assert.Contains($"\n  spurless {e.Line}\n", output, StringComparison.Ordinal));
        Assert.All(CommandList.OptionsOf(CommandList.Named(command)), o => Assert.Contains($"\n  {o} ", output.Replace(o + "\n", o + " \n",
            StringComparison.Ordinal), StringComparison.Ordinal));
        Assert.Contains($"  spurless {command} ", output, StringComparison.Ordinal);
        Assert.Contains("\nExample", output, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Help_wins_over_what_else_is_wrong(string command)
    {
        (int status, string output, _) = await CapturedTerminal.RunAsync([.. command.Split(' '), "--nonsense", "--help"]);
        Assert.Equal(0, status);
        Assert.Contains("Usage", output, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public async Task Example_of_the_help_runs(string line)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended ended = await BuiltProgram.RunAsync(folder.Path, BuiltProgram.Split(line));
        Assert.True(ended.Status == 0, $"status {ended.Status}: {ended.Error}");
        Assert.DoesNotContain("   at ", ended.Error, StringComparison.Ordinal);
    }

    public static TheoryData<string> EndlessExamples => CommandList.EndlessExamples;

    [Theory]
    [MemberData(nameof(EndlessExamples))]
    public async Task Example_that_runs_on_tells_its_address_and_ends_when_asked(string line)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no kill command.");
        using WorkFolder folder = WorkFolder.WithDemo();
        string[] words = BuiltProgram.Split(line);
        // A test opens no browser, and takes no port that someone may use.
        words =
        [
            .. words,
            .. words.Contains("--no-browser") ? Array.Empty<string>() : ["--no-browser"],
            .. words.Contains("--port") ? Array.Empty<string>() : ["--port", "0"],
        ];
        using Process process = BuiltProgram.Start(folder.Path, words);
        Task<string> error = process.StandardError.ReadToEndAsync();
        Assert.Matches(@"^listening on http://127\.0\.0\.1:\d+/\?key=[0-9a-f]{32}$", await process.StandardOutput.ReadLineAsync());
        using (Process kill = Process.Start("kill", ["-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]))
        {
            await kill.WaitForExitAsync();
        }

        await process.WaitForExitAsync();
        Assert.Equal(130, process.ExitCode);
        Assert.Equal("spurless: stopped\n", await error);
    }

    [Fact]
    public async Task Example_of_mix_says_what_its_help_promises()
    {
        // The help's own words; the arithmetic by hand: 466.1 - 2 x 160.525 = 145.05, 94.2 + 50.85 = 145.05.
        (_, string output, _) = await CapturedTerminal.RunAsync(BuiltProgram.Split(CommandList.Named("mix").Examples[0].Line));
        Assert.Contains("466.1000 - 2 x 160.5250 = 145.0500", output, StringComparison.Ordinal);
        Assert.Contains("94.2000 + 50.8500 = 145.0500", output, StringComparison.Ordinal);
    }
}
