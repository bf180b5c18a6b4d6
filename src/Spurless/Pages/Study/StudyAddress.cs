using Spurless.Workbench.Desk;

namespace Spurless.Pages.Study;

/// <summary>What of the study page's view stands in its address.</summary>
/// <param name="Receiver">Index of the receiver.</param>
/// <param name="Finding">Number of the picked mixture; null for the worst.</param>
/// <param name="Open">Whether the picked mixture shows its sum.</param>
/// <param name="Carrier">Index of the picked carrier, or null.</param>
/// <param name="Grouping">By what the list is parted.</param>
/// <param name="Settings">What was changed and not kept.</param>
internal sealed record StudyAddress(int Receiver, int? Finding, bool Open, int? Carrier, FindingGrouping Grouping, DeskSettings Settings)
{
    /// <summary>The query as pairs; null leaves a key out.</summary>
    public Dictionary<string, object?> Query() => new(StringComparer.Ordinal)
    {
        ["receiver"] = Receiver == 0 ? null : Receiver,
        ["finding"] = Finding,
        ["sum"] = Open ? "open" : null,
        ["carrier"] = Carrier,
        ["by"] = Grouping switch { FindingGrouping.Cure => "cure", FindingGrouping.Emitter => "emitter", _ => null },
        ["set"] = Settings.IsEmpty ? null : Settings.ToString(),
    };
}
