using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Newcomers;

/// <summary>What is not there without the newcomer, receiver by receiver.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Receivers">The site's receivers in their order, then the newcomer's.</param>
public sealed record NewcomerAnswer(NewcomerQuestion Question, IReadOnlyList<NewcomerReceiver> Receivers)
{
    /// <summary>Whether nothing new is harmful on any receiver.</summary>
    public bool Passes => Receivers.All(static r => r.Passes);
}

/// <summary>What is new on one receiver.</summary>
public sealed record NewcomerReceiver
{
    /// <summary>
    /// The receiver in the joint site: products, their sum and causes are only those that are not there without the newcomer.
    /// </summary>
    public required ReceiverFindings Findings { get; init; }

    /// <summary>Whether it is the newcomer's; else it is the site's.</summary>
    public required bool OfNewcomer { get; init; }

    /// <summary>New causes other than products, worst first; those of <see cref="Findings"/>.</summary>
    public required IReadOnlyList<NewCause> Causes { get; init; }

    /// <summary>What must be done for the receiver to pass, each no more than is needed; empty where it passes.</summary>
    public IReadOnlyList<NewcomerNeed> Needs { get; init; } = [];

    /// <summary>Whether nothing that is new is harmful. What is not known does not fail; <see cref="Open"/> says whether any is.</summary>
    public bool Passes => WorstVerdict != Verdict.Harmful;

    /// <summary>
    /// Whether something could be harmful that is not known: a new product or cause without a level, or products that cannot be computed.
    /// </summary>
    public bool Open => Findings.NotComputed.Count > 0 || (Findings.Products.Count > 0 && Findings.Products[^1].Verdict == Verdict.Unknown)
        || Causes.Any(static c => c.Cause.Verdict == Verdict.Unknown && c.Cause.Finding.Cause != CauseKind.Outside);

    /// <summary>The worst new thing of known level over the noise (of blocking, over its point), in dB; null where there is none.</summary>
    public double? WorstOverNoiseDb
    {
        get
        {
            double? product = Findings.Products.Count > 0 ? Findings.Products[0].OverNoiseDb : null;
            double? cause = Causes.Max(static c => c.Cause.Finding.OverNoiseDb);
            return product is { } p && cause is { } c ? Math.Max(p, c) : product ?? cause;
        }
    }

    // Products stand worst first, and the verdicts in falling order of harm.
    private Verdict WorstVerdict => Findings.Products.Take(1).Select(static p => p.Verdict)
        .Concat(Causes.Select(static c => c.Cause.Verdict)).DefaultIfEmpty(Verdict.Clear).Min();
}

/// <summary>A cause that is not there without the newcomer.</summary>
/// <param name="Cause">The cause.</param>
/// <param name="Sum">
/// Of a cause that carriers make together, whose carriers its level counts; null for any other cause.
/// </param>
public sealed record NewCause(OtherCause Cause, SumOf? Sum);

/// <summary>Whose carriers a sum counts.</summary>
public enum SumOf
{
    /// <summary>All of them: the newcomer makes the verdict worse.</summary>
    All,

    /// <summary>Only those of the other side: the verdict is no worse than without them, and this is their share in it.</summary>
    OtherSide,
}
