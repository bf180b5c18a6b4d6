using Bunit;
using Spurless.Pages.Listen;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Pages.Tests.Listen;

/// <summary>On which receiver of a site a recording was made, as markup.</summary>
public sealed class ReceiverChoiceTests : BunitContext
{
    private const string One = """
        spurless: 1
        site: invented
        receivers:
          - { name: low, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -2 dBm }
        emitters:
          - { name: base, frequency: 160.525 MHz, emission: 11K2F3E, level: -30 dBm }
          - { name: relay, frequency: 150.125 MHz, emission: 11K2F3E, level: -30 dBm }

        """;

    private static readonly string _two = One.Replace(
        "emitters:", "  - { name: high, frequency: 146.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -2 dBm }\nemitters:",
        StringComparison.Ordinal);

    [Fact]
    public void Choice_of_two_shows_the_one_asked_for_and_tells_which_was_chosen()
    {
        string? chosen = null;
        IRenderedComponent<ReceiverChoice> choice = Choice(Site(_two), "high", name => chosen = name);

        Assert.Equal(["low", "high"], choice.FindAll("option").Select(static o => o.TextContent));
        Assert.Equal("high", choice.Find("option[selected]").TextContent);
        choice.Find("select").Change("low");
        Assert.Equal("low", chosen);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("of another site")]
    public void Choice_of_none_that_is_there_is_the_first(string? asked)
    {
        LoadedSite site = Site(_two);

        Assert.Equal("low", ReceiverChoice.Of(site, asked));
        Assert.Equal("low", Choice(site, asked, static _ => { }).Find("option[selected]").TextContent);
        Assert.Null(ReceiverChoice.Of(null, asked));
    }

    [Fact]
    public void Site_of_one_receiver_leaves_no_choice() =>
        Assert.Empty(Choice(Site(One), null, static _ => { }).FindAll("select"));

    private IRenderedComponent<ReceiverChoice> Choice(LoadedSite site, string? receiver, Action<string> chosen) =>
        Render<ReceiverChoice>(p => p.Add(static c => c.Site, site).Add(static c => c.Receiver, receiver)
            .Add(static c => c.OnChosen, chosen));

    private static LoadedSite Site(string text)
    {
        string path = Path.Combine(AppContext.BaseDirectory, "invented.site.yaml");
        return SiteLoader.Load(SourceFile.OfText("invented.site.yaml", text, new SiteFolder(path)), out _)!;
    }
}
