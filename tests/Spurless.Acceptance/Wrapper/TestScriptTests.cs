using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Wrapper;

/// <summary>
/// <c>./test</c> over projects that end in every way a project can: its last line counts each of them. The projects are played by
/// a dotnet of the test's own, so that nothing is built.
/// </summary>
public sealed class TestScriptTests : IDisposable
{
    private const string Counters =
        "<TestRun><ResultSummary outcome=\"Completed\"><Counters total=\"{0}\" executed=\"{0}\" passed=\"{1}\" "
            + "failed=\"{2}\" notExecuted=\"{3}\" /></ResultSummary></TestRun>";

    private const string Dotnet = """
        #!/bin/bash
        case $1 in
          --version) echo 10.0.100; exit ;;
          restore | format) exit ;;
          build) [ -z "$FAKE_BUILD" ]; exit ;;
        esac
        name=${1##*/}; name=${name%.dll}
        while [ "$1" != -result-trx ]; do shift; done
        [ -f "played/$name.trx" ] && cat "played/$name.trx" > "$2"
        . "played/$name.sh"
        """;

    private readonly WorkFolder _folder = new();

    public TestScriptTests()
    {
        Directory.CreateDirectory(_folder[".ci"]);
        Directory.CreateDirectory(_folder["played"]);
        Directory.CreateDirectory(_folder["src/Spurless"]);
        Directory.CreateDirectory(_folder["demo"]);
        File.WriteAllText(_folder["src/Spurless/Spurless.csproj"], "<Project/>");
        foreach (
            string file in new[]
            {
                "test",
                ".ci/state.sh",
                ".ci/needs.sh",
                "Directory.Build.props",
                "Directory.Packages.props",
                "global.json",
                ".editorconfig",
            })
        {
            File.Copy(Repository.PathOf(file), _folder[file]);
        }

        Play("Spurless.Good", "exit 0", (2, 0, 1));
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Last_line_where_all_is_well_has_no_failure()
    {
        Play("Spurless.Other", "exit 0", (5, 0, 0));
        Ended ended = await RunAsync();
        Assert.Equal("7 passed, 0 failed, 1 skipped", LastLine(ended));
        Assert.Equal(0, ended.Status);
    }

    [Fact]
    public async Task Last_line_counts_failed_tests_once()
    {
        Play("Spurless.Red", "echo 'Red.Is_blue [FAIL]'; echo '  Expected: blue'; printf '1\\n2\\n3\\n'; exit 1", (4, 3, 0));
        Ended ended = await RunAsync();
        Assert.Equal("6 passed, 3 failed, 1 skipped", LastLine(ended));
        // Who sees the last lines alone still learns which test it was, and what it said.
        Assert.Contains(
            "== failed of Spurless.Red\nRed.Is_blue [FAIL]\n  Expected: blue\n1\n2\nFAILED: Spurless.Red: 3 failed\n",
            ended.Output,
            StringComparison.Ordinal);
        Assert.Equal(1, ended.Status);
    }

    [Theory]
    [InlineData("kill -KILL $$", false, "Spurless.Ended was killed (signal 9) and wrote no result file")]
    [InlineData("kill -SEGV $$", false, "Spurless.Ended was killed (signal 11) and wrote no result file")]
    [InlineData("kill -TERM $$", false, "Spurless.Ended was killed (signal 15) and wrote no result file")]
    [InlineData("exit 0", false, "Spurless.Ended ended with status 0 and wrote no result file")]
    [InlineData("exit 3", false, "Spurless.Ended ended with status 3 and wrote no result file")]
    [InlineData("kill -KILL $$", true, "Spurless.Ended was killed (signal 9), though no test of it failed")]
    [InlineData("exit 2", true, "Spurless.Ended ended with status 2, though no test of it failed")]
    public async Task Last_line_counts_a_project_that_did_not_end_well_as_one_failed(string end, bool results, string said)
    {
        Play("Spurless.Ended", end, results ? (1, 0, 0) : null);
        Ended ended = await RunAsync();
        Assert.Equal(results ? "3 passed, 1 failed, 1 skipped" : "2 passed, 1 failed, 1 skipped", LastLine(ended));
        Assert.Contains("FAILED: " + said, ended.Output, StringComparison.Ordinal);
        Assert.Equal(1, ended.Status);
    }

    [Fact]
    public async Task Last_line_counts_a_hung_project_as_one_failed()
    {
        Play("Spurless.Hung", "exec sleep 300", null);
        Ended ended = await RunAsync(("SPURLESS_TEST_LIMIT", "1"));
        Assert.Equal("2 passed, 1 failed, 1 skipped", LastLine(ended));
        Assert.Contains(
            "FAILED: Spurless.Hung was taken for hung and ended after 1 s and wrote no result file",
            ended.Output,
            StringComparison.Ordinal);
        Assert.Equal(1, ended.Status);
    }

    [Fact]
    public async Task Last_line_counts_a_project_without_a_test_as_one_failed()
    {
        Play("Spurless.Empty", "exit 0", (0, 0, 0));
        Ended ended = await RunAsync();
        Assert.Equal("2 passed, 1 failed, 1 skipped", LastLine(ended));
        Assert.Contains("FAILED: Spurless.Empty has no test", ended.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Last_line_where_the_build_fails_is_one_failed()
    {
        Ended ended = await RunAsync(("FAKE_BUILD", "broken"));
        Assert.Equal("0 passed, 1 failed, 0 skipped", LastLine(ended));
        Assert.Equal(1, ended.Status);
    }

    /// <summary>No browser, no fonts, not root: the other projects run, and what is missing is asked for by its name.</summary>
    [Fact]
    public async Task Browser_tests_without_browser_and_fonts_ask_for_them_by_name()
    {
        Play("Spurless.Browser", "exit 0", (9, 0, 0));
        Ended ended = await RunAsync();
        Assert.Equal("2 passed, 3 failed, 1 skipped", LastLine(ended));
        Assert.Contains(
            "it needs a Chromium, Chrome or Edge on PATH (Debian: apt install chromium)", ended.Output, StringComparison.Ordinal);
        Assert.Contains(
            "it needs the fonts 'Liberation Sans' and 'Liberation Serif' (Debian: apt install fonts-liberation)",
            ended.Output,
            StringComparison.Ordinal);
        Assert.Contains("it needs the font 'DejaVu Sans' (Debian: apt install fonts-dejavu-core)", ended.Output, StringComparison.Ordinal);
        Assert.Equal(1, ended.Status);
    }

    /// <summary>Root with a package manager: what is missing is installed, and the browser tests run.</summary>
    [Fact]
    public async Task Browser_tests_without_browser_and_fonts_install_them_where_they_may()
    {
        Play("Spurless.Browser", "exit 0", (9, 0, 0));
        string log = _folder["installed"];
        Ended ended = await RunAsync(path =>
        {
            path.Add("id", "#!/bin/bash\necho 0\n");
            path.Add(
                "apt-get",
                $"#!/bin/bash\necho \"$@\" >> '{log}'\n[ \"$1\" = install ] && touch '{log}.fonts' "
                    + $"&& cp \"$0\" \"${{0%/*}}/chromium\"\nexit 0\n");
            path.Add("fc-list", $"#!/bin/bash\n[ -f '{log}.fonts' ] && echo \"$1\"\nexit 0\n");
        });
        Assert.Equal("11 passed, 0 failed, 1 skipped", LastLine(ended));
        Assert.Equal(
            ["update", "install -y --no-install-recommends chromium fonts-liberation fonts-dejavu-core"],
            File.ReadAllLines(log));
        Assert.Equal(0, ended.Status);
    }

    private static string LastLine(Ended ended) => ended.Output.TrimEnd('\n').Split('\n')[^1];

    /// <summary>A project that writes these counts (passed, failed, skipped), or none, and ends so.</summary>
    private void Play(string name, string end, (int Passed, int Failed, int Skipped)? counts)
    {
        Directory.CreateDirectory(_folder["tests/" + name]);
        File.WriteAllText(_folder[$"tests/{name}/{name}.csproj"], "<Project/>");
        File.WriteAllText(_folder[$"played/{name}.sh"], end + "\n");
        if (counts is var (passed, failed, skipped))
        {
            File.WriteAllText(
                _folder[$"played/{name}.trx"],
                string.Format(
                    System.Globalization.CultureInfo.InvariantCulture, Counters, passed + failed + skipped, passed, failed, skipped));
        }
    }

    private Task<Ended> RunAsync(params (string Name, string Value)[] variables) => RunAsync(NoRights, variables);

    private static void NoRights(FakePath path)
    {
        path.Add("id", "#!/bin/bash\necho 1000\n");
        path.Add("fc-list", "#!/bin/bash\nexit 0\n");
    }

    private async Task<Ended> RunAsync(Action<FakePath> add, params (string Name, string Value)[] variables)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows() || OperatingSystem.IsMacOS(), "The script's tools are those of Linux here.");
        using FakePath path = new(Dotnet);
        add(path);
        Dictionary<string, string?> environment = new(path.Environment) { ["SPURLESS_CHROMIUM"] = null };
        foreach ((string name, string value) in variables)
        {
            environment[name] = value;
        }

        return await BuiltProgram.RunAsync(_folder.Path, "bash", [_folder["test"]], environment);
    }
}
