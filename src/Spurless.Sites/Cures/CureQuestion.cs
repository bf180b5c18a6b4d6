using Spurless.Sites.Chains;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>What would make a site's receivers quiet?</summary>
public sealed record CureQuestion
{
    /// <summary>The site with its circuits, sweeps and logs.</summary>
    public required LoadedSite Site { get; init; }

    /// <summary>The site file that it was read of: every way out is written into its text, and that is studied.</summary>
    public required SourceFile Source { get; init; }

    /// <summary>The receiver's name; null for all.</summary>
    public string? Receiver { get; init; }

    /// <summary>Filters at hand that could be put in line, by the path that names them.</summary>
    public IReadOnlyDictionary<string, Network> Filters { get; init; } = new Dictionary<string, Network>();

    /// <summary>Limits and thresholds of every study.</summary>
    public StudyOptions Options { get; init; } = new();
}

/// <summary>How far the work is.</summary>
/// <param name="Receiver">The receiver that is worked on.</param>
/// <param name="Tried">Ways out tried for it.</param>
/// <param name="Of">Ways out to try, as far as is known.</param>
/// <param name="Quiet">How many of them leave nothing harmful.</param>
/// <param name="SoFar">
/// Makes the list of what has been tried until it is asked, by any thread; for whoever looks on, since a list for every report would cost
/// more than the work.
/// </param>
public readonly record struct CureProgress(string Receiver, int Tried, int Of, int Quiet, Func<CuredReceiver> SoFar);
