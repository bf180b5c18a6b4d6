using Spurless.Sites.Cures;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Workbench.Cures;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Cures;

/// <summary>Ways out of an open folder's site (invented): what the list promises is what the folder holds once it is kept.</summary>
public sealed class FolderCuresTests : IDisposable
{
    private const string Name = "sites/ours.site.yaml";

    // 2 x north - south = 145.05 MHz: made in the receiver, so that a filter, a pad or another channel each end it.
    private const string Text = """
        spurless: 1
        site: invented
        receivers:
          - name: input   # kept, comments too
            frequency: 145.05 MHz
            channel: 12.5 kHz
            noise_figure: 6 dB
            iip3: -8 dBm
        emitters:
          - { name: north, frequency: 158.3 MHz, emission: 11K2F3E, level: -31 dBm }
          - { name: south, frequency: 171.55 MHz, emission: 11K2F3E, level: -33 dBm }
        search: { orders: 2-3, signals: 2 }

        """;

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-cures-").FullName;
    private readonly OpenFolder _folder;

    public FolderCuresTests()
    {
        Directory.CreateDirectory(Path.Combine(_path, "sites"));
        File.WriteAllText(Path.Combine(_path, Name), Text);
        _folder = new OpenFolder(_path, TimeProvider.System);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void Keep_each_way_out_makes_the_site_that_was_promised_and_undo_takes_it_back()
    {
        (CureQuestion question, CuredReceiver cured) = Ask();
        Assert.True(cured.Cures.Count >= 2, $"{cured.Cures.Count} ways out");
        foreach (Cure cure in cured.Cures)
        {
            Assert.Null(FolderCures.Keep(_folder, Name, question, cure));
            ReceiverFindings now = Study();
            Assert.Equal((cure.Harmful, cure.Marginal), (now.Harmful, now.Marginal));
            Assert.Contains("# kept, comments too", _folder.Session.Read(Name)!.Text, StringComparison.Ordinal);
            foreach (string file in cure.Files.Keys)
            {
                Assert.Equal(cure.Files[file], _folder.Session.Read("sites/" + file)!.Text);
            }

            for (int i = 0; i <= cure.Files.Count && _folder.Session.Read(Name)!.Text != Text; i++)
            {
                _folder.Session.Undo();
            }

            Assert.Equal(Text, _folder.Session.Read(Name)!.Text);
        }
    }

    [Fact]
    public void Keep_into_a_site_that_changed_meanwhile_writes_nothing()
    {
        (CureQuestion question, CuredReceiver cured) = Ask();
        _folder.Set(Name, "site", "renamed", "invented", "renamed");
        string changed = _folder.Session.Read(Name)!.Text;
        Assert.NotEqual(Text, changed);
        string? why = FolderCures.Keep(_folder, Name, question, cured.Cures[0]);
        Assert.Contains("has changed since this list was made; ", why, StringComparison.Ordinal);
        Assert.Equal(changed, _folder.Session.Read(Name)!.Text);
        Assert.Equal([Name], _folder.Files.Select(static f => f.Name));
    }

    [Fact]
    public void Keep_where_a_file_of_its_name_holds_something_else_writes_nothing()
    {
        (CureQuestion question, CuredReceiver cured) = Ask();
        if (cured.Cures.FirstOrDefault(static c => c.Files.Count > 0) is not { } cure)
        {
            // A usual filter comes with a file of its own; without one there is nothing to hold this to.
            Assert.Fail("no way out of this site comes with a file");
            return;
        }

        string file = "sites/" + cure.Files.Keys.Order(StringComparer.Ordinal).First();
        Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(_path, file))!);
        File.WriteAllText(Path.Combine(_path, file), "# somebody else's\n");
        string? why = FolderCures.Keep(_folder, Name, question, cure);
        Assert.Equal($"'{file}' is there and holds something else; give it another name", why);
        Assert.Equal(Text, _folder.Session.Read(Name)!.Text);
        Assert.Equal("# somebody else's\n", File.ReadAllText(Path.Combine(_path, file)));
    }

    [Fact]
    public void Question_of_a_file_with_errors_or_of_none_is_nothing()
    {
        File.WriteAllText(Path.Combine(_path, "broken.site.yaml"), "spurless: 1\n");
        _folder.Look();
        Assert.Null(FolderCures.Question(_folder, "broken.site.yaml", null));
        Assert.Null(FolderCures.Question(_folder, "nowhere.site.yaml", null));
    }

    private (CureQuestion Question, CuredReceiver Cured) Ask()
    {
        CureQuestion question = FolderCures.Question(_folder, Name, null)!;
        return (question, Assert.Single(CureService.Ask(question).Answer!.Receivers));
    }

    private ReceiverFindings Study()
    {
        LoadedSite site = _folder.Site(Name)!.Site!;
        return Assert.Single(StudyService.Run(site, new StudyOptions()).Receivers);
    }
}
