using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Comparisons;

/// <summary>What differs between two sites, or between one site before and after?</summary>
public sealed record ComparisonQuestion
{
    /// <summary>The site compared against.</summary>
    public required LoadedSite Before { get; init; }

    /// <summary>The site in question.</summary>
    public required LoadedSite Now { get; init; }

    /// <summary>Limits and thresholds of both studies.</summary>
    public StudyOptions Options { get; init; } = new();
}
