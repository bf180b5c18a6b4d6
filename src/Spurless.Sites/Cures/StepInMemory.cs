using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Plans;

namespace Spurless.Sites.Cures;

/// <summary>
/// Steps that a site as it was read can be given without its text: something more in the chain, another channel. It spares most sets the
/// writing and reading, which take longer than the study; what is listed in the end is written, read and studied all the same.
/// </summary>
internal static class StepInMemory
{
    /// <summary>Whether a step is one of these.</summary>
    public static bool Can(CureStep step) => step is PadStep or UsualFilterStep or FileFilterStep or ChannelStep or ToneSquelchStep;

    /// <summary>Whether the order of two such steps and others in a set makes a difference: where the preamplifier stands does.</summary>
    public static bool Commutes(IReadOnlyList<CureStep> steps) =>
        !steps.Any(static s => s is AmplifierStep) || !steps.Any(static s => s is PadStep or UsualFilterStep or FileFilterStep);

    /// <summary>The site with a step.</summary>
    /// <param name="site">The site.</param>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="step">The step, one of those that <see cref="Can"/> says.</param>
    public static SiteDocument With(SiteDocument site, int receiver, CureStep step) => step switch
    {
        PadStep pad => With(site, receiver, pad.Place, new AttenuatorStage(Decibels.FromDecibels(pad.Db))),
        UsualFilterStep usual => With(site, receiver, usual.Place, new CircuitStage(File(site, usual.Filter.Path))),
        FileFilterStep { IsCircuit: true } file => With(site, receiver, file.Place, new CircuitStage(File(site, file.Path))),
        FileFilterStep file => With(site, receiver, file.Place, new TwoPortStage(File(site, file.Path))),
        ChannelStep channel => MovedSite.Of(site, receiver, channel.FrequencyHz, shiftHz: null),
        ToneSquelchStep => site,
        _ => throw new ArgumentException($"{step.GetType().Name} is written into the text.", nameof(step)),
    };

    private static SiteDocument With(SiteDocument site, int receiver, ChainPlace place, ChainStageEntry stage)
    {
        ReceiverEntry entry = site.Receivers[receiver];
        int at = SiteSplice.PlaceOf(entry, place);
        return site with
        {
            Receivers =
            [
                .. site.Receivers.Select((r, i) => i != receiver ? r : r with
                {
                    Chain = [.. r.Chain.Take(at), stage, .. r.Chain.Skip(at)],
                }),
            ],
        };
    }

    private static FileReference File(SiteDocument site, string path) => new(path, site.File, default);
}
