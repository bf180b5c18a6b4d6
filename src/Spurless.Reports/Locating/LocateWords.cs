using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Mixing.Evidence;
using Spurless.Sites.Locating;

namespace Spurless.Reports.Locating;

/// <summary>What evidence says, in sentences: the same for text, report, worksheet and page. Pure functions.</summary>
public static class LocateWords
{
    /// <summary>So many reasons of a hypothesis are told.</summary>
    public const int ReasonsTold = 6;

    // A clue that changes the odds by less than this tells nothing.
    private const double LeastWeight = 0.05;

    private const int MixturesTold = 5;
    private const double LeastTold = 0.005;

    /// <summary>From this probability on a sentence says 'it is'.</summary>
    public const double Sure = NextObservations.Sure;

    /// <summary>A probability: <c>93 %</c>, never 0 or 100.</summary>
    /// <param name="probability">0 to 1.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Percent(double probability, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(typography);
        return (probability < 0.01 ? "<1" : probability > 0.99 ? ">99" : (100 * probability).ToString("0", CultureInfo.InvariantCulture))
            + typography.Space + "%";
    }

    /// <summary>A place of making: <c>in this receiver</c>, <c>in the transmitter of the telemetry scanner</c>.</summary>
    /// <param name="place">The kind of place.</param>
    /// <param name="name">The stage or emitter; null outside and for something else.</param>
    /// <param name="receiver">The receiver's name.</param>
    public static string Place(MakingPlace place, string? name, string receiver) => place switch
    {
        MakingPlace.Receiver => name == receiver ? "in this receiver" : $"in {name}",
        MakingPlace.Transmitter => $"in the transmitter of the {name}",
        MakingPlace.Outside => "outside, in a joint, a fence or a clamp",
        _ => "something else on the channel",
    };

    /// <summary>The same in a word or two, for the head of a column.</summary>
    /// <param name="place">The kind of place.</param>
    /// <param name="name">The stage or emitter; null outside and for something else.</param>
    /// <param name="receiver">The receiver's name.</param>
    public static string ShortPlace(MakingPlace place, string? name, string receiver) => place switch
    {
        MakingPlace.Receiver => name == receiver ? "this receiver" : name ?? "",
        MakingPlace.Transmitter => $"{name}, transmitter",
        MakingPlace.Outside => "joint, fence",
        _ => "something else",
    };

    /// <summary>A hypothesis: the mixture and the place.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="hypothesis">Its index.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Hypothesis(LocatedReceiver located, int hypothesis, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        Hypothesis h = located.Weighed.Hypotheses[hypothesis];
        return h.Product < 0
            ? "something that no mixture of this site explains"
            : $"{StudyWords.Arithmetic(located.Products[h.Product], typography)}, made {PlaceOf(located, h)}";
    }

    /// <summary>The place of a hypothesis.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="hypothesis">The hypothesis.</param>
    public static string PlaceOf(LocatedReceiver located, Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(located);
        return Place(hypothesis.Place, located.NameOf(hypothesis.Place, hypothesis.Index), located.Findings.Name);
    }

    /// <summary>The answer: what it is, where it is made, how sure that is, what follows, and what to look at next.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Answer(LocatedReceiver located, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        string next = located.Next.Count > 0 ? $" Next: {ObservationWords.Do(located, located.Next[0].Ask, typography)}" : "";
        if (!located.HasEvidence)
        {
            return (located.Products.Count == 0
                ? "Nothing was observed here, and no mixture can be heard by the study."
                : $"Nothing was observed here yet: {Mixtures(located.Products.Count)} could be it.") + next;
        }

        string doubt = located.Misfits.Count > 0 ? "The evidence does not hold together (see below): take what follows with care. " : "";
        return doubt + Conclusion(located, typography) + next;
    }

    /// <summary>What does not fit, a sentence each.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="typography">The signs to use.</param>
    public static IEnumerable<string> Misfits(LocatedReceiver located, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        foreach (Misfit misfit in located.Misfits)
        {
            string observed = ObservationWords.Observed(located, misfit.Clue, typography);
            string sigmas = misfit.Sigmas.ToString("0", CultureInfo.InvariantCulture);
            yield return misfit.Kind switch
            {
                MisfitKind.NothingNear =>
                    $"{observed}: {sigmas} sigma from what every possibility says. Read it again, and see whether it was entered "
                        + "as it was read.",
                MisfitKind.LogUnexplained =>
                    $"{observed}: no mixture explains when it was heard; something else does by far better.",
                _ => $"{observed}: {sigmas} sigma from what the rest leaves as the likeliest. One of them is wrong: read it again.",
            };
        }
    }

    /// <summary>What the log rules out as the sole source; null where it rules out none.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="typography">The signs to use.</param>
    public static string? RuledOut(LocatedReceiver located, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        return located.RuledOut.Count == 0
            ? null
            : "By the log, the sole source is not: " + string.Join(", ", located.RuledOut.Take(MixturesTold).Select(r =>
                $"{located.Findings.Carriers[r.Emitter].Emitter} (on at {ObservationWords.InWords(r.Counts.On, typography)}, heard at "
                    + $"{Figures.Count(r.Counts.OnHeard, typography)} of them)"))
                + (located.RuledOut.Count > MixturesTold
                    ? $" and {Figures.CountInWords(located.RuledOut.Count - MixturesTold)} more."
                    : ".");
    }

    /// <summary>What speaks for and against a hypothesis, strongest first.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="hypothesis">Its index.</param>
    /// <param name="typography">The signs to use.</param>
    public static IReadOnlyList<string> Because(LocatedReceiver located, int hypothesis, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        return
        [
            .. located.Weighed.ReasonsOf(hypothesis).Where(static r => Math.Abs(r.Weight) >= LeastWeight).Take(ReasonsTold)
                .Select(r => (r.Weight > 0 ? "for: " : "against: ")
                    + ObservationWords.Reason(located, r.Clue, hypothesis, typography)),
        ];
    }

    /// <summary>The others that everything given predicts alike, likeliest first; empty where there is none.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="hypothesis">Its index.</param>
    public static IReadOnlyList<int> TiedWith(LocatedReceiver located, int hypothesis)
    {
        ArgumentNullException.ThrowIfNull(located);
        return located.HasEvidence
            ? [.. located.Ranked.Where(h => h != hypothesis && located.Weighed.TieOf[h] == located.Weighed.TieOf[hypothesis])]
            : [];
    }

    /// <summary>What follows for a cure from where it is made; null while the place is open.</summary>
    /// <param name="located">The receiver.</param>
    public static string? Follows(LocatedReceiver located)
    {
        ArgumentNullException.ThrowIfNull(located);
        if (located.Misfits.Count > 0 || Here(located) is not { } here)
        {
            return null;
        }

        PlaceShare first = located.Places[0];
        return here ? "A filter ahead of the stage that makes it helps."
            : first.Probability < Sure ? "It is not made in the receive chain: a filter here does not cure it."
            : first.Place switch
            {
                MakingPlace.Transmitter => $"A filter here does not cure it: only work at the {first.Name} does, by its owner.",
                MakingPlace.Outside => "A filter here does not cure it: the joint has to be found and mended by its owner.",
                _ => "No mixture of the listed emitters is it: look for an emitter or a device that is not in the site file.",
            };
    }

    /// <summary>What the evidence of one receiver says; null where it has none.</summary>
    /// <param name="located">The answer; null where the site has no evidence.</param>
    /// <param name="receiver">Index of the receiver.</param>
    public static LocatedReceiver? WithEvidence(LocateAnswer? located, int receiver) =>
        located?.Receivers[receiver] is { HasEvidence: true } with ? with : null;

    /// <summary>The evidence in a study: the answer, what does not fit, then the mixtures with how likely each is.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="typography">The signs to use.</param>
    public static IEnumerable<string> OfStudy(LocatedReceiver located, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        yield return Answer(located, typography);
        foreach (string misfit in Misfits(located, typography))
        {
            yield return misfit;
        }

        foreach (int h in located.Ranked.Take(MixturesTold).Where(h => located.Weighed.Posterior[h] >= LeastTold))
        {
            yield return $"{Percent(located.Weighed.Posterior[h], typography)}: {Hypothesis(located, h, typography)}.";
        }
    }

    /// <summary>Whether it is made in the receive chain; null while that is open.</summary>
    private static bool? Here(LocatedReceiver located)
    {
        double here = located.Weighed.OfPlace(MakingPlace.Receiver);
        return here >= Sure ? true : here <= 1 - Sure ? false : null;
    }

    private static string Conclusion(LocatedReceiver located, Typography typography)
    {
        int first = located.Ranked[0];
        Hypothesis leader = located.Weighed.Hypotheses[first];
        double probability = located.Weighed.Posterior[first];
        string follows = Follows(located) is { } then ? " " + then : "";
        IReadOnlyList<int> tied = TiedWith(located, first);
        double together = probability + tied.Sum(h => located.Weighed.Posterior[h]);
        if (leader.Product < 0 && probability >= Sure)
        {
            return $"It is no mixture that the study lists (sure to {Percent(probability, typography)}).{follows}";
        }

        if (probability >= Sure)
        {
            return $"It is {Hypothesis(located, first, typography)} (sure to {Percent(probability, typography)}).{follows}";
        }

        if (tied.Count > 0 && together >= Sure)
        {
            return $"It is one of {Figures.CountInWords(tied.Count + 1)} that nothing observed tells apart, together "
                + $"{Percent(together, typography)}: {Hypothesis(located, first, typography)}; "
                + string.Join("; ", tied.Take(3).Select(h => Hypothesis(located, h, typography))) + "." + follows;
        }

        PlaceShare place = located.Places[0];
        int product = leader.Product;
        if (product >= 0 && located.Weighed.OfProduct(product) >= Sure)
        {
            return $"It is {StudyWords.Mixture(located.Products[product], typography)} (sure to "
                + $"{Percent(located.Weighed.OfProduct(product), typography)}); where it is made is not decided: "
                + string.Join(", ", located.Places.Where(static p => p.Probability >= 0.01).Take(3)
                    .Select(p => $"{Place(p.Place, p.Name, located.Findings.Name)} {Percent(p.Probability, typography)}"))
                + "." + follows;
        }

        return place.Probability >= Sure && place.Place != MakingPlace.Other
            ? $"It is made {Place(place.Place, place.Name, located.Findings.Name)} (sure to {Percent(place.Probability, typography)}); "
                + $"which mixture is not decided, the likeliest is {Mixture(located, product, typography)}.{follows}"
            : $"Not decided: the likeliest is {Hypothesis(located, first, typography)}, with {Percent(probability, typography)}.{follows}";
    }

    private static string Mixture(LocatedReceiver located, int product, Typography typography) => product < 0
        ? "none of the listed"
        : $"{StudyWords.Arithmetic(located.Products[product], typography)} ({Percent(located.Weighed.OfProduct(product), typography)})";

    private static string Mixtures(int count) => count == 1 ? "one mixture" : $"{Figures.CountInWords(count)} mixtures";
}
