using Spurless.Drawing.Words;
using Spurless.Sites.Plans;

namespace Spurless.Reports.Plans;

/// <summary>The sentences of a plan.</summary>
public static class PlanWords
{
    /// <summary>That the list does not decide.</summary>
    public const string Decides =
        "Which channel may be used is for frequency coordination and the licence to decide, not for this list: it only tells what would "
            + "land there.";

    /// <summary>What is counted.</summary>
    public const string Counted =
        "Counted is what the receiver and its chain make, on each channel as a study of the site with the receiver and our own "
            + "transmitter moved there finds it. Measured levels are taken along as they are.";

    /// <summary>The conclusion.</summary>
    public static string Answer(PlanAnswer answer, Typography signs)
    {
        string band = answer.Channels == 1
            ? $"the channel {Megahertz(answer.Question.FromHz)} MHz"
            : $"{Figures.Count(answer.Channels, signs)} channels from {Megahertz(answer.Question.FromHz)} to "
                + $"{Megahertz(answer.Question.ToHz)} MHz";
        if (answer.Offered.Count == 0)
        {
            return $"Nothing is offered of {band}: something stands on each, or the band plan keeps it for others.";
        }

        PlanChannel best = answer.Offered[0];
        string quiet = answer.Quiet == answer.Channels && answer.Channels > 1
            ? $"All {band} are free of mixtures made in the receiver"
            : answer.Quiet == 0
            ? $"Of {band} none is free of mixtures made in the receiver"
            : $"Of {band} {Count(answer.Quiet, signs)} {(answer.Quiet == 1 ? "is" : "are")} free of mixtures made in the receiver";
        return $"{quiet}; the best is {Pair(answer, best.FrequencyHz)}: {Lands(best, signs)}.{Present(answer, signs)}";
    }

    /// <summary>A receive frequency with our own transmitter's.</summary>
    public static string Pair(PlanAnswer answer, long frequencyHz) => answer.Transmitters is [var one]
        ? $"{Megahertz(frequencyHz)} MHz with {one.Name} on {Megahertz(frequencyHz + one.ShiftHz)} MHz"
        : $"{Megahertz(frequencyHz)} MHz";

    /// <summary>What lands on a channel, without a full stop.</summary>
    public static string Lands(PlanChannel channel, Typography signs) =>
        Lands(new PlanScore(channel.Harmful, channel.Marginal, channel.Unknown, channel.WorstOverNoiseDb), signs);

    /// <summary>What lands on one channel or several, without a full stop.</summary>
    public static string Lands(PlanScore score, Typography signs)
    {
        string[] counts =
        [
            .. score.Harmful > 0 ? [$"{Mixtures(score.Harmful, signs)} harmful"] : Array.Empty<string>(),
            .. score.Marginal > 0 ? [$"{Mixtures(score.Marginal, signs)} marginal"] : Array.Empty<string>(),
            .. score.Unknown > 0 ? [$"{Mixtures(score.Unknown, signs)} of unknown level"] : Array.Empty<string>(),
        ];
        string worst = score.WorstOverNoiseDb switch
        {
            null => score.Unknown > 0 ? "no mixture of known level reaches the report floor" : "no mixture reaches the report floor",
            >= 0 and var db => $"the worst stands {Figures.Db(db, signs)} dB over the noise",
            var db => $"the worst stays {Figures.BareDb(db.Value)} dB under the noise",
        };
        return counts.Length == 0 ? worst : $"{string.Join(", ", counts)}, {worst}";
    }

    /// <summary>That another shift would help, where it would; else null.</summary>
    public static string? Shift(PlanAnswer answer, Typography signs)
    {
        if (answer.WithTheShift is not [var worst, ..] || answer.Transmitters is not [var one])
        {
            return null;
        }

        string others = answer.WithTheShift.Count switch
        {
            1 => "",
            2 => " and one more",
            var n => $" and {Figures.Count(n - 1, signs)} more",
        };
        return $"{StudyWords.Capital(StudyWords.Names(worst.Terms, signs))}{others} can land on every channel alike, since "
            + $"{one.Name} stands {Megahertz(Math.Abs(one.ShiftHz))} MHz {(one.ShiftHz < 0 ? "under" : "over")} the receiver: "
            + "another shift moves that, another channel does not.";
    }

    /// <summary>
    /// What whole studies say besides of the best channels, put together by what it is: <c>transmitter noise of repeater output ...</c>.
    /// </summary>
    public static IEnumerable<string> BesidesOf(PlanAnswer answer, Typography signs)
    {
        foreach (IGrouping<string, (long FrequencyHz, double? Over)> one in answer.Looks.SelectMany(Entries)
            .GroupBy(static e => e.What, static e => (e.FrequencyHz, e.Over), StringComparer.Ordinal))
        {
            long[] where = [.. one.Select(static e => e.FrequencyHz).Distinct().Order()];
            double? most = one.Max(static e => e.Over);
            string over = most is { } db ? $", up to {Figures.Db(db, signs)} dB over the noise" : "";
            yield return $"{StudyWords.Capital(one.Key)}{over}: on {(where.Length == answer.Looks.Count && where.Length > 1
                ? FormattableString.Invariant($"all {where.Length} that were looked at")
                : string.Join(", ", where.Select(Megahertz)) + " MHz")}.";
        }
    }

    private static IEnumerable<(string What, long FrequencyHz, double? Over)> Entries(PlanLook look)
    {
        if (look.MadeElsewhere > 0)
        {
            yield return ("harmful mixtures made in transmitters, which no filter of ours ends", look.FrequencyHz, null);
        }

        foreach (Sites.Studies.OtherCause cause in look.Causes)
        {
            yield return (Name(cause), look.FrequencyHz, cause.OverNoiseDb);
        }

        foreach ((string receiver, Sites.Studies.OtherCause cause) in look.CausesElsewhere)
        {
            yield return ($"{Name(cause)} on {receiver}", look.FrequencyHz, cause.OverNoiseDb);
        }
    }

    private static string Name(Sites.Studies.OtherCause cause) =>
        (cause.Cause == "transmitter_noise" ? "sideband noise" : cause.Cause.Replace('_', ' '))
            + (cause.Emitter is { } emitter ? $" of {emitter}" : "");

    /// <summary>What a whole study of a channel says besides; empty where it says nothing against it.</summary>
    public static IEnumerable<string> Besides(PlanLook look, Typography signs)
    {
        if (look.MadeElsewhere > 0)
        {
            string makes = look.MadeElsewhere == 1
                ? "1 harmful mixture is"
                : $"{Figures.Count(look.MadeElsewhere, signs)} harmful mixtures are";
            yield return $"{makes} made in transmitters there, which no filter of ours ends.";
        }

        foreach (string cause in look.Causes.Select(CauseWords.Says))
        {
            yield return signs.Signed(cause);
        }

        foreach ((string receiver, Sites.Studies.OtherCause cause) in look.CausesElsewhere)
        {
            yield return signs.Signed($"On {receiver}: {CauseWords.Says(cause)}");
        }
    }

    /// <summary>What our own transmitter would do there to another receiver of the site.</summary>
    public static string Elsewhere(PlanElsewhere elsewhere, Typography signs) =>
        $"With our transmitter there on {elsewhere.Receiver}: "
            + $"{Lands(new PlanScore(elsewhere.Harmful, elsewhere.Marginal, elsewhere.Unknown, elsewhere.WorstOverNoiseDb), signs)}.";

    /// <summary>Channels side by side.</summary>
    public static IEnumerable<string> Together(PlanAnswer answer, PlanTogether together, Typography signs)
    {
        int asked = answer.Question.Count ?? 0;
        if (together.Problem is { } problem)
        {
            yield return $"No {Count(asked, signs)} channels side by side: {problem}.";
            yield break;
        }

        string which = string.Join(", ", together.FrequenciesHz.Select(Megahertz));
        yield return $"With everything on the air on {which} MHz: {Lands(together.Score, signs)}.";
        yield return together.IsBest
            ? "No other set of as many is better."
            : $"They were chosen {(asked > PlanQuestion.ExactTogether ? "one by one" : "among a part of all sets")}: another set could be "
                + $"better, but none can have fewer than {Figures.Count(together.Bound.Harmful, signs)} harmful and "
                + $"{Figures.Count(together.Bound.Marginal, signs)} marginal mixtures"
                + (together.Bound.WorstOverNoiseDb is { } worst ? $", or a worst under {Figures.Db(worst, signs)} dB over noise." : ".");
    }

    /// <summary>Why a channel is not offered.</summary>
    public static string Why(PlanTaken taken) => taken.Reason switch
    {
        PlanReason.Emitter => $"{taken.By} stands there",
        PlanReason.Receiver => $"{taken.By} listens there",
        PlanReason.EmitterOnTransmit => $"{taken.By} stands where we would transmit",
        PlanReason.ReceiverOnTransmit => $"{taken.By} listens where we would transmit",
        PlanReason.BandPlan => $"band plan: {taken.By}",
        _ => $"band plan where we would transmit: {taken.By}",
    };

    /// <summary>The channels that are not offered, put together by why.</summary>
    public static IEnumerable<string> NotOffered(PlanAnswer answer, Typography signs) => answer.NotOffered
        .GroupBy(Why, StringComparer.Ordinal)
        .Select(g => g.Count() <= MostNamed
            ? $"{string.Join(", ", g.Select(static t => Megahertz(t.FrequencyHz)))} MHz: {g.Key}."
            : $"{Figures.Count(g.Count(), signs)} channels between {Megahertz(g.First().FrequencyHz)} and "
                + $"{Megahertz(g.Last().FrequencyHz)} MHz: {g.Key}.");

    /// <summary>How far was looked.</summary>
    public static string Looked(PlanAnswer answer) =>
        FormattableString.Invariant($"Orders {answer.Orders.Lowest} to {answer.Orders.Highest}, ")
            + FormattableString.Invariant($"up to {answer.Signals} emitters in a mixture. ")
            + (answer.Looks.Count == 0
                ? ""
                : answer.Looks.Count == 1
                    ? "The channel was looked at by a whole study, mixing in transmitters and other causes in it."
                    : FormattableString.Invariant($"The first {answer.Looks.Count} were looked at by a whole study each, ")
                        + "mixing in transmitters and other causes in it; the rest were not.");

    /// <summary>A frequency in MHz.</summary>
    public static string Megahertz(long hertz) => Figures.MegahertzExact(hertz);

    private const int MostNamed = 6;

    private static string Present(PlanAnswer answer, Typography signs) => answer.Present is not { } present
        ? ""
        : ReferenceEquals(present, answer.Offered[0])
            ? " It stands there now."
            : $" Where it stands now, on {Megahertz(present.FrequencyHz)} MHz: {Lands(present, signs)}.";

    private static string Mixtures(int count, Typography signs) => count == 1 ? "1 mixture" : $"{Figures.Count(count, signs)} mixtures";

    private static string Count(int count, Typography signs) => count > 12 ? Figures.Count(count, signs) : Figures.CountInWords(count);
}
