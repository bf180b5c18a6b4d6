using Spurless.Sites.Locating;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>What would make a site's receivers quiet.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Study">The site as it is.</param>
/// <param name="Evidence">What was observed, weighed; null where the site file has no evidence.</param>
/// <param name="Receivers">One entry per receiver asked about, in the order of the site file.</param>
public sealed record CureAnswer(
    CureQuestion Question, StudyResult Study, LocateAnswer? Evidence, IReadOnlyList<CuredReceiver> Receivers);

/// <summary>The ways out for one receiver.</summary>
public sealed record CuredReceiver
{
    /// <summary>The receiver as it is.</summary>
    public required ReceiverFindings Before { get; init; }

    /// <summary>Its index in the site file.</summary>
    public required int Index { get; init; }

    /// <summary>What a filter in front of it must do so that nothing made in it is harmful any more.</summary>
    public required AttenuationNeeds Needs { get; init; }

    /// <summary>The ways out, best first; dominated ones left out.</summary>
    public required IReadOnlyList<Cure> Cures { get; init; }

    /// <summary>How many were tried.</summary>
    public required int Tried { get; init; }

    /// <summary>Ways that another of the list beats or equals in everything.</summary>
    public required int Dominated { get; init; }

    /// <summary>Ways that leave as much that is harmful as there was, or more.</summary>
    public required int Useless { get; init; }

    /// <summary>Whether pairs and triples were tried, as no way alone leaves nothing harmful.</summary>
    public required bool Combined { get; init; }

    /// <summary>
    /// Harmful products that no step at the receiver alone takes away, as they arrive on the channel; first of the study first.
    /// </summary>
    public required IReadOnlyList<ProductFinding> MadeElsewhere { get; init; }

    /// <summary>Whether some way at the receiver alone, without anybody else, leaves nothing harmful.</summary>
    public bool ReceiverAlone => Cures.Any(static c => c.EndsIt && c.Steps.All(static s => s is not (TransmitterStep or ChannelStep)));
}

/// <summary>One way out: what is done, and what a study of the site so changed finds.</summary>
public sealed record Cure
{
    /// <summary>What is done, one to three steps.</summary>
    public required IReadOnlyList<CureStep> Steps { get; init; }

    /// <summary>Harmful mixtures that it leaves, as a study of the changed site counts them.</summary>
    public required int Harmful { get; init; }

    /// <summary>Marginal mixtures that it leaves.</summary>
    public required int Marginal { get; init; }

    /// <summary>Mixtures whose level is not known, which it leaves.</summary>
    public required int Unknown { get; init; }

    /// <summary>Other harmful causes that it leaves: a transmitter's noise, blocking ...</summary>
    public required int OtherHarmful { get; init; }

    /// <summary>The strongest mixture left, over the noise, in dB; null where none is listed.</summary>
    public required double? WorstOverNoiseDb { get; init; }

    /// <summary>All mixtures left together over the noise, in dB; null where none is listed.</summary>
    public required double? SumOverNoiseDb { get; init; }

    /// <summary>
    /// What the weakest wanted signal loses, in dB: by how much the level at the antenna connector rises that gives 12 dB SINAD where no
    /// mixture is on the air. Below 0 it gains.
    /// </summary>
    public required double WantedLossDb { get; init; }

    /// <summary>The harmful mixtures that it leaves, worst first.</summary>
    public required IReadOnlyList<ProductFinding> Left { get; init; }

    /// <summary>
    /// Chance that none of the listed mixtures is harmful afterwards: each level's chance to stay under, multiplied. The levels err
    /// together, which makes the true chance no lower (positively correlated normal variables: Slepian's inequality); what lies under the
    /// floor of the search is not counted. Null where a level is not known.
    /// </summary>
    public required double? QuietChance { get; init; }

    /// <summary>
    /// Probability, by what was observed, that what is heard is a mixture that this takes away; null where nothing was observed.
    /// </summary>
    public required double? CuresHeard { get; init; }

    /// <summary>The site file's text with this in it.</summary>
    public required string Text { get; init; }

    /// <summary>Files that go with it and are not there yet: text by path relative to the site file.</summary>
    public required IReadOnlyDictionary<string, string> Files { get; init; }

    /// <summary>Whether it leaves no harmful mixture.</summary>
    public bool EndsIt => Harmful == 0;

    /// <summary>Who has to act, the hardest to win over.</summary>
    public CureActor Actor => Steps.Max(static s => s.Actor);

    /// <summary>How much work the greatest step is.</summary>
    public CureEffort Effort => Steps.Max(static s => s.Effort);

    /// <summary>How much work the greatest of the receiver's keeper's own steps is.</summary>
    public CureEffort OwnEffort =>
        Steps.Where(static s => s.Actor == CureActor.You).Select(static s => s.Effort).DefaultIfEmpty(CureEffort.Minutes).Max();

    /// <summary>
    /// What a range becomes, as a share of the range before, by 40 lg d: the law of plane earth beyond the break point.
    /// </summary>
    public double RangeShare => Math.Pow(10, -WantedLossDb / 40);

    /// <summary>Whether what stands in the receiver's line must not be transmitted through as it is.</summary>
    public bool NotForTransmitting => Steps.Any(static s => s is PadStep or UsualFilterStep or FileFilterStep);
}
