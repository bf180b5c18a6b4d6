using Bunit;
using Spurless.Pages.Site;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Pages.Tests.Site;

/// <summary>The ground beside an emitter, as markup, on the demo's invented hill.</summary>
public sealed class GroundPanelTests : BunitContext
{
    private static LoadedSite Hill()
    {
        string? root = AppContext.BaseDirectory;
        while (root is not null && !File.Exists(Path.Combine(root, "Spurless.slnx")))
        {
            root = Path.GetDirectoryName(root);
        }

        string path = Path.Combine(root!, "demo", "hill.site.yaml");
        SourceFile source = SourceFile.OfText("hill.site.yaml", File.ReadAllText(path), new SiteFolder(path));
        return SiteLoader.Load(source, out _)!;
    }

    private IRenderedComponent<GroundPanel> Panel(string emitter, Action<string>? chosen = null) => Render<GroundPanel>(p => p
        .Add(static c => c.Site, Hill())
        .Add(static c => c.Receiver, "hill input")
        .Add(static c => c.Emitter, emitter)
        .Add(static c => c.OnChosen, chosen ?? (static _ => { })));

    [Fact]
    public void Panel_shows_the_ground_on_the_way_in_a_wide_and_a_narrow_picture_and_says_what_hinders()
    {
        IRenderedComponent<GroundPanel> panel = Panel("valley relay");

        Assert.Equal(2, panel.FindAll("svg").Count);
        Assert.Contains("narrow", panel.FindAll("svg")[1].ClassName, StringComparison.Ordinal);
        string told = panel.Find("figcaption").TextContent;
        Assert.Contains("160.525 MHz", told, StringComparison.Ordinal);
        Assert.Contains("give or take", told, StringComparison.Ordinal);
        Assert.Equal("valley relay", panel.Find("option[selected]").TextContent);
    }

    [Fact]
    public void Panel_of_a_path_beyond_the_tiles_names_the_missing_one_and_draws_nothing()
    {
        IRenderedComponent<GroundPanel> panel = Panel("far island");

        Assert.Empty(panel.FindAll("svg"));
        Assert.Contains("N41W036", panel.Find("p.note").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Panel_tells_which_emitter_was_chosen()
    {
        string? chosen = null;

        Panel("valley relay", name => chosen = name).Find("select").Change("plain base");

        Assert.Equal("plain base", chosen);
    }
}
