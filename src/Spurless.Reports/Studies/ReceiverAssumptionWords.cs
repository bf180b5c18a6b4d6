using Spurless.Reports.Responses;
using Spurless.Sites.Chains;

namespace Spurless.Reports.Studies;

/// <summary>What was assumed of a receiver or its chain, in sentences without a full stop.</summary>
public static class ReceiverAssumptionWords
{
    /// <summary>An assumption.</summary>
    public static string Of(ReceiverAssumption assumption)
    {
        ArgumentNullException.ThrowIfNull(assumption);
        return assumption.Remark is { } remark ? $"{assumption.File}: {NetworkRemarkWords.Of(remark)}" : assumption.Told ?? "";
    }
}
