using Spurless.Mixing.Evidence;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Locating;

namespace Spurless.Workbench.Tests.Locating;

/// <summary>Readings tried and written into a copy of the invented demo's site, and logs taken on the spot.</summary>
public sealed class FolderEvidenceTests : IDisposable
{
    private const string Site = "quernmoss-heard.site.yaml";
    private static readonly DateTimeOffset Evening = new(2031, 3, 5, 19, 0, 0, TimeSpan.FromHours(1));

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-evidence-").FullName;
    private readonly OpenFolder _folder;

    public FolderEvidenceTests()
    {
        string demo = Path.GetDirectoryName(DemoSites.PathOf(Site))!;
        foreach (string file in Directory.EnumerateFiles(demo, "*", SearchOption.AllDirectories)
            .Where(static f => f.EndsWith(".yaml", StringComparison.Ordinal) || f.EndsWith(".s2p", StringComparison.Ordinal)
                || f.EndsWith(".csv", StringComparison.Ordinal)))
        {
            string copy = Path.Combine(_path, Path.GetRelativePath(demo, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        _folder = new OpenFolder(_path, TimeProvider.System);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void Try_what_is_typed_is_what_the_file_says_once_it_is_kept()
    {
        LocateAnswer before = Weigh();
        LocatedReceiver located = before.Receivers[0];
        Observation ask = located.Next[0].Ask;
        TypedReading reading = new("43", "5.6", "");
        FolderText text = _folder.Session.Read(Site)!;

        (LocatedReceiver? tried, string? problem) = FolderEvidence.Try(_folder, text, before, located, ask, reading);
        Assert.Null(problem);
        Assert.Equal(text.Text, _folder.Session.Read(Site)!.Text);

        Assert.True(EvidenceEdits.TryAdd(text.Text, located, ask, reading, out string? edited, out _));
        Assert.StartsWith(text.Text.TrimEnd(), edited, StringComparison.Ordinal); // every comment and every key as it stood
        _folder.Session.Save(Site, edited, text.Version, "reading kept");
        LocatedReceiver after = Weigh().Receivers[0];
        Assert.Equal(after.Weighed.Posterior, tried!.Weighed.Posterior);
        Assert.NotEqual(located.Weighed.Posterior, tried.Weighed.Posterior);
        Assert.Empty(tried.Next);

        _folder.Session.Undo();
        Assert.Equal(text.Text, _folder.Session.Read(Site)!.Text);
    }

    [Theory]
    [InlineData("8,6", "43", "8,6")]
    [InlineData("60", "43", "60")]
    [InlineData("", "43", "")]
    [InlineData("5", "loud", "loud")]
    public void Try_what_cannot_be_is_said_and_nothing_is_written(string fall, string over, string told)
    {
        LocateAnswer before = Weigh();
        FolderText text = _folder.Session.Read(Site)!;
        (LocatedReceiver? tried, string? problem) = FolderEvidence.Try(
            _folder, text, before, before.Receivers[0], before.Receivers[0].Next[0].Ask, new TypedReading(over, fall, ""));
        Assert.Null(tried);
        Assert.Contains(told, problem, StringComparison.Ordinal);
        Assert.Contains("; ", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_every_kind_of_reading_is_read_back_as_what_was_asked()
    {
        LocatedReceiver located = Weigh().Receivers[0];
        string text = _folder.Session.Read(Site)!.Text;
        Observation[] asks =
        [
            new PadInLine { OverNoiseDb = 43, PadDb = 3, FirstStageBehind = 1 },
            new EmitterDown { OverNoiseDb = 43, Emitter = 0, ByDb = 3 },
            new EmitterDown { OverNoiseDb = 43, Emitter = 1, ByDb = double.PositiveInfinity }, new OffsetReading(),
        ];
        foreach (Observation ask in asks)
        {
            Assert.True(EvidenceEdits.TryAdd(text, located, ask, new TypedReading("43", "\u22122", "2"), out string? edited, out _));
            text = edited;
        }

        Assert.False(EvidenceEdits.TryAdd(text, located, new MomentToWaitFor([0], 1), new TypedReading("", "", ""), out _, out _));
        FolderSite read = _folder.SiteOf(new FolderText(Site, text, ""));
        Assert.Empty(read.Errors);
        Assert.Equal(asks.Length, read.Site!.Document.Evidence.Count - _folder.Site(Site)!.Site!.Document.Evidence.Count);
        EvidenceEntry[] added = [.. read.Site!.Document.Evidence.TakeLast(asks.Length)];
        Assert.Equal(InsertedAt.Receiver, Assert.IsType<AttenuatorTest>(added[0]).At);
        Assert.Equal(-2, Assert.IsType<AttenuatorTest>(added[0]).Fall.Value);
        Assert.Equal(3, Assert.IsType<EmitterReduced>(added[1]).By!.Value.Value);
        Assert.Null(Assert.IsType<EmitterReduced>(added[2]).By);
        Assert.Equal(-2, Assert.IsType<OffsetMeasured>(added[3]).Measured.Hertz);
    }

    [Fact]
    public void AddLog_into_a_site_without_evidence_begins_the_list()
    {
        string text = _folder.Session.Read("quernmoss.site.yaml")!.Text;
        Assert.True(EvidenceEdits.TryAddLog(text, "logs/tuesday.log.csv", out string? edited, out _));
        FolderSite read = _folder.SiteOf(new FolderText("quernmoss.site.yaml", edited, ""));
        Assert.Empty(read.Errors);
        Assert.Single(read.Site!.Logs);
    }

    [Fact]
    public void Write_moments_one_after_the_other_stand_in_one_log_with_their_time()
    {
        string[] names = ["repeater input", "north, \"the\" one", "south"];
        Assert.Null(Write(names, 0, out string log, ("repeater input", true), ("south", false)));
        Assert.Null(Write(names, 61, out string again, ("repeater input", false), (names[1], true)));
        Assert.Equal("live-2031-03-05.log.csv", log);
        Assert.Equal(log, again);
        Assert.Equal(
            "time,repeater input,\"north, \"\"the\"\" one\",south\n2031-03-05T19:00:00+01:00,1,,0\n2031-03-05T19:01:01+01:00,0,1,\n",
            _folder.Session.Read(log)!.Text);

        // The same second twice is refused; nothing is lost.
        Assert.Contains("wait a second", Write(names, 61, out _, ("repeater input", true)), StringComparison.Ordinal);

        // Somebody whose column the log has not: another log, never a state dropped in silence.
        Assert.Null(Write([.. names, "west"], 120, out string other, ("repeater input", true), ("west", true)));
        Assert.Equal("live-2031-03-05-2.log.csv", other);
        _folder.Session.Undo();
        Assert.Null(_folder.Session.Read(other));
    }

    private LocateAnswer Weigh()
    {
        LoadedSite site = _folder.Site(Site)!.Site!;
        StudyResult study = StudyService.Ask(new StudyQuestion { Site = site }).Answer!;
        return LocateService.Weigh(FolderEvidence.Question(_folder, Site, site, study.Options), study);
    }

    private string? Write(string[] names, int second, out string log, params (string Name, bool On)[] states) => LiveLog.Write(
        _folder, Site, names, Evening.AddSeconds(second), states.ToDictionary(static s => s.Name, static s => s.On), out log);
}
