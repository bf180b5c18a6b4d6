using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

public sealed class FolderSessionTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-folder-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("../secret.yaml")]
    [InlineData("filters/../../secret.yaml")]
    [InlineData("/etc/passwd")]
    [InlineData("a//b")]
    [InlineData("./a")]
    [InlineData("")]
    [InlineData("a\\..\\b")]
    [InlineData("C:x")]
    [InlineData(".git/config")]
    [InlineData("a\0b")]
    public void TryResolve_a_name_that_leads_out_is_refused(string name) => Assert.False(new FolderPaths(_folder).TryResolve(name, out _));

    [Fact]
    public void TryResolve_a_link_that_leads_out_is_refused()
    {
        string outside = Directory.CreateTempSubdirectory("spurless-outside-").FullName;
        try
        {
            Directory.CreateSymbolicLink(Path.Combine(_folder, "out"), outside);
            FolderPaths paths = new(_folder);
            Assert.False(paths.TryResolve("out/file.yaml", out _));
            File.WriteAllText(Path.Combine(outside, "file.yaml"), "secret");
            File.CreateSymbolicLink(Path.Combine(_folder, "link.yaml"), Path.Combine(outside, "file.yaml"));
            Assert.False(paths.TryResolve("link.yaml", out _));
            Assert.Null(new FolderSession(_folder).Read("link.yaml"));
        }
        finally
        {
            Directory.Delete(outside, recursive: true);
        }
    }

    [Fact]
    public void Save_then_undo_then_redo_moves_through_all_versions()
    {
        FolderSession session = new(_folder);
        Assert.Equal(SaveOutcome.Saved, session.Save("a.site.yaml", "one\n", null, "new site"));
        FolderText first = session.Read("a.site.yaml")!;
        Assert.Equal(SaveOutcome.Saved, session.Save("a.site.yaml", "two\n", first.Version, "filter in"));
        Assert.Equal("filter in", session.NextUndo!.What);
        Assert.Equal(SaveOutcome.Saved, session.Undo());
        Assert.Equal("one\n", session.Read("a.site.yaml")!.Text);
        Assert.Equal(SaveOutcome.Saved, session.Undo());
        Assert.Null(session.Read("a.site.yaml"));
        Assert.Null(session.Undo());
        Assert.Equal(SaveOutcome.Saved, session.Redo());
        Assert.Equal(SaveOutcome.Saved, session.Redo());
        Assert.Equal("two\n", session.Read("a.site.yaml")!.Text);
        Assert.Null(session.Redo());
    }

    [Fact]
    public void Save_a_file_that_an_editor_changed_meanwhile_writes_nothing()
    {
        FolderSession session = new(_folder);
        session.Save("a.site.yaml", "one\n", null, "new site");
        string version = session.Read("a.site.yaml")!.Version;
        File.WriteAllText(Path.Combine(_folder, "a.site.yaml"), "theirs\n");
        Assert.Equal(SaveOutcome.ChangedMeanwhile, session.Save("a.site.yaml", "ours\n", version, "ours"));
        Assert.Equal("theirs\n", session.Read("a.site.yaml")!.Text);
        Assert.Equal(SaveOutcome.ChangedMeanwhile, session.Undo());
        Assert.Equal("theirs\n", session.Read("a.site.yaml")!.Text);
    }

    [Fact]
    public void Save_tells_who_listens()
    {
        FolderSession session = new(_folder);
        List<string> told = [];
        session.Changed += told.Add;
        session.Save("filters/a.circuit.yaml", "x\n", null, "new circuit");
        session.Undo();
        Assert.Equal(["filters/a.circuit.yaml", "filters/a.circuit.yaml"], told);
    }
}
