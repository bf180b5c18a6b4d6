using Spurless.Sites.Sources;

namespace Spurless.Sites.Studies;

/// <summary>What lands on the receivers of a site, how strong is it, and what does it do?</summary>
public sealed record StudyQuestion
{
    /// <summary>The site with its circuits and sweeps.</summary>
    public required LoadedSite Site { get; init; }

    /// <summary>Limits and thresholds.</summary>
    public StudyOptions Options { get; init; } = new();
}
