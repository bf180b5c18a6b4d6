using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Recordings;
using Spurless.Sites.Locating;
using Spurless.Sites.Recordings;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Locating;
using Spurless.Workbench.Recordings;

namespace Spurless.Workbench.Tests.Recordings;

/// <summary>
/// The invented recording of a band, taken as evidence of its invented site: what its generator made (DemoBandTests: 2 x 145.175 - 145.150)
/// is what <c>locate</c> then says. Undo takes it back.
/// </summary>
public sealed class RecordedEvidenceTests : IDisposable
{
    private const string Site = "valley-link.site.yaml";
    private const string Recording = "valley-minute";

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-recorded-").FullName;
    private readonly OpenFolder _folder;

    public RecordedEvidenceTests()
    {
        File.Copy(DemoSites.PathOf(Site), Path.Combine(_path, Site));
        _folder = new OpenFolder(_path, TimeProvider.System);
    }

    public void Dispose()
    {
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public void Take_ofTheDemosBand_leadsToWhatWasMade()
    {
        string before = _folder.Session.Read(Site)!.Text;
        ListenAnswer answer = Listen();
        Assert.Equal("2 club repeater, -1 packet node", Terms(answer.Fits[0].Product));
        string text = Log(answer);

        Assert.Null(RecordedEvidence.Take(_folder, Site, Recording, answer, text, out string log));
        Assert.Equal("valley-minute.log.csv", log);
        Assert.Equal(text, File.ReadAllText(Path.Combine(_path, log)));
        string after = _folder.Session.Read(Site)!.Text;
        Assert.EndsWith("  - log: valley-minute.log.csv\n", after, StringComparison.Ordinal);
        Assert.Contains("kinds: [afsk1200, ctcss], deviation: 6.5 kHz", after, StringComparison.Ordinal);

        LoadedSite site = _folder.Site(Site)!.Site!;
        StudyResult study = StudyService.Ask(new StudyQuestion { Site = site }).Answer!;
        LocatedReceiver located = LocateService.Weigh(FolderEvidence.Question(_folder, Site, site, study.Options), study).Receivers[0];
        int made = located.Products.ToList().FindIndex(static p => Terms(p) == "2 club repeater, -1 packet node");
        Assert.True(located.Weighed.OfProduct(made) > 0.95, $"{located.Weighed.OfProduct(made)}");

        Assert.Contains("counts once", RecordedEvidence.Take(_folder, Site, Recording, answer, text, out _), StringComparison.Ordinal);
        Assert.Equal(SaveOutcome.Saved, _folder.Session.Undo());
        Assert.Equal(SaveOutcome.Saved, _folder.Session.Undo());
        Assert.Equal(before, _folder.Session.Read(Site)!.Text);
        Assert.False(File.Exists(Path.Combine(_path, log)));
    }

    [Fact]
    public void Take_besideAnothersLog_takesAnotherName()
    {
        string theirs = "time,link receiver\n2031-03-04T19:00:00Z,0\n2031-03-04T19:00:05Z,\n";
        File.WriteAllText(Path.Combine(_path, "valley-minute.log.csv"), theirs);
        Assert.Null(RecordedEvidence.Take(
            _folder, Site, Recording, Listen(), "time,link receiver\n2031-03-04T19:00:00Z,1\n2031-03-04T19:00:05Z,\n", out string log));
        Assert.Equal("valley-minute-2.log.csv", log);
        Assert.Equal(theirs, File.ReadAllText(Path.Combine(_path, "valley-minute.log.csv")));
    }

    private ListenAnswer Listen()
    {
        DiagnosticBag findings = new();
        ListenAnswer? answer = ListenService.Run(
            new ListenQuestion
            {
                Path = Path.Combine(DemoSites.Root, "demo", "recordings", Recording + ".sigmf-meta"),
                Site = _folder.Site(Site)!.Site,
            },
            findings);
        Assert.Empty(findings.InOrder());
        return answer!;
    }

    private static string Log(ListenAnswer answer)
    {
        using StringWriter text = new(CultureInfo.InvariantCulture) { NewLine = "\n" };
        ListenWriter.WriteLog(answer, text);
        return text.ToString();
    }

    private static string Terms(ProductFinding product) => string.Join(
        ", ", product.Terms.OrderByDescending(static t => t.Coefficient).Select(static t => $"{t.Coefficient} {t.Name}"));
}
