using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Plans;

/// <summary>A site with one receiver on another channel and our own transmitters, which follow it, moved along.</summary>
public static class MovedSite
{
    /// <summary>The site with a receiver elsewhere; everything else, the levels that were measured too, stays as it is.</summary>
    /// <param name="site">The site.</param>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="frequencyHz">Where it is to stand, in hertz, above 0.</param>
    /// <param name="shiftHz">Transmit less receive frequency in hertz; null where each transmitter keeps its distance.</param>
    public static LoadedSite Of(LoadedSite site, int receiver, long frequencyHz, long? shiftHz)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site with { Document = Of(site.Document, receiver, frequencyHz, shiftHz) };
    }

    /// <summary>The same of what was read of the site's file.</summary>
    internal static SiteDocument Of(SiteDocument document, int receiver, long frequencyHz, long? shiftHz)
    {
        ReceiverEntry entry = document.Receivers[receiver];
        return document with
        {
            Receivers = [.. document.Receivers.Select((r, i) => i == receiver ? At(r, frequencyHz) : r)],
            Emitters =
            [
                .. document.Emitters.Select(e => e.Follows == entry.Name ? At(e, frequencyHz + ShiftHz(e, entry, shiftHz)) : e),
            ],
        };
    }

    /// <summary>Indices of the emitters that follow a receiver.</summary>
    internal static int[] Own(SiteDocument document, int receiver) =>
    [
        .. document.Emitters.Index().Where(e => e.Item.Follows == document.Receivers[receiver].Name).Select(static e => e.Index),
    ];

    /// <summary>Transmit less receive frequency in hertz: as asked for, or as it is.</summary>
    internal static long ShiftHz(EmitterEntry own, ReceiverEntry receiver, long? shiftHz) =>
        shiftHz ?? own.Frequency.Hertz - receiver.Frequency.Hertz;

    internal static ReceiverEntry At(ReceiverEntry receiver, long frequencyHz) =>
        receiver with { Frequency = Frequency.FromHertz(frequencyHz) };

    internal static EmitterEntry At(EmitterEntry emitter, long frequencyHz) =>
        emitter with { Frequency = Frequency.FromHertz(frequencyHz) };
}
