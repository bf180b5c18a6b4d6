using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>What was typed and not yet written: it outlives the program, harms no file of the user's and leaves nothing behind.</summary>
public sealed class FolderDraftsTests : IDisposable
{
    private sealed record Typed(string Text, int[] Numbers, bool? Said);

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-drafts-").FullName;
    private readonly FolderDrafts _drafts;

    public FolderDraftsTests() => _drafts = new FolderDrafts(new FolderPaths(_path));

    public void Dispose() => Directory.Delete(_path, recursive: true);

    [Theory]
    [InlineData("")]
    [InlineData("two\nlines, \"quoted\", Zwölf \uD83D\uDCE1")]
    [InlineData("</script>")]
    public void Keep_is_read_by_another_run(string text)
    {
        Assert.True(_drafts.Keep("first-site", new Typed(text, [1, -2, 3], null)));
        Typed read = new FolderDrafts(new FolderPaths(_path)).Read<Typed>("first-site")!;
        Assert.Equal((text, null), (read.Text, read.Said));
        Assert.Equal([1, -2, 3], read.Numbers);
    }

    [Fact]
    public void Keep_takes_the_place_of_the_one_before_and_leaves_others()
    {
        _drafts.Keep("a", new Typed("old", [], true));
        _drafts.Keep("b", new Typed("other", [], true));
        _drafts.Keep("a", new Typed("new", [], false));
        Assert.Equal("new", _drafts.Read<Typed>("a")!.Text);
        Assert.Equal("other", _drafts.Read<Typed>("b")!.Text);
    }

    [Fact]
    public void Forget_takes_the_hidden_folders_with_the_last_one_and_nothing_of_the_users()
    {
        File.WriteAllText(Path.Combine(_path, "mine.site.yaml"), "mine");
        _drafts.Keep("a", new Typed("x", [], true));
        _drafts.Keep("b", new Typed("y", [], true));
        _drafts.Forget("a");
        Assert.Null(_drafts.Read<Typed>("a"));
        Assert.True(Directory.Exists(Path.Combine(_path, ".spurless", "drafts")));
        _drafts.Forget("b");
        Assert.False(Directory.Exists(Path.Combine(_path, ".spurless")));
        Assert.Equal("mine", File.ReadAllText(Path.Combine(_path, "mine.site.yaml")));
        _drafts.Forget("b"); // there is none: nothing to do, nothing to fall over
    }

    [Fact]
    public void Forget_leaves_a_hidden_folder_that_holds_something_else()
    {
        _drafts.Keep("a", new Typed("x", [], true));
        string other = Path.Combine(_path, ".spurless", "lock");
        File.WriteAllText(other, "");
        _drafts.Forget("a");
        Assert.True(File.Exists(other));
        Assert.False(Directory.Exists(Path.Combine(_path, ".spurless", "drafts")));
    }

    [Theory]
    [InlineData("{")]
    [InlineData("")]
    [InlineData("[1, 2]")]
    [InlineData("{ \"Text\": 7 }")]
    public void Read_what_is_no_draft_is_none(string text)
    {
        Directory.CreateDirectory(Path.Combine(_path, ".spurless", "drafts"));
        File.WriteAllText(Path.Combine(_path, ".spurless", "drafts", "a.json"), text);
        Assert.Null(_drafts.Read<Typed>("a"));
        Assert.True(_drafts.Keep("a", new Typed("mended", [], null)));
        Assert.Equal("mended", _drafts.Read<Typed>("a")!.Text);
    }

    [Fact]
    public void Read_more_than_any_draft_holds_is_none()
    {
        Directory.CreateDirectory(Path.Combine(_path, ".spurless", "drafts"));
        File.WriteAllText(
            Path.Combine(_path, ".spurless", "drafts", "a.json"), $"{{\"Text\":\"{new string('x', 1024 * 1024)}\",\"Numbers\":[]}}");
        Assert.Null(_drafts.Read<Typed>("a"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("../out")]
    [InlineData("a/b")]
    [InlineData("a.b")]
    [InlineData("ä")]
    public void Keep_under_a_name_that_could_lead_elsewhere_is_a_mistake_of_the_program(string name)
    {
        Assert.Throws<ArgumentException>(() => _drafts.Keep(name, new Typed("", [], null)));
        Assert.Throws<ArgumentException>(() => _drafts.Read<Typed>(name));
        Assert.Empty(Directory.EnumerateFileSystemEntries(_path));
    }

    [Fact]
    public void Keep_where_nothing_can_be_written_says_so_and_falls_over_nothing()
    {
        // A file stands where the hidden folder would.
        File.WriteAllText(Path.Combine(_path, ".spurless"), "");
        Assert.False(_drafts.Keep("a", new Typed("x", [], null)));
        Assert.Null(_drafts.Read<Typed>("a"));
        _drafts.Forget("a");
        Assert.True(File.Exists(Path.Combine(_path, ".spurless")));
    }
}
