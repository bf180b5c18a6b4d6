using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

public sealed class OpenFolderTests : IDisposable
{
    private const string Site = "spurless: 1 # ours\nsite: hill\nreceivers: []\nemitters: []\n";

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-open-").FullName;
    private readonly OpenFolder _folder;

    public OpenFolderTests()
    {
        Write("a.site.yaml", Site);
        _folder = new OpenFolder(_path, TimeProvider.System);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void Files_lists_what_the_program_can_read_and_nothing_else()
    {
        Write("filters/f.circuit.yaml", "");
        Write(".hidden/x.site.yaml", "");
        Write("notes.txt", "");
        _folder.Look();
        Assert.Equal(["a.site.yaml", "filters/f.circuit.yaml"], _folder.Files.Select(static f => f.Name));
    }

    [Fact]
    public async Task Edit_of_many_pages_at_once_saves_what_each_wrote()
    {
        const int Pages = 12;
        const int Edits = 8;
        FieldOutcome[][] outcomes = await Task.WhenAll(Enumerable.Range(0, Pages).Select(page => Task.Run(() =>
            Enumerable.Range(0, Edits).Select(i => _folder.Edit("a.site.yaml", "a line", text =>
            {
                Thread.Sleep(2); // as long as it takes to read a large file, so that others come between
                return (text + FormattableString.Invariant($"# page {page} edit {i}\n"), null);
            })).ToArray())));

        Assert.All(outcomes.SelectMany(static o => o), static o => Assert.True(o.Ok, o.Problem));
        string[] lines = File.ReadAllLines(Path.Combine(_path, "a.site.yaml"));
        Assert.Equal(Pages * Edits, lines.Count(static l => l.StartsWith("# page", StringComparison.Ordinal)));
    }

    [Fact]
    public void Edit_of_a_file_that_another_program_writes_without_end_gives_up()
    {
        int tries = 0;
        FieldOutcome outcome = _folder.Edit("a.site.yaml", "a line", text =>
        {
            Write("a.site.yaml", FormattableString.Invariant($"{Site}# theirs {++tries}\n"));
            return (text + "# ours\n", null);
        });

        Assert.Equal(FieldResult.Refused, outcome.Result);
        Assert.Equal(5, tries);
        Assert.EndsWith("# theirs 5\n", File.ReadAllText(Path.Combine(_path, "a.site.yaml")), StringComparison.Ordinal);
    }

    [Fact]
    public void Set_writes_one_field_and_keeps_what_others_wrote_elsewhere()
    {
        Write("a.site.yaml", Site.Replace("emitters: []", "emitters: [] # by hand", StringComparison.Ordinal));
        Assert.Equal(FieldResult.Saved, _folder.Set("a.site.yaml", "site", "valley", "hill", "another name").Result);
        Assert.Equal(
            Site.Replace("hill", "valley", StringComparison.Ordinal).Replace(
                "emitters: []", "emitters: [] # by hand", StringComparison.Ordinal),
            Read("a.site.yaml"));
        Assert.Equal("another name", _folder.Session.NextUndo!.What);
    }

    [Fact]
    public void Set_what_others_changed_meanwhile_is_a_conflict_and_writes_nothing()
    {
        Write("a.site.yaml", Site.Replace("hill", "theirs", StringComparison.Ordinal));
        FieldOutcome outcome = _folder.Set("a.site.yaml", "site", "mine", "hill", "another name");
        Assert.Equal((FieldResult.Conflict, "theirs"), (outcome.Result, outcome.There));
        Assert.Contains("site: theirs", Read("a.site.yaml"), StringComparison.Ordinal);
        Assert.Equal(FieldResult.Saved, _folder.Set("a.site.yaml", "site", "mine", "theirs", "mine after all").Result);
    }

    [Fact]
    public void Set_what_stands_there_already_is_no_step()
    {
        Assert.True(_folder.Set("a.site.yaml", "site", "hill", "hill", "nothing").Ok);
        Assert.Null(_folder.Session.NextUndo);
    }

    [Fact]
    public void Set_in_a_file_of_another_encoding_is_refused_and_loses_nothing()
    {
        byte[] latin = System.Text.Encoding.Latin1.GetBytes(Site.Replace("ours", "h\u00fcgel", StringComparison.Ordinal));
        File.WriteAllBytes(Path.Combine(_path, "a.site.yaml"), latin);
        _folder.Look();
        Assert.Contains("UTF-8", _folder.Set("a.site.yaml", "site", "x", "hill", "x").Problem, StringComparison.Ordinal);
        Assert.Equal(latin, File.ReadAllBytes(Path.Combine(_path, "a.site.yaml")));
        Assert.NotEmpty(_folder.Site("a.site.yaml")!.Errors);
    }

    [Fact]
    public void Edit_a_file_that_is_gone_is_refused()
    {
        File.Delete(Path.Combine(_path, "a.site.yaml"));
        Assert.Equal(FieldResult.Refused, _folder.Set("a.site.yaml", "site", "x", "hill", "x").Result);
    }

    [Fact]
    public void Look_tells_of_an_editor_and_saving_here_is_told_once()
    {
        List<FolderChange> told = [];
        _folder.Changed += told.Add;
        _folder.Set("a.site.yaml", "site", "valley", "hill", "another name");
        _folder.Look();
        Assert.Equal([true], told.Select(static c => c.Here));
        Write("a.site.yaml", Site + "# longer by hand\n");
        _folder.Look();
        Assert.Contains(told, static c => !c.Here && c.Names.Contains("a.site.yaml"));
    }

    [Fact]
    public void Site_is_read_again_after_a_change_of_any_file()
    {
        FolderSite first = _folder.Site("a.site.yaml")!;
        Assert.Same(first, _folder.Site("a.site.yaml"));
        Write("filters/f.circuit.yaml", "x");
        _folder.Look();
        Assert.NotSame(first, _folder.Site("a.site.yaml"));
        Assert.Null(_folder.Site("../a.site.yaml"));
    }

    [Fact]
    public void Site_that_names_a_file_outside_the_folder_does_not_get_it()
    {
        string outside = Path.Combine(Path.GetTempPath(), $"spurless-outside-{Environment.ProcessId}.csv");
        File.WriteAllText(outside, "name,frequency\nx,145 MHz\n");
        try
        {
            Write("b.site.yaml", Site.Replace("emitters: []", $"emitters_from: ../{Path.GetFileName(outside)}", StringComparison.Ordinal));
            _folder.Look();
            Assert.Contains(
                _folder.Site("b.site.yaml")!.Findings,
                static f => f.Line == 4 && f.What.Contains("spurless-outside-", StringComparison.Ordinal));
            Write("b.site.yaml", Site.Replace("emitters: []", $"emitters_from: {outside}", StringComparison.Ordinal));
            _folder.Look();
            Assert.Contains(_folder.Site("b.site.yaml")!.Findings, static f => f.Line == 4);
        }
        finally
        {
            File.Delete(outside);
        }
    }

    private string Read(string name) => File.ReadAllText(Path.Combine(_path, name));

    private void Write(string name, string text)
    {
        string path = Path.Combine(_path, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
    }
}
