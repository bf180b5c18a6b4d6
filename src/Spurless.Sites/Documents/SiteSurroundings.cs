namespace Spurless.Sites.Documents;

/// <summary>What a file may name beside what stands in it: the receivers and emitters of the site that a newcomer asks to join.</summary>
/// <param name="Receivers">The site's receivers.</param>
/// <param name="Emitters">The site's emitters.</param>
/// <param name="NamesKnown">Whether all names are known; false where the site could not be read.</param>
internal sealed record SiteSurroundings(
    IReadOnlyList<ReceiverEntry> Receivers, IReadOnlyList<EmitterEntry> Emitters, bool NamesKnown)
{
    /// <summary>A file that stands by itself.</summary>
    public static SiteSurroundings None { get; } = new([], [], NamesKnown: true);

    /// <summary>A newcomer's file beside a site; null for a site that could not be read.</summary>
    public static SiteSurroundings Of(SiteDocument? site) => site is null
        ? new SiteSurroundings([], [], NamesKnown: false)
        : new SiteSurroundings(site.Receivers, site.Emitters, NamesKnown: true);
}
