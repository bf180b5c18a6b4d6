using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Newcomers;

/// <summary>A site, a newcomer who asks to join it, and both as one site: what a newcomer is judged from.</summary>
/// <param name="Site">The site as it stands.</param>
/// <param name="Newcomer">What the newcomer brings, by itself; it may lack receivers or emitters.</param>
/// <param name="Joint">Both: the site's receivers and emitters first, then the newcomer's; place, ground and search are the site's.</param>
public sealed record NewcomerSites(LoadedSite Site, LoadedSite Newcomer, LoadedSite Joint)
{
    /// <summary>How many receivers of <see cref="Joint"/> are the site's; those behind them are the newcomer's.</summary>
    public int SiteReceivers => Site.Document.Receivers.Count;

    /// <summary>How many emitters of <see cref="Joint"/> are the site's; those behind them are the newcomer's.</summary>
    public int SiteEmitters => Site.Document.Emitters.Count;

    /// <summary>A part of the joint site: some receivers and some emitters of it, at the site's place.</summary>
    /// <param name="receivers">The receivers, the site's or the newcomer's.</param>
    /// <param name="emitters">The emitters.</param>
    internal LoadedSite Part(IReadOnlyList<ReceiverEntry> receivers, IReadOnlyList<EmitterEntry> emitters)
    {
        HashSet<string> names = [.. emitters.Select(static e => e.Name)];
        return Joint with
        {
            Document = Joint.Document with
            {
                Receivers = receivers,
                Emitters = emitters,
                Exclusive = [.. Joint.Document.Exclusive.Select(g => g.Where(names.Contains).ToArray()).Where(static g => g.Length > 1)],
            },
        };
    }
}
