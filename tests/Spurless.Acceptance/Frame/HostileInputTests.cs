using System.Diagnostics;
using System.Text;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>Whatever file a command is given: findings with a place and a remedy, status 1, no stack trace.</summary>
public sealed class HostileInputTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public static TheoryData<string, string> Cases
    {
        get
        {
            TheoryData<string, string> cases = [];
            foreach (string command in new[] { "check", "study" })
            {
                foreach (string input in Inputs.Keys)
                {
                    cases.Add(command, input);
                }
            }

            foreach (string input in new[] { "bad.s2p", "bad.circuit.yaml", "bad.log.csv", "bad.csv", "words.txt" })
            {
                cases.Add("check", input);
            }

            return cases;
        }
    }

    private static Dictionary<string, byte[]> Inputs { get; } = new()
    {
        ["empty.site.yaml"] = [],
        ["binary.site.yaml"] = [.. Enumerable.Range(0, 4096).Select(static i => (byte)((i * 7919) >> 3))],
        ["nul.site.yaml"] = new byte[1000],
        ["utf16.site.yaml"] = [0xFF, 0xFE, .. Encoding.Unicode.GetBytes("spurless: 1\n")],
        ["deep.site.yaml"] = Encoding.UTF8.GetBytes("spurless: 1\nsite: " + new string('[', 50_000)),
        ["alias.site.yaml"] = "spurless: 1\nsite: &a x\nreceivers: *a\n"u8.ToArray(),
        ["unclosed.site.yaml"] = "spurless: 1\nsite: \"open\nreceivers: {"u8.ToArray(),
        ["list.site.yaml"] = "- 1\n- 2\n"u8.ToArray(),
        ["escape.site.yaml"] = Encoding.UTF8.GetBytes("spurless: 1\n\"\\e[2Jkey\": 1\n"),
        ["huge.site.yaml"] = Encoding.UTF8.GetBytes(
            "spurless: 1\n" + string.Concat(Enumerable.Repeat("# a comment that goes on and on\n", 400_000))),
        ["numbers.site.yaml"] = Encoding.UTF8.GetBytes("""
            spurless: 1
            site: s
            receivers: [{ name: r, frequency: 1e999 MHz, channel: -1 kHz, noise_figure: NaN dB, iip3: 12 }]
            emitters: [{ name: e, frequency: 0 MHz, bandwidth: .inf kHz }]
            """),
        ["bad.s2p"] = "# MHz S MA R 50\n145 1 2 3\n144 x y z\n"u8.ToArray(),
        ["bad.circuit.yaml"] = "spurless_circuit: 1\nparts: { L1: { inductor: 3, between: [a] } }\n"u8.ToArray(),
        ["bad.log.csv"] = "time,a\nyesterday,1\n2031-03-04T19:02:00Z,2\n"u8.ToArray(),
        ["bad.csv"] = "name,frequency\n,\nx,12\n"u8.ToArray(),
        ["words.txt"] = "nothing of ours\n"u8.ToArray(),
    };

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task Run_bad_file_is_told_with_place_and_remedy(string command, string input)
    {
        string path = _folder[input];
        File.WriteAllBytes(path, Inputs[input]);
        await AssertTold(command, path);
    }

    [Theory]
    [InlineData("check")]
    [InlineData("study")]
    public async Task Run_what_is_no_file_is_told(string command)
    {
        await AssertTold(command, _folder["missing.site.yaml"]);
        await AssertTold(command, _folder.Path);
        await AssertTold(command, _folder["nowhere/at/all.site.yaml"]);
        await AssertTold(command, "bad\0name.site.yaml");
        await AssertTold(command, new string('x', 5000));
        if (File.Exists("/proc/self/mem"))
        {
            await AssertTold(command, "/proc/self/mem"); // opens, but every read of its start fails, whoever asks
        }
    }

    private static async Task AssertTold(string command, string path)
    {
        (int status, string output, string error) = await CapturedTerminal.RunAsync(command, path);
        Assert.Equal(1, status);
        string[] lines = error.TrimEnd('\n').Split('\n');
        Assert.NotEmpty(lines);
        Assert.All(lines, static l => Assert.Matches(@"^.+:\d+:\d+: (warning: )?.+; .+$", l));
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001b', error + output);
    }

    /// <summary>A pipe without a writer, and a terminal on which nobody types: Ctrl-C ends the waiting.</summary>
    [Theory]
    [InlineData("pipe.site.yaml")]
    [InlineData("pipe.s2p")]
    [InlineData("pipe.wav")]
    public async Task Check_of_a_pipe_that_gives_nothing_ends_when_asked(string name)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no such pipes.");
        Assert.Equal(0, (await BuiltProgram.RunAsync(_folder.Path, "mkfifo", [name])).Status);
        using Process process = BuiltProgram.Start(_folder.Path, "check", name);
        Task<string> error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        // It is waiting by then, or takes the signal later.
        await Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken);
        string id = process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(0, (await BuiltProgram.RunAsync(_folder.Path, "kill", ["-INT", id])).Status);
        Task ended = process.WaitForExitAsync(TestContext.Current.CancellationToken);
        bool inTime = await Task.WhenAny(ended, Task.Delay(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken)) == ended;
        if (!inTime)
        {
            process.Kill();
        }

        Assert.True(inTime, "it goes on waiting");
        Assert.Equal(130, process.ExitCode);
        Assert.Equal("spurless: stopped\n", await error);
    }
}
