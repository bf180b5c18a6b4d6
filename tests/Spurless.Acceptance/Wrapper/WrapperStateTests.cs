using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Wrapper;

/// <summary>
/// When the wrapper builds, and what it says where it cannot. The compiler is played by a dotnet of the test's own that notes each build,
/// so that nothing is built.
/// </summary>
public sealed class WrapperStateTests : IDisposable
{
    private const string Dotnet = """
        #!/bin/bash
        case $1 in
          --version) echo 10.0.100 ;;
          build) echo built >>"$BUILDS"; mkdir -p src/Spurless/bin/Release/net10.0; : >src/Spurless/bin/Release/net10.0/spurless.dll ;;
          *) echo "ran" ;;
        esac
        """;

    private readonly WorkFolder _folder = new();
    private readonly FakePath _path = new(Dotnet);
    private string _tree;

    public WrapperStateTests() => _tree = Tree("a tree");

    private string Source => Path.Combine(_tree, "src", "Spurless", "A.cs");

    private int Builds => File.Exists(_folder["builds"]) ? File.ReadAllLines(_folder["builds"]).Length : 0;

    public void Dispose()
    {
        _path.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public async Task Source_dated_tomorrow_is_built_once()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        File.SetLastWriteTimeUtc(Source, DateTime.UtcNow.AddDays(1));
        for (int i = 0; i < 3; i++)
        {
            await RunsAsync();
        }

        Assert.Equal(1, Builds);
    }

    [Fact]
    public async Task Source_touched_but_not_changed_is_not_built_again()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        await RunsAsync();
        File.SetLastWriteTimeUtc(Source, DateTime.UtcNow.AddDays(1));
        await RunsAsync();
        File.SetLastWriteTimeUtc(Source, new DateTime(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        await RunsAsync();
        Assert.Equal(1, Builds);
    }

    /// <summary>The same length and the same date as before: only its contents tell.</summary>
    [Fact]
    public async Task Source_changed_in_place_with_its_old_date_is_built()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        DateTime old = new(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc);
        File.SetLastWriteTimeUtc(Source, old);
        await RunsAsync();
        File.WriteAllText(Source, File.ReadAllText(Source).Replace('A', 'B'));
        File.SetLastWriteTimeUtc(Source, old);
        await RunsAsync();
        await RunsAsync();
        Assert.Equal(2, Builds);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task File_put_there_or_taken_away_is_seen(bool away)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        string other = Path.Combine(_tree, "src", "Spurless", "with a blank.cs");
        if (away)
        {
            File.WriteAllText(other, "");
        }

        await RunsAsync();
        if (away)
        {
            File.Delete(other);
        }
        else
        {
            File.WriteAllText(other, "");
            File.SetLastWriteTimeUtc(other, new DateTime(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        }

        await RunsAsync();
        Assert.Equal(2, Builds);
    }

    /// <summary>Without flock a folder is the lock: one whose holder is gone, or never wrote its number, is nobody's.</summary>
    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("99999999")]
    [InlineData("1")] // the number is another process' by now
    public async Task Stale_lock_without_flock_is_taken_over(string? holder)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        _path.Remove("flock");
        string held = Path.Combine(_tree, ".spurless", "lock.held");
        Directory.CreateDirectory(held);
        if (holder is not null)
        {
            File.WriteAllText(Path.Combine(held, "pid"), holder);
        }

        Directory.SetLastWriteTimeUtc(held, DateTime.UtcNow.AddHours(-1));
        await RunsAsync();
        Assert.Equal(1, Builds);
        Assert.False(Directory.Exists(held));
    }

    [Theory]
    [InlineData("a;b", ";")]
    [InlineData("a%20b", "%")]
    [InlineData("a\"b", "\"")]
    [InlineData("a*b", "*")]
    [InlineData("a$(b)", "$(")]
    public async Task Folder_whose_name_the_build_tools_take_for_something_else_is_told_in_words(string name, string sign)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        _tree = Tree(name);
        Ended ended = await CallAsync();
        Assert.Equal(3, ended.Status);
        Assert.Equal(
            $"spurless: the build tools cannot work in a folder with {sign} in its name: {_tree}\n"
                + "  Give it another name, or copy it elsewhere.\n",
            ended.Error);
        Assert.Equal(0, Builds);
    }

    [Theory]
    [InlineData("it's (a) & b")]
    [InlineData("100% sûr 無線 #1")]
    public async Task Folder_of_any_other_name_works(string name)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The script is bash.");
        _tree = Tree(name);
        await RunsAsync();
        await RunsAsync();
        Assert.Equal(1, Builds);
    }

    [Fact]
    public async Task Tree_that_cannot_be_written_to_and_a_full_disk_are_told_apart()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The full disk is played by /dev/full.");
        string state = Path.Combine(_tree, ".spurless");
        Directory.CreateDirectory(state);
        File.CreateSymbolicLink(Path.Combine(state, "room"), "/dev/full");
        Ended full = await CallAsync();
        Assert.Equal((3, $"spurless: the disk of {_tree} is full; make some room.\n"), (full.Status, full.Error));
        Directory.Delete(state, recursive: true);
        File.WriteAllText(state, "in the way"); // rights alone do not stop every user
        Ended closed = await CallAsync();
        Assert.Equal(
            (3, $"spurless: cannot write to {_tree}; copy the folder to where you may write.\n"), (closed.Status, closed.Error));
        Assert.Equal(0, Builds);
    }

    private string Tree(string name)
    {
        string tree = _folder[name];
        Directory.CreateDirectory(Path.Combine(tree, "src", "Spurless"));
        Directory.CreateDirectory(Path.Combine(tree, "demo"));
        Directory.CreateDirectory(Path.Combine(tree, ".ci"));
        foreach (string file in new[]
            {
                "spurless", ".ci/state.sh", "Directory.Build.props", "Directory.Packages.props", "global.json", ".editorconfig",
            })
        {
            File.Copy(Repository.PathOf(file), Path.Combine(tree, file));
        }

        File.WriteAllText(Path.Combine(tree, "src", "Spurless", "Spurless.csproj"), "<Project/>");
        File.WriteAllText(Path.Combine(tree, "src", "Spurless", "A.cs"), "class A;\n");
        return tree;
    }

    private async Task RunsAsync()
    {
        Ended ended = await CallAsync();
        Assert.True(ended.Status == 0, ended.Error);
        Assert.Equal("ran\n", ended.Output);
    }

    private Task<Ended> CallAsync() => BuiltProgram.RunAsync(
        _folder.Path,
        "bash",
        [Path.Combine(_tree, "spurless"), "--version"],
        new Dictionary<string, string?>(_path.Environment) { ["BUILDS"] = _folder["builds"] });
}
