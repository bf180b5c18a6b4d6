using System.Diagnostics;
using System.Text;
using Spurless.Sites.Documents;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>Folders that others prepared, and files that are more than a text: nothing outside is read or written, nothing waits.</summary>
public sealed class HostileFolderTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-hostile-").FullName;
    private readonly string _outside = Directory.CreateTempSubdirectory("spurless-outside-").FullName;

    public void Dispose()
    {
        Directory.Delete(_folder, recursive: true);
        Directory.Delete(_outside, recursive: true);
    }

    [Fact]
    public void TryResolve_a_link_to_a_link_that_leads_out_is_refused()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        File.WriteAllText(Path.Combine(_outside, "secret.site.yaml"), "secret");
        Directory.CreateSymbolicLink(In("second"), _outside);
        Directory.CreateSymbolicLink(In("first"), "second"); // relative, within the folder, and leads out all the same
        Directory.CreateSymbolicLink(In("third"), "first/../first");
        File.CreateSymbolicLink(In("a.site.yaml"), "second/secret.site.yaml");
        File.CreateSymbolicLink(In("b.site.yaml"), "a.site.yaml");
        FolderSession session = new(_folder);
        foreach (string name in (string[])
            ["first/secret.site.yaml", "second/secret.site.yaml", "third/secret.site.yaml", "a.site.yaml", "b.site.yaml"])
        {
            Assert.False(session.Paths.TryResolve(name, out _), name);
            Assert.Null(session.Read(name));
            Assert.Equal(SaveOutcome.Refused, session.Save(name, "ours", null, "test"));
        }

        Assert.Equal(SaveOutcome.Refused, session.Save("first/new.site.yaml", "ours", null, "test"));
        Assert.Equal(["secret.site.yaml"], Directory.EnumerateFileSystemEntries(_outside).Select(Path.GetFileName));
        Assert.Equal("secret", File.ReadAllText(Path.Combine(_outside, "secret.site.yaml")));
    }

    [Fact]
    public void TryResolve_links_without_end_are_refused()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        File.CreateSymbolicLink(In("a.site.yaml"), "b.site.yaml");
        File.CreateSymbolicLink(In("b.site.yaml"), "a.site.yaml");
        Assert.False(new FolderPaths(_folder).TryResolve("a.site.yaml", out _));
    }

    [Fact]
    public void Save_through_a_link_within_the_folder_keeps_the_link()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        FolderSession session = new(_folder);
        session.Save("real.site.yaml", "one", null, "new");
        File.CreateSymbolicLink(In("link.site.yaml"), "real.site.yaml");
        Assert.Equal(SaveOutcome.Saved, session.Save("link.site.yaml", "two", session.Read("link.site.yaml")!.Version, "test"));
        Assert.Equal("two", File.ReadAllText(In("real.site.yaml")));
        Assert.Equal("real.site.yaml", new FileInfo(In("link.site.yaml")).LinkTarget);
    }

    /// <summary>Names that a program before us used, or that can be guessed, prepared as links: a save goes round them.</summary>
    [Fact]
    public void Save_beside_links_prepared_under_guessed_names_writes_nothing_outside()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need rights there.");
        string victim = Path.Combine(_outside, "victim");
        File.WriteAllText(victim, "theirs");
        foreach (string name in (string[])["x.site.yaml.saving", ".x.site.yaml.saving", "x.site.yaml.part", "x.site.yaml~"])
        {
            File.CreateSymbolicLink(In(name), victim);
        }

        Assert.Equal(SaveOutcome.Saved, new FolderSession(_folder).Save("x.site.yaml", "ours", null, "test"));
        Assert.Equal("ours", File.ReadAllText(In("x.site.yaml")));
        Assert.Equal("theirs", File.ReadAllText(victim));
    }

    [Theory]
    [InlineData("640")]
    [InlineData("600")]
    [InlineData("664")]
    [InlineData("755")]
    public void Save_keeps_the_rights_of_the_file(string octal)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "It has no such rights.");
        FolderSession session = new(_folder);
        session.Save("x.site.yaml", "one", null, "new");
        UnixFileMode mode = (UnixFileMode)Convert.ToInt32(octal, 8);
#pragma warning disable CA1416 // skipped there
        File.SetUnixFileMode(In("x.site.yaml"), mode);
        session.Save("x.site.yaml", "two", session.Read("x.site.yaml")!.Version, "test");
        Assert.Equal(mode, File.GetUnixFileMode(In("x.site.yaml")));
#pragma warning restore CA1416
        Assert.Equal("two", File.ReadAllText(In("x.site.yaml")));
        Assert.Single(Directory.EnumerateFileSystemEntries(_folder));
    }

    [Theory]
    [InlineData("a longer text than before\n")]
    [InlineData("s")]
    public void Save_keeps_the_other_names_of_the_file(string text)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only there the program sees further names.");
        FolderSession session = new(_folder);
        session.Save("x.site.yaml", "the first text\n", null, "new");
        Run("ln", In("x.site.yaml"), Path.Combine(_outside, "another-name"));
        Assert.Equal(SaveOutcome.Saved, session.Save("x.site.yaml", text, session.Read("x.site.yaml")!.Version, "test"));
        Assert.Equal(text, File.ReadAllText(Path.Combine(_outside, "another-name")));
        Assert.Equal(text, File.ReadAllText(In("x.site.yaml")));
        Assert.Single(Directory.EnumerateFileSystemEntries(_folder));
    }

    /// <summary>A pipe without a writer never ends: what opens one waits for ever.</summary>
    [Fact]
    public async Task Read_pipe_is_passed_over_and_stops_no_other_reading()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only there the program sees what is no regular file.");
        foreach (string name in (string[])["a.site.yaml", "b.s2p", "c.csv"])
        {
            Run("mkfifo", In(name));
        }

        File.WriteAllText(In("d.site.yaml"), "spurless: 1\n");
        Task<(string[] Names, FolderText? Text, byte[]? Bytes, bool There)> reading = Task.Run(() =>
        {
            using OpenFolder folder = new(_folder, TimeProvider.System);
            return (folder.Files.Select(static f => f.Name).ToArray(),
                folder.Session.Read("a.site.yaml"),
                SiteFolder.ReadFile(In("b.s2p")),
                new SiteFolder(In("d.site.yaml")).Exists("c.csv"));
        });
        // A bound for what waits for ever, not for speed.
        (string[] names, FolderText? text, byte[]? bytes, bool there) = await reading.WaitAsync(TimeSpan.FromMinutes(5));
        Assert.Equal(["d.site.yaml"], names);
        Assert.Null(text);
        Assert.Null(bytes);
        Assert.False(there);
    }

    [Fact]
    public void Take_a_file_of_another_encoding_leaves_nothing_half_written_and_nothing_beside()
    {
        using OpenFolder folder = new(_folder, TimeProvider.System);
        byte[] bytes = Encoding.Latin1.GetBytes("! invented, in Latin-1: \u00B5\n# MHz S MA R 50\n145 1 0\n");
        Assert.Null(FolderIntake.Take(folder, "x.s1p", bytes));
        Assert.Equal(bytes, File.ReadAllBytes(In("x.s1p")));
        Assert.Single(Directory.EnumerateFileSystemEntries(_folder));
    }

    private string In(string name) => Path.Combine(_folder, name);

    private static void Run(string program, params string[] args)
    {
        using Process process = Process.Start(program, args);
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
    }
}
