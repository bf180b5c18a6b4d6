using Spurless.Sites.Studies;

namespace Spurless.Sites.Measuring;

/// <summary>Which emitter's level should be measured first?</summary>
public sealed record MeasureFirstQuestion
{
    /// <summary>How many emitters are named.</summary>
    public const int UsualSteps = 5;

    /// <summary>The orders that matter first where no level is known: every further order asks for more of its carriers.</summary>
    public const int LowOrder = 3;

    /// <summary>What can land on the receiver.</summary>
    public required ReceiverFindings Receiver { get; init; }

    /// <summary>How many emitters are named at most.</summary>
    public int Steps { get; init; } = UsualSteps;
}
