using Spurless.Sites.Sources;

namespace Spurless.Sites.Responses;

/// <summary>What does a network do over frequency?</summary>
public sealed record ResponseQuestion
{
    /// <summary>The circuit or sweep.</summary>
    public required NetworkFile Network { get; init; }

    /// <summary>Where to look; null for the frequencies that show the network best.</summary>
    public FrequencyChoice? Frequencies { get; init; }

    /// <summary>
    /// The channel whose pass-band is meant, in hertz; null for that of the site's first receiver, or the pass-band with the least loss.
    /// </summary>
    public double? NearHz { get; init; }

    /// <summary>A site: what the network takes from each of its carriers is told too; null for none.</summary>
    public LoadedSite? Site { get; init; }

    /// <summary>Whether the site's first receiver is studied, so that its channel and carriers can be drawn.</summary>
    public bool StudiesReceiver { get; init; }
}
