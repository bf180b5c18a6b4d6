using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Sites.Chains;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Studies;

/// <summary>A transmitter of a site in which mixing can be computed.</summary>
/// <param name="Emitter">Its index among the emitters.</param>
/// <param name="Strongest">Index of the emitter that arrives strongest at its output stage.</param>
public sealed record MixingTransmitter(int Emitter, int Strongest);

/// <summary>Where mixing happens at a site: the last active stage of a receiver's chain, and the transmitters.</summary>
public static class MixingStages
{
    /// <summary>
    /// The input intercept points of a receiver itself, behind the amplifiers of its chain; what is not stated is assumed as a study does.
    /// </summary>
    /// <param name="site">The site.</param>
    /// <param name="receiver">Index of the receiver.</param>
    public static Intercepts OfReceiver(LoadedSite site, int receiver)
    {
        ArgumentNullException.ThrowIfNull(site);
        return ChainBuilder.Build(site.Document.Receivers[receiver], site.Of).Chain.ActiveStages[^1].Intercepts;
    }

    /// <summary>
    /// The transmitters whose products have a level: a power, a turn-round loss, and a signal that arrives with a known level.
    /// </summary>
    /// <param name="site">The site.</param>
    public static IReadOnlyList<MixingTransmitter> Transmitters(LoadedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return [
            .. new TransmitterResolver(site.Document, site.Of, site.Terrain).Computable.Select(
                static s => new MixingTransmitter(s.Emitter, Strongest(s))),
        ];
    }

    private static int Strongest(TransmitterStage stage) =>
        Enumerable.Range(0, stage.Arrivals.Count)
            .Where(i => stage.Arrivals[i]?.LevelDbm is not null)
            .MaxBy(i => stage.Arrivals[i]!.LevelDbm!.Value);
}
