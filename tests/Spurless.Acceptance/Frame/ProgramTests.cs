using System.Diagnostics;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>The program as a process.</summary>
public class ProgramTests
{
    // So many vectors that it runs for hours: the test stops it.
    private static readonly string[] Endless =
    [
        "mix",
        "145.05",
        "--of",
        string.Join(',', Enumerable.Range(0, 300).Select(static i => $"{400 + i}.{i:000}")),
        "--orders",
        "2-9",
        "--signals",
        "9",
        "--channel",
        "1 Hz",
    ];

    [Fact]
    public async Task Version_prints_one_line()
    {
        Ended ended = await BuiltProgram.RunAsync(Path.GetTempPath(), "--version");
        Assert.Equal(0, ended.Status);
        Assert.Matches(@"^spurless \d+\.\d+\.\d+\n$", ended.Output);
        Assert.Empty(ended.Error);
    }

    [Fact]
    public async Task Version_in_a_longer_command_line_is_a_usage_error()
    {
        Ended ended = await BuiltProgram.RunAsync(Path.GetTempPath(), "--version", "mix");
        Assert.Equal(2, ended.Status);
    }

    [Fact]
    public async Task Interrupt_ends_long_work_with_130()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no kill command; the same path is tested by the token.");
        using Process process = BuiltProgram.Start(Path.GetTempPath(), Endless);
        Task<string> error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        Task<string> output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await IsAtWorkAsync(process);
        using (Process kill = Process.Start("kill", ["-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]))
        {
            await kill.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(130, process.ExitCode);
        Assert.Equal("spurless: stopped\n", await error);
        Assert.Empty(await output);
    }

    [Fact]
    public async Task Cancelled_token_gives_130_and_leaves_no_file()
    {
        using WorkFolder folder = new();
        using CancellationTokenSource stop = new();
        stop.Cancel();
        CapturedTerminal terminal = new();
        int status = await CommandFront.RunAsync([.. Endless, "--out", folder["out.txt"]], terminal, stop.Token);
        Assert.Equal(130, status);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    [Fact]
    public async Task Output_that_nobody_reads_to_its_end_is_no_failure()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Needs a shell's pipe.");
        string program = Path.Combine(AppContext.BaseDirectory, "spurless.dll");
        Ended ended = await BuiltProgram.RunAsync(
            Path.GetTempPath(),
            "bash",
            [
                "-c",
                $"set -o pipefail; dotnet '{program}' mix 145 --of 1,2,3,4,5,6,7,8,9 --orders 2-9 "
                    + $"--channel '100 MHz' --format csv | head -n 1",
            ]);
        Assert.Equal("order,frequency_hz,offset_hz,mixture\n", ended.Output);
        Assert.Empty(ended.Error);
    }

    [Fact]
    public async Task Output_to_a_full_device_is_a_plain_line_and_status_3()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "Needs a device that is always full.");
        string program = Path.Combine(AppContext.BaseDirectory, "spurless.dll");
        Ended ended = await BuiltProgram.RunAsync(
            Path.GetTempPath(), "bash", ["-c", $"dotnet '{program}' mix 145.05 --of 160.525,466.1 > /dev/full"]);
        Assert.Equal(3, ended.Status);
        Assert.StartsWith("spurless: ", ended.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", ended.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Language_of_the_machine_changes_nothing()
    {
        string program = Path.Combine(AppContext.BaseDirectory, "spurless.dll");
        string[] words = [program, "mix", "145.05", "--of", "160.525,466.1"];
        Ended english = await BuiltProgram.RunAsync(
            Path.GetTempPath(), "dotnet", words, new Dictionary<string, string?> { ["LANG"] = "en_US.UTF-8", ["LC_ALL"] = null });
        Ended german = await BuiltProgram.RunAsync(
            Path.GetTempPath(),
            "dotnet",
            words,
            new Dictionary<string, string?> { ["LANG"] = "de_DE.ISO-8859-1", ["LC_ALL"] = "de_DE.ISO-8859-1" });
        Assert.Equal(0, german.Status);
        Assert.Equal(english.Output, german.Output);
    }

    /// <summary>
    /// Waits until the program is at work, and so has a handler of its own: by the processor's time it has used, not by the clock, for a
    /// busy machine makes the start long. The start uses some 0.3 s, the work goes on until it is stopped.
    /// </summary>
    private static async Task IsAtWorkAsync(Process process)
    {
        while (!process.HasExited && process.TotalProcessorTime < TimeSpan.FromSeconds(3))
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
            process.Refresh();
        }
    }
}
