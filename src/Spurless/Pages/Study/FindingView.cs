using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Pages.Study;

/// <summary>By what the list of findings is parted.</summary>
public enum FindingGrouping
{
    /// <summary>By what becomes of them.</summary>
    Outcome,

    /// <summary>By whose work the cure is.</summary>
    Cure,

    /// <summary>
    /// By the emitter that takes part: a mixture stands under the one of its emitters that takes part in most of what is heard.
    /// </summary>
    Emitter,
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
    /// <summary>Mixtures of one group up to which all are drawn; of more, those in sight are.</summary>
    public const int MostRows = 60;

    /// <summary>Causes that are not mixtures that stand open in a group; the rest folds.</summary>
    public const int MostCauses = 3;

    /// <summary>The groups in order; one without a member is left out.</summary>
    /// <param name="model">The picture's model.</param>
    /// <param name="grouping">By what they are parted.</param>
    /// <param name="placed">
    /// Group headings by mixture number as they were last placed, so that the list keeps its order while a slider moves; null to place
    /// anew.
    /// </param>
    /// <param name="search">Only mixtures in which an emitter's name or frequency, or whose arithmetic, holds this; null or blank for
    /// all.</param>
    public static IReadOnlyList<FindingGroup> Groups(
        StudyPictureModel model, FindingGrouping grouping, IReadOnlyDictionary<int, string>? placed = null, string? search = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        bool searches = !string.IsNullOrWhiteSpace(search);
        List<NumberedFinding> shown =
        [
            .. model.Findings.Where(
                f =>
                    (model.PickedCarrier is not { } c || f.Either.Terms.Any(t => t.Emitter == c))
                        && (!searches || Holds(f, model, search!.Trim()))),
        ];
        Dictionary<int, int> shares = grouping == FindingGrouping.Emitter ? Shares(shown) : [];
        IReadOnlyList<(string Heading, bool Folded)> headings = grouping switch
        {
            FindingGrouping.Outcome when model.HasNoLevels => Orders(shown),
            FindingGrouping.Outcome => Outcomes(model),
            FindingGrouping.Cure => Cures(model),
            _ =>
                [
                    .. shares
                        .OrderByDescending(static s => s.Value)
                        .ThenBy(static s => s.Key)
                        .Select(s => (model.Receiver.Carriers[s.Key].Emitter, false)).DistinctBy(static h => h.Emitter),
                ],
        };
        ILookup<string, NumberedFinding> by = shown.ToLookup(f => placed is not null && placed.TryGetValue(f.Number, out string? was)
            ? was
            : grouping switch
            {
                FindingGrouping.Outcome => HeadingOf(f, model),
                FindingGrouping.Cure => CureOf(f),
                _ => model.Receiver.Carriers[f.Either.Terms.Select(static t => t.Emitter).OrderByDescending(e => shares[e])
                    .ThenBy(static e => e).First()].Emitter,
            });
        List<FindingGroup> groups = [];
        foreach ((string heading, bool folded) in headings)
        {
            IReadOnlyList<OtherCause> causes = grouping == FindingGrouping.Cure && model.PickedCarrier is null && !searches
                ? [.. model.Receiver.OtherCauses.Where(c => CureOf(c) == heading)]
                : [];
            List<NumberedFinding> members = [.. by[heading]];
            if (members.Count > 0 || causes.Count > 0)
            {
                groups.Add(new FindingGroup(heading, folded, members, causes));
            }
        }

        if (grouping == FindingGrouping.Outcome && model.PickedCarrier is null && !searches && model.Receiver.OtherCauses.Count > 0)
        {
            groups.Add(new FindingGroup("Causes that are not mixtures", false, [], model.Receiver.OtherCauses));
        }

        return groups;
    }

    private static bool Holds(NumberedFinding finding, StudyPictureModel model, string search) =>
        finding.Either.Terms.Any(t => model.Receiver.Carriers[t.Emitter].Emitter.Contains(search, StringComparison.OrdinalIgnoreCase)
            || Figures.MegahertzExact(model.Receiver.Carriers[t.Emitter].FrequencyHz).Contains(search, StringComparison.Ordinal))
        || finding.Number.ToString(System.Globalization.CultureInfo.InvariantCulture) == search;

    // In how much of what is heard each emitter takes part; what is not heard counts where nothing else tells them apart.
    private static Dictionary<int, int> Shares(IReadOnlyList<NumberedFinding> findings) => findings
        .SelectMany(static f => f.Either.Terms.Select(t => (t.Emitter, Weight: f.Now is Verdict.Harmful ? 1000 : 1)))
        .GroupBy(static s => s.Emitter).ToDictionary(static g => g.Key, static g => g.Sum(static s => s.Weight));

    /// <summary>Which group each mixture is in, to hold the list still with.</summary>
    public static IReadOnlyDictionary<int, string> Places(IReadOnlyList<FindingGroup> groups) =>
        groups
            .SelectMany(static g => g.Findings.Select(f => (f.Number, g.Heading)))
            .ToDictionary(static p => p.Number, static p => p.Heading);

    private static IReadOnlyList<(string, bool)> Outcomes(StudyPictureModel model) => model.HasFilter
        ? [
            ("Still on the channel", false),
            ("Cured by the chain as it stands", false),
            ("Level not known", true),
            ("Only marginal before, clear now", true),
            ("Clear either way", true),
        ]
        : [("Harmful", false), ("Marginal", false), ("Level not known", true), ("Clear", true)];

    private static IReadOnlyList<(string, bool)> Orders(IReadOnlyList<NumberedFinding> shown) =>
    [
        .. shown.OrderBy(static f => f.Either.Order).ThenBy(static f => f.Either.Terms.Count).Select(ByOrder).Distinct()
            .Select(static h => (h, false)),
    ];

    private static string ByOrder(NumberedFinding f) =>
        $"Order {f.Either.Order}, {Figures.CountInWords(f.Either.Terms.Count)} emitter{(f.Either.Terms.Count == 1 ? "" : "s")}";

    private static string HeadingOf(NumberedFinding f, StudyPictureModel model) => model.HasNoLevels ? ByOrder(f) : model.HasFilter
        ? f.Outcome switch
        {
            FindingOutcome.StillThere => "Still on the channel",
            FindingOutcome.Cured => "Cured by the chain as it stands",
            FindingOutcome.OnlyMarginalBefore => "Only marginal before, clear now",
            FindingOutcome.Unknown => "Level not known",
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

    private static string CureOf(NumberedFinding f) => (f.Now, f.Before?.Verdict) switch
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
