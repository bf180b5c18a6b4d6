using Spurless.Mixing.Evidence;
using Spurless.Sites.Chains;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Locating;

/// <summary>Which mixture is it that a site's receivers hear, and where is it made?</summary>
public sealed record LocateQuestion
{
    /// <summary>The site with its circuits, sweeps and logs; what was observed stands in it.</summary>
    public required LoadedSite Site { get; init; }

    /// <summary>Limits and thresholds of the study that says what it could be.</summary>
    public StudyOptions Options { get; init; } = new();

    /// <summary>How the possibilities are weighed before any evidence.</summary>
    public PriorKind Prior { get; init; }

    /// <summary>Filters at hand that could be put in line, by the path that names them.</summary>
    public IReadOnlyDictionary<string, Network> Filters { get; init; } = new Dictionary<string, Network>();
}
