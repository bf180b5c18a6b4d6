using Spurless.Acceptance.Running;
using Spurless.CommandLine;

namespace Spurless.Acceptance.Frame;

public class OutputTests
{
    private static readonly string[] Mix = ["mix", "145.05", "--of", "160.525,466.1"];

    [Fact]
    public async Task Out_holds_what_standard_output_would_and_nothing_is_left_beside_it()
    {
        using WorkFolder folder = new();
        (_, string expected, _) = await CapturedTerminal.RunAsync(Mix);
        File.WriteAllText(folder["out.txt"], "old and much longer than what comes: " + new string('x', 10_000));

        (int status, string output, string error) = await CapturedTerminal.RunAsync([.. Mix, "--out", folder["out.txt"]]);

        Assert.Equal((0, "", ""), (status, output, error));
        Assert.Equal(expected, File.ReadAllText(folder["out.txt"]));
        Assert.Single(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    [Fact]
    public void Write_that_fails_half_way_keeps_the_old_file()
    {
        using WorkFolder folder = new();
        File.WriteAllText(folder["out.txt"], "old");
        Assert.Throws<InvalidOperationException>(() => OutputFile.Write(folder["out.txt"], static to =>
        {
            to.Write("half"u8);
            throw new InvalidOperationException();
        }));
        Assert.Equal("old", File.ReadAllText(folder["out.txt"]));
        Assert.Single(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    [Fact]
    public void Write_through_a_link_replaces_the_file_and_not_the_link()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        using WorkFolder folder = new();
        File.WriteAllText(folder["real.txt"], "old");
        File.CreateSymbolicLink(folder["link.txt"], folder["real.txt"]);
        OutputFile.Write(folder["link.txt"], static to => to.Write("new"u8));
        Assert.Equal("new", File.ReadAllText(folder["real.txt"]));
        Assert.NotNull(new FileInfo(folder["link.txt"]).LinkTarget);
    }

    [Fact]
    public void Write_keeps_rights_and_goes_round_names_prepared_as_links()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "It has no such rights.");
        using WorkFolder folder = new();
        File.WriteAllText(folder["victim.txt"], "theirs");
        File.WriteAllText(folder["out.txt"], "old");
        File.CreateSymbolicLink(
            folder[System.FormattableString.Invariant($"out.txt.{Environment.ProcessId}.part")], folder["victim.txt"]);
        const UnixFileMode Mode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead;
#pragma warning disable CA1416 // skipped there
        File.SetUnixFileMode(folder["out.txt"], Mode);
        OutputFile.Write(folder["out.txt"], static to => to.Write("new"u8));
        Assert.Equal(Mode, File.GetUnixFileMode(folder["out.txt"]));
#pragma warning restore CA1416
        Assert.Equal("new", File.ReadAllText(folder["out.txt"]));
        Assert.Equal("theirs", File.ReadAllText(folder["victim.txt"]));
    }

    /// <summary>What a run that was ended left beside its file goes with the next run, and is told; of others nothing is touched.</summary>
    [Fact]
    public async Task Out_clears_away_what_an_ended_run_left_beside_that_file()
    {
        using WorkFolder folder = new();
        string left = folder[$".out.txt.{new string('0', 16)}.saving"];
        string[] stays =
        [
            folder[$".out.txt.{new string('1', 16)}.saving"], // of this minute: another run may be writing it
            folder[$".other.txt.{new string('0', 16)}.saving"],
            folder[".out.txt.notes.saving"],
            folder[$".out.txt.{new string('0', 16)}.kept"],
        ];
        foreach (string name in (string[])[left, .. stays])
        {
            File.WriteAllText(name, "half");
            File.SetLastWriteTimeUtc(name, DateTime.UtcNow.AddHours(name == stays[0] ? 0 : -1));
        }

        (int status, _, string error) = await CapturedTerminal.RunAsync([.. Mix, "--out", folder["out.txt"]]);
        Assert.Equal(0, status);
        Assert.Equal($"1 half-written file of a run that was ended while it wrote {folder["out.txt"]} cleared away\n", error);
        Assert.False(File.Exists(left));
        Assert.All(stays, static name => Assert.True(File.Exists(name), name));
        (_, _, error) = await CapturedTerminal.RunAsync([.. Mix, "--out", folder["out.txt"]]);
        Assert.Equal("", error);
    }

    [Fact]
    public async Task Out_to_a_device_leaves_the_device_in_place()
    {
        Assert.SkipUnless(File.Exists("/dev/null"), "Needs /dev/null.");
        (int status, _, string error) = await CapturedTerminal.RunAsync([.. Mix, "--out", "/dev/null"]);
        Assert.Equal((0, ""), (status, error));
        Assert.Equal("", File.ReadAllText("/dev/null"));
        File.WriteAllText("/dev/null", "still swallowed");
        Assert.Equal("", File.ReadAllText("/dev/null"));
    }

    [Fact]
    public async Task Out_that_names_a_folder_is_a_usage_error()
    {
        using WorkFolder folder = new();
        (int status, _, string error) = await CapturedTerminal.RunAsync([.. Mix, "--out", folder.Path]);
        Assert.Equal(2, status);
        Assert.Contains("is a folder; write the name of a file", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Out_in_a_folder_that_is_not_there_is_a_usage_error()
    {
        using WorkFolder folder = new();
        (int status, _, string error) = await CapturedTerminal.RunAsync([.. Mix, "--out", folder["no/such.txt"]]);
        Assert.Equal(2, status);
        Assert.Contains("there is no folder", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false, null, null, false)] // a pipe
    [InlineData(true, null, null, true)]
    [InlineData(true, "NO_COLOR", "1", false)]
    [InlineData(true, "TERM", "dumb", false)]
    [InlineData(true, "TERM", "xterm", true)]
    public async Task Colour_only_where_a_person_looks_and_wants_it(bool terminal, string? variable, string? value, bool coloured)
    {
        CapturedTerminal place = new() { OutputIsTerminal = terminal };
        if (variable is not null)
        {
            place.Variables[variable] = value!;
        }

        await CommandFront.RunAsync(Mix, place, CancellationToken.None);
        Assert.Equal(coloured, place.OutputText.Contains('\u001b', StringComparison.Ordinal));
    }

    [Fact]
    public async Task Unexpected_failure_is_one_line_and_its_trace_only_on_request()
    {
        foreach (bool traced in new[] { false, true })
        {
            BrokenTerminal terminal = new(traced);
            int status = await CommandFront.RunAsync(Mix, terminal, CancellationToken.None);
            Assert.Equal(3, status);
            string error = terminal.Error.ToString()!;
            Assert.StartsWith(
                "spurless: this is a fault of the program (InvalidOperationException): broken on purpose\n",
                error,
                StringComparison.Ordinal);
            Assert.Equal(traced, error.Contains("   at ", StringComparison.Ordinal));
        }
    }

    private sealed class BrokenTerminal(bool traced) : Spurless.Terminals.ITerminal
    {
        public Stream InputStream => Stream.Null;

        public Stream OutputStream => throw new InvalidOperationException("broken\non purpose");

        public TextWriter Error { get; } = new StringWriter { NewLine = "\n" };

        public bool OutputIsTerminal => false;

        public bool ErrorIsTerminal => false;

        public string? Variable(string name) => traced && name == "SPURLESS_TRACE" ? "1" : null;
    }
}
