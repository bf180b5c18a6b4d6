using Spurless.Sites.Plans;
using Spurless.Tests.Common.Fixtures;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Newcomers;
using Spurless.Workbench.Plans;

namespace Spurless.Workbench.Tests.Plans;

/// <summary>What is typed about channels of the invented demo's site, and a channel that is kept.</summary>
public sealed class FolderPlansTests : IDisposable
{
    private const string Site = "quernmoss.site.yaml";
    private static readonly TypedPlan Nothing = new(null, null, null, null, null, null);

    private readonly string _path = Directory.CreateTempSubdirectory("spurless-plans-").FullName;
    private readonly OpenFolder _folder;

    public FolderPlansTests()
    {
        string demo = Path.GetDirectoryName(DemoSites.PathOf(Site))!;
        foreach (string file in Directory.EnumerateFiles(demo, "*.*", SearchOption.AllDirectories)
            .Where(static f => !f.EndsWith(".wav", StringComparison.Ordinal)))
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

    // The receiver's 12.5 kHz, forty channels on each side of 145.05 MHz.
    [Fact]
    public void Question_of_nothing_typed_is_of_the_channels_round_the_present_one()
    {
        AskedPlan asked = FolderPlans.Question(_folder, Site, Nothing)!;

        Assert.Equal("144.55 MHz-145.55 MHz", asked.Band);
        Assert.Equal(
            (144_550_000, 145_550_000, 12_500, null, null),
            (asked.Question!.FromHz, asked.Question.ToHz, asked.Question.RasterHz, asked.Question.ShiftHz, asked.Question.Count));
    }

    [Fact]
    public void Question_says_all_that_is_wrong_with_what_was_typed_field_by_field()
    {
        AskedPlan asked = FolderPlans.Question(_folder, Site, new TypedPlan(null, "145", "twelve", "600", "many", null))!;

        Assert.Null(asked.Question);
        Assert.Equal(["band", "count", "raster", "shift"], asked.Faults.Keys.Order());
        Assert.All(asked.Faults.Values, static f => Assert.Contains("; ", f, StringComparison.Ordinal));
    }

    [Fact]
    public void Question_that_makes_no_sense_is_refused_at_its_field()
    {
        AskedPlan asked = FolderPlans.Question(_folder, Site, Nothing with { Raster = "0 kHz" })!;

        Assert.Equal("raster", FolderPlans.FieldOf(PlanService.Ask(asked.Question!).Refusal));
    }

    [Fact]
    public void Keep_moves_receiver_and_transmitter_and_undo_takes_it_back()
    {
        string before = _folder.Session.Read(Site)!.Text;
        AskedPlan asked = FolderPlans.Question(_folder, Site, Nothing with { Band = "145.0 MHz-145.2 MHz", Shift = "-1.6 MHz" })!;

        Assert.Null(FolderPlans.Keep(_folder, Site, asked, 145_100_000));
        var moved = _folder.Site(Site)!.Site!.Document;
        Assert.Equal(145_100_000, moved.Receivers[0].Frequency.Hertz);
        Assert.Equal(143_500_000, moved.Emitters.First(e => e.Follows == moved.Receivers[0].Name).Frequency.Hertz);
        Assert.Contains("moved to 145.1 MHz", _folder.Session.NextUndo!.What, StringComparison.Ordinal);

        // What the list was made of is no more: nothing is written over.
        Assert.NotNull(FolderPlans.Keep(_folder, Site, asked, 145_125_000));
        _folder.Session.Undo();
        Assert.Equal(before, _folder.Session.Read(Site)!.Text);
    }

    [Fact]
    public void Read_of_a_newcomer_joins_both_files_and_says_what_is_wrong_with_either()
    {
        AskedNewcomer asked = FolderNewcomers.Read(_folder, Site, "newcomer-dale-link.site.yaml")!;
        Assert.Equal((1, 2), (asked.Sites!.SiteReceivers, asked.Sites.Joint.Document.Emitters.Count - asked.Sites.SiteEmitters));

        AskedNewcomer itself = FolderNewcomers.Read(_folder, Site, Site)!;
        Assert.Null(itself.Sites);
        Assert.NotEmpty(itself.Findings);
        Assert.Null(FolderNewcomers.Read(_folder, Site, "nobody.site.yaml"));
    }
}
