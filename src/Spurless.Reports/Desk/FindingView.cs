using Spurless.Mixing.Causes;
using Spurless.Reports.Drawing;
using Spurless.Reports.Words;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Desk;

/// <summary>By what the list of findings is parted.</summary>
public enum FindingGrouping
{
    /// <summary>By what becomes of them.</summary>
    Outcome,

    /// <summary>By whose work the cure is.</summary>
    Cure,
}

/// <summary>One part of the list of findings.</summary>
/// <param name="Heading">What its members have in common.</param>
/// <param name="Folded">Whether it is folded until it is asked for.</param>
/// <param name="Findings">The mixtures, by number.</param>
/// <param name="Causes">Causes that are not mixtures.</param>
public sealed record FindingGroup(string Heading, bool Folded, IReadOnlyList<NumberedFinding> Findings, IReadOnlyList<OtherCause> Causes);

/// <summary>Parts and orders the list of findings beside the study picture.</summary>
public static class FindingView
{
    /// <summary>Mixtures of one group that are listed; the rest is in the files.</summary>
    public const int MostRows = 60;

    /// <summary>The groups in order; one without a member is left out.</summary>
    /// <param name="model">The picture's model.</param>
    /// <param name="grouping">By what they are parted.</param>
    /// <param name="placed">
    /// Group headings by mixture number as they were last placed, so that the list keeps its order while a slider moves; null to place anew.
    /// </param>
    public static IReadOnlyList<FindingGroup> Groups(StudyPictureModel model, FindingGrouping grouping, IReadOnlyDictionary<int, string>? placed = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        List<NumberedFinding> shown = [.. model.Findings.Where(f => model.PickedCarrier is not { } c || f.Either.Terms.Any(t => t.Emitter == c))];
        IReadOnlyList<(string Heading, bool Folded)> headings = grouping == FindingGrouping.Outcome ? Outcomes(model) : Cures(model);
        ILookup<string, NumberedFinding> by = shown.ToLookup(f => placed is not null && placed.TryGetValue(f.Number, out string? was)
            ? was
            : grouping == FindingGrouping.Outcome ? HeadingOf(f, model) : CureOf(f, model.Receiver.Name));
        List<FindingGroup> groups = [];
        foreach ((string heading, bool folded) in headings)
        {
            IReadOnlyList<OtherCause> causes = grouping == FindingGrouping.Cure && model.PickedCarrier is null
                ? [.. model.Receiver.OtherCauses.Where(c => CureOf(c) == heading)]
                : [];
            List<NumberedFinding> members = [.. by[heading]];
            if (members.Count > 0 || causes.Count > 0)
            {
                groups.Add(new FindingGroup(heading, folded, members, causes));
            }
        }

        if (grouping == FindingGrouping.Outcome && model.PickedCarrier is null && model.Receiver.OtherCauses.Count > 0)
        {
            groups.Add(new FindingGroup("Causes that are not mixtures", false, [], model.Receiver.OtherCauses));
        }

        return groups;
    }

    /// <summary>Which group each mixture is in, to hold the list still with.</summary>
    public static IReadOnlyDictionary<int, string> Places(IReadOnlyList<FindingGroup> groups) =>
        groups.SelectMany(static g => g.Findings.Select(f => (f.Number, g.Heading))).ToDictionary(static p => p.Number, static p => p.Heading);

    private static IReadOnlyList<(string, bool)> Outcomes(StudyPictureModel model) => model.HasFilter
        ? [("Still on the channel", false), ("Cured by the chain as it stands", false), ("Level not known", true), ("Only marginal before, clear now", true), ("Clear either way", true)]
        : [("Harmful", false), ("Marginal", false), ("Level not known", true), ("Clear", true)];

    private static string HeadingOf(NumberedFinding f, StudyPictureModel model) => model.HasFilter
        ? f.Outcome switch
        {
            Outcome.StillThere => "Still on the channel",
            Outcome.Cured => "Cured by the chain as it stands",
            Outcome.OnlyMarginalBefore => "Only marginal before, clear now",
            Outcome.Unknown => "Level not known",
            _ => "Clear either way",
        }
        : f.Now switch
        {
            Verdict.Harmful => "Harmful",
            Verdict.Marginal => "Marginal",
            Verdict.Unknown => "Level not known",
            _ => "Clear",
        };

    private static IReadOnlyList<(string, bool)> Cures(StudyPictureModel model) =>
    [
        (AtReceiver, false),
        .. model.Findings.Where(static f => f.Either.Mechanism == Mechanism.Transmitter).Select(static f => f.Either.MadeIn)
            .Concat(model.Receiver.OtherCauses.Where(static c => c.Cure == CurePlace.Transmitter).Select(static c => c.Emitter ?? ""))
            .Distinct(StringComparer.Ordinal)
            .Select(static name => (AtTransmitter(name), false)),
        (ByOwner, false),
        (ByChannel, false),
        (Nothing, true),
    ];

    private const string AtReceiver = "Cured at your receiver";
    private const string ByOwner = "Cured by the owner of the structure";
    private const string ByChannel = "Cured by another channel";
    private const string Nothing = "Clear: nothing to cure";

    private static string AtTransmitter(string name) => $"Cured at the transmitter of the {name}";

    private static string CureOf(NumberedFinding f, string receiver) => (f.Now, f.Before?.Verdict) switch
    {
        (Verdict.Clear, null or Verdict.Clear or Verdict.Unknown) => Nothing,
        _ => f.Either.Mechanism == Mechanism.Transmitter ? AtTransmitter(f.Either.MadeIn) : AtReceiver,
    };

    private static string CureOf(OtherCause cause) => cause.Cure switch
    {
        CurePlace.Transmitter => AtTransmitter(cause.Emitter ?? ""),
        CurePlace.StructureOwner => ByOwner,
        CurePlace.Channel => ByChannel,
        _ => AtReceiver,
    };
}
