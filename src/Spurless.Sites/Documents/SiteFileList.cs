namespace Spurless.Sites.Documents;

/// <summary>All files that a site document names.</summary>
internal static class SiteFileList
{
    public static IReadOnlyList<FileReference> Of(SiteDocument site)
    {
        List<FileReference?> all = [];
        foreach (ReceiverEntry receiver in site.Receivers)
        {
            all.Add(receiver.Selectivity?.TwoPort);
            all.Add(receiver.Antenna?.Response?.TwoPort);
            all.AddRange(receiver.Chain.Select(static s => s switch
            {
                CircuitStage c => c.Circuit,
                TwoPortStage t => t.TwoPort,
                BypassStage b => b.Bypass,
                _ => null,
            }));
        }

        all.AddRange(site.Emitters.Select(static e => e.OutputFilter));
        all.AddRange(site.Emitters.Select(static e => e.Antenna?.Response?.TwoPort));
        all.Add(site.EmittersFrom);
        all.AddRange(site.Evidence.Select(static e => e switch
        {
            FilterTest f => f.Inserted,
            LogEvidence l => l.Log,
            _ => null,
        }));
        return [.. all.OfType<FileReference>()];
    }
}
