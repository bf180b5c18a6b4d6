using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Bypasses;

/// <summary>Adds up what arrives at the antenna connector: the relay may not be held, or pulled, by others' transmissions.</summary>
internal static class SiteOffAir
{
    public static OffAirSum? Of(LoadedBypass bypass, CancellationToken cancel)
    {
        if (bypass.Site is not { } site || site.Document.Receivers.Count == 0)
        {
            return null;
        }

        // The receiver whose chain names this relay, or its filter; else the site's first one.
        ReceiverEntry receiver = site.Document.Receivers.FirstOrDefault(r => r.Chain.Any(s => Names(s, bypass.Document)))
            ?? site.Document.Receivers[0];
        StudyOptions options = new() { Orders = (2, 2), Signals = 1 };
        LoadedSite alone = site with { Document = site.Document with { Receivers = [receiver] } };
        if (StudyService.Ask(new StudyQuestion { Site = alone, Options = options }, null, cancel).Answer is not { } study)
        {
            return null;
        }

        double amplitude = 0;
        int counted = 0;
        List<string> unknown = [];
        foreach (CarrierFinding carrier in study.Receivers[0].Carriers)
        {
            if (carrier.LevelAtAntennaDbm is { } dbm)
            {
                amplitude += Math.Pow(10, dbm / 20);
                counted++;
            }
            else
            {
                unknown.Add(carrier.Emitter);
            }
        }

        return new OffAirSum(receiver.Name, counted > 0 ? 20 * Math.Log10(amplitude) : null, counted, unknown);
    }

    private static bool Names(ChainStageEntry stage, BypassDocument bypass) => stage switch
    {
        BypassStage b => Path.GetFileName(b.Bypass.Path) == Path.GetFileName(bypass.File),
        CircuitStage c => bypass.Filter is { } filter && Path.GetFileName(filter.Path) == Path.GetFileName(c.Circuit.Path),
        _ => false,
    };
}
