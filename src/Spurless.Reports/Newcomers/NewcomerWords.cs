using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Reports.Studies;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Newcomers;

/// <summary>What a newcomer does to a site, in sentences: the answer, each receiver's worst, and what must be done first.</summary>
public static class NewcomerWords
{
    // So many names or frequencies stand in a sentence before the rest is counted.
    private const int Named = 6;

    /// <summary>The answer in up to three sentences; it begins with yes or no.</summary>
    public static string Answer(NewcomerAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string who = answer.Question.Sites.Newcomer.Document.Site;
        NewcomerReceiver[] fail = [.. answer.Receivers.Where(static r => !r.Passes)];
        return fail.Length == 0 ? Yes(answer, who) : No(answer, who, fail);
    }

    /// <summary>What to heed before a newcomer goes on the air.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "None of this gives leave to transmit: licence, coordination and the site’s owner decide.",
        "Levels are computed from what the two files say. Measure before money is spent, and listen on every receiver at the first "
            + "transmission, at reduced power and with the owner at hand.",
        "Masts and roofs are climbed by trained people with the owner’s leave, with transmitters near the work switched off or turned "
            + "down: radio-frequency burns go deep, and exposure limits hold.",
        "Work on another’s transmitter, antenna or isolator is theirs to do or to allow.",
    ];

    /// <summary>A receiver's mark. An answer of yes wears no colour that says safe: clear, or unknown where something is open.</summary>
    public static Verdict Mark(NewcomerReceiver receiver)
    {
        ArgumentNullException.ThrowIfNull(receiver);
        return !receiver.Passes ? Verdict.Harmful : receiver.Open ? Verdict.Unknown : Verdict.Clear;
    }

    /// <summary>Whether it passes: <c>yes</c>, <c>no</c>, or <c>as far as known</c> where something that is not known could fail.</summary>
    public static string Passes(NewcomerReceiver receiver) => !receiver.Passes ? "no" : receiver.Open ? "as far as known" : "yes";

    /// <summary>How far the worst new thing of known level is from harm, in dB with its sign; empty where there is none.</summary>
    public static string Margin(NewcomerReceiver receiver, double harmfulFromDb, Typography signs) =>
        receiver.WorstOverNoiseDb is { } over ? Figures.SignedDb(harmfulFromDb - over, signs) : "";

    /// <summary>The worst new thing on a receiver in a few words.</summary>
    public static string Worst(NewcomerReceiver receiver, Typography signs)
    {
        ProductFinding? product = receiver.Findings.Products.Count > 0 ? receiver.Findings.Products[0] : null;
        NewCause? cause = receiver.Causes.Where(static c => c.Cause.Finding.OverNoiseDb is not null)
            .MaxBy(static c => c.Cause.Finding.OverNoiseDb);
        if (product is null && receiver.Causes.Count == 0)
        {
            return "nothing new";
        }

        if (cause is not null && !(product?.OverNoiseDb > cause.Cause.Finding.OverNoiseDb))
        {
            return Name(cause.Cause);
        }

        return product is null ? "nothing of known level"
            : $"{StudyWords.Mixture(product, signs)}, made {StudyWords.MadeWhere(product, receiver.Findings.Name)}"
                + (product.OverNoiseDb is null ? ", level not known" : "");
    }

    /// <summary>A new cause in a sentence or two, with whose carriers a sum counts.</summary>
    public static string Says(NewcomerReceiver receiver, NewCause cause) => CauseWords.Says(cause.Cause) + cause.Sum switch
    {
        SumOf.OtherSide when receiver.OfNewcomer => " Counted are the site's carriers alone: with the newcomer's own it is no worse.",
        SumOf.OtherSide => " Counted are the newcomer's carriers alone: with the site's own it is no worse than without them.",
        SumOf.All when receiver.OfNewcomer => " Without the site it would be less.",
        SumOf.All => " Without the newcomer it would be less.",
        _ => "",
    };

    /// <summary>What must be done before a receiver passes, a sentence each.</summary>
    public static IEnumerable<string> Conditions(NewcomerAnswer answer, NewcomerReceiver receiver) =>
        receiver.Needs.Select(n => Condition(answer.Question.Sites, receiver.Findings, n));

    /// <summary>Whose work a condition is.</summary>
    public static string Whose(NewcomerNeed need) => need.AtSite ? "the site" : "the newcomer";

    /// <summary>What was tested, in a sentence.</summary>
    public static string Tested(NewcomerAnswer answer)
    {
        NewcomerSites sites = answer.Question.Sites;
        int receivers = sites.Joint.Document.Receivers.Count - sites.SiteReceivers;
        int emitters = sites.Joint.Document.Emitters.Count - sites.SiteEmitters;
        (int low, int high) = answer.Question.Options.Orders ?? (
            sites.Joint.Document.Search.LowestOrder ?? StudyService.DefaultOrders.Lowest,
            sites.Joint.Document.Search.HighestOrder ?? StudyService.DefaultOrders.Highest);
        int signals = answer.Question.Options.Signals ?? sites.Joint.Document.Search.Signals ?? StudyService.DefaultSignals;
        return $"{StudyWords.Capital(Count(emitters, "transmitter"))} and {Count(receivers, "receiver")} of the newcomer together with "
            + $"{Count(sites.SiteEmitters, "transmitter")} and {Count(sites.SiteReceivers, "receiver")} of the site: mixtures of orders "
            + FormattableString.Invariant($"{low} to {high} of up to {signals} emitters, in receivers and in transmitters, ")
            + "sideband noise, overload and the other causes; listed is only what is not there without the newcomer.";
    }

    /// <summary>What is not known of any receiver, a sentence for each gap.</summary>
    public static IReadOnlyList<string> NotKnown(NewcomerAnswer answer) =>
        [.. answer.Receivers.SelectMany(static r => GapWords.Of(r.Findings)).Distinct(StringComparer.Ordinal)];

    /// <summary>What is assumed of all that is listed on a receiver, each once.</summary>
    public static IEnumerable<string> Assumed(NewcomerReceiver receiver, int products) =>
        receiver.Findings.Assumed.Select(ReceiverAssumptionWords.Of)
            .Concat(receiver.Findings.Products.Take(products).SelectMany(static p => p.Assumed).Select(AssumptionWords.Of))
            .Concat(receiver.Causes.Where(static c => !c.Cause.OnlyUsual)
                .SelectMany(static c => AssumptionWords.Of(c.Cause.Assumed)))
            .Distinct(StringComparer.Ordinal);

    /// <summary>The kind of a need, as the JSON format writes it.</summary>
    internal static string Token(NewcomerNeedKind kind) => kind switch
    {
        NewcomerNeedKind.CarrierAttenuation => "carrier_attenuation",
        NewcomerNeedKind.Isolator => "isolator",
        NewcomerNeedKind.OutputFilter => "output_filter",
        _ => "path_loss",
    };

    private static string Yes(NewcomerAnswer answer, string who)
    {
        bool open = answer.Receivers.Any(static r => r.Open);
        string yes = open ? "Yes, as far as it is known" : "Yes";
        string receivers = answer.Receivers.Count == 1
            ? $"on {answer.Receivers[0].Findings.Name}"
            : $"on any of the {Figures.CountInWords(answer.Receivers.Count)} receivers";
        NewcomerReceiver? nearest = answer.Receivers.MaxBy(static r => r.WorstOverNoiseDb);
        string margin = nearest?.WorstOverNoiseDb is { } over
            ? $" The nearest, on {nearest.Findings.Name}, stays "
                + $"{Figures.BareDb(answer.Question.Options.HarmfulFromDb - over)} dB under that."
            : "";
        return $"{yes}: with {who} nothing new is harmful {receivers}.{margin}"
            + (open ? " What is not known stands below, with the measurement that would tell." : "");
    }

    private static string No(NewcomerAnswer answer, string who, NewcomerReceiver[] fail)
    {
        NewcomerReceiver worst = fail.MaxBy(static r => r.WorstOverNoiseDb)!;
        string where = fail.Length == answer.Receivers.Count && fail.Length > 1
            ? $"on all {Figures.CountInWords(fail.Length)} receivers"
            : fail.Length == 1 ? $"on {worst.Findings.Name}"
            : $"on {Figures.CountInWords(fail.Length)} of {Figures.CountInWords(answer.Receivers.Count)} receivers";
        int conditions = fail.Sum(static r => r.Needs.Count);
        bool curable = fail.All(static r => r.Needs.All(static n => n.Db is not null));
        string then = !curable ? "No attenuation is enough for all of it."
            : conditions == 1 ? $"It passes with {Figures.BareDb(worst.Needs[0].Db!.Value)} dB {Short(worst.Needs[0], worst)}."
            : $"It passes with the {Figures.CountInWords(conditions)} conditions below.";
        return $"No, not as it stands: {who} fails {where}. "
            + $"The worst that is new{(fail.Length > 1 ? $", on {worst.Findings.Name}," : "")} stands "
            + $"{Figures.BareDb(worst.WorstOverNoiseDb!.Value)} dB over the noise. {then}";
    }

    private static string Short(NewcomerNeed need, NewcomerReceiver receiver) => need.Kind switch
    {
        NewcomerNeedKind.CarrierAttenuation => $"less of {NamesOf(need.Emitters)} in front of {receiver.Findings.Name}",
        NewcomerNeedKind.Isolator => $"more isolation at the transmitter of {need.Emitters[0]}",
        NewcomerNeedKind.OutputFilter => $"less on the channel at the output of {need.Emitters[0]}",
        _ => $"more path loss from {NamesOf(need.Emitters)}",
    };

    private static string Condition(NewcomerSites sites, ReceiverFindings receiver, NewcomerNeed need)
    {
        string db = need.Db is { } least ? $"{Figures.BareDb(least)} dB" : "More than any";
        string channel = $"{Figures.MegahertzExact(receiver.FrequencyHz)} MHz";
        string each = need.Emitters.Count > 1 ? " each" : "";
        return need.Kind switch
        {
            NewcomerNeedKind.CarrierAttenuation =>
                $"{db} of attenuation{each} at {Frequencies(sites, need.Emitters)} in front of {receiver.Name} ({NamesOf(need.Emitters)}): "
                    + $"a filter that passes {channel}, or so much more loss between the antennas.",
            NewcomerNeedKind.Isolator =>
                $"{db} of isolation more than there is, at the transmitter of {need.Emitters[0]} against what comes in at its output; "
                    + "no filter at the receiver does it.",
            NewcomerNeedKind.OutputFilter =>
                $"{db} of attenuation on {channel} by a filter at the output of {need.Emitters[0]}, which then radiates less of its noise "
                    + "and harmonics there.",
            _ =>
                $"{db} more loss{each} between the antenna of {NamesOf(need.Emitters)} and that of {receiver.Name}, or another channel: it "
                    + "stands on the channel or beside it, where no filter helps.",
        };
    }

    private static string Frequencies(NewcomerSites sites, IReadOnlyList<string> emitters)
    {
        HashSet<string> names = new(emitters, StringComparer.Ordinal);
        long[] hertz =
        [
            .. sites.Joint.Document.Emitters.Where(e => names.Contains(e.Name)).Select(static e => e.Frequency.Hertz).Distinct().Order(),
        ];
        return hertz.Length > Named
            ? $"the {Figures.CountInWords(hertz.Length)} frequencies from {Figures.MegahertzExact(hertz[0])} to "
                + $"{Figures.MegahertzExact(hertz[^1])} MHz"
            : NamesOf([.. hertz.Select(static h => Figures.MegahertzExact(h))]) + " MHz";
    }

    private static string Name(OtherCause cause) => cause.Finding.Cause switch
    {
        CauseKind.Direct => $"{cause.Emitter} on the channel",
        CauseKind.TransmitterNoise => $"sideband noise of {cause.Emitter}",
        CauseKind.Blocking => $"overload, {cause.Emitter} the strongest",
        CauseKind.CrossModulation => $"cross-modulation by {cause.Emitter}",
        CauseKind.Harmonic => $"a harmonic of {cause.Emitter}",
        CauseKind.ReciprocalMixing => $"oscillator noise on {cause.Emitter}",
        CauseKind.ProductOnResponse => "a mixture on another response of the receiver",
        CauseKind.AdjacentChannel => $"{cause.Emitter} beside the channel",
        _ => $"{cause.Emitter} on another response of the receiver",
    };

    private static string Count(int count, string noun) =>
        $"{Figures.CountInWords(count)} {noun}{(count == 1 ? "" : "s")}";

    private static string NamesOf(IReadOnlyList<string> names) => NameList.Of(names, Named);
}
