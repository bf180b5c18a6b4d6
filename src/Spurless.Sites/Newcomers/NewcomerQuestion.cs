using Spurless.Sites.Studies;

namespace Spurless.Sites.Newcomers;

/// <summary>Whom would a newcomer's transmitters hurt at a site, and what would its own hurt on his receivers?</summary>
public sealed record NewcomerQuestion
{
    /// <summary>The site, the newcomer, and both together.</summary>
    public required NewcomerSites Sites { get; init; }

    /// <summary>Limits and thresholds of all studies.</summary>
    public StudyOptions Options { get; init; } = new();
}
