using System.Text;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>What a study says, in sentences: the same for the text output, the report and the page. Pure functions.</summary>
public static class StudyWords
{
    /// <summary>The verdict as one word.</summary>
    public static string Word(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => "harmful",
        Verdict.Marginal => "marginal",
        Verdict.Clear => "clear",
        _ => "level unknown",
    };

    /// <summary>The mixture as arithmetic: <c>466.1000 - 2 x 160.5250 = 145.0500</c>, in MHz without unit.</summary>
    /// <param name="product">The mixture.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Mixture(ProductFinding product, Typography typography) =>
        $"{Arithmetic(product, typography)} = {Figures.Megahertz(product.FrequencyHz, Decimals(product))}";

    /// <summary>The left side of <see cref="Mixture"/>: <c>466.1000 - 2 x 160.5250</c>.</summary>
    /// <param name="product">The mixture.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Arithmetic(ProductFinding product, Typography typography)
    {
        int decimals = Decimals(product);
        return Joined(product.Terms, typography, t => Figures.Megahertz(t.FrequencyHz, decimals));
    }

    /// <summary>The mixture by names: <c>regional paging - 2 x waterworks base</c>.</summary>
    /// <param name="product">The mixture.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Names(ProductFinding product, Typography typography) => Names(product.Terms, typography);

    /// <summary>The same of terms in any order.</summary>
    /// <param name="terms">The terms.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Names(IReadOnlyList<Term> terms, Typography typography) => Joined(terms, typography, static t => t.Name);

    /// <summary>Terms in reading order: what is added first, so that the sum never begins with a minus.</summary>
    /// <param name="product">The mixture.</param>
    public static IEnumerable<Term> InReadingOrder(ProductFinding product) => InReadingOrder(product.Terms);

    private static IEnumerable<Term> InReadingOrder(IReadOnlyList<Term> terms) =>
        terms.Where(static t => t.Coefficient > 0).Concat(terms.Where(static t => t.Coefficient < 0));

    /// <summary>How many decimals the mixture's frequencies need: 4, or 5 or 6 where one of them does.</summary>
    /// <param name="product">The mixture.</param>
    public static int Decimals(ProductFinding product) =>
        Figures.DecimalsFor(product.Terms.Select(static t => t.FrequencyHz).Append(product.FrequencyHz));

    /// <summary>
    /// Where it is made: <c>in this receiver</c>, <c>in amplifier 1</c>, <c>in the transmitter of the telemetry scanner</c>.
    /// </summary>
    /// <param name="product">The mixture.</param>
    /// <param name="receiver">The receiver's name.</param>
    public static string MadeWhere(ProductFinding product, string receiver) => product.Mechanism == Mechanism.Transmitter
        ? $"in the transmitter of the {product.MadeIn}"
        : product.MadeIn == receiver ? "in this receiver" : $"in {product.MadeIn}";

    /// <summary>
    /// The beginning of a sentence on the sum: it says so where emitters that are never on together keep mixtures out of it.
    /// </summary>
    /// <param name="receiver">The findings.</param>
    public static string Together(ReceiverFindings receiver) => receiver.SumOfSome
        ? receiver.SumIsBound
            ? "The mixtures that can be on the air together (some of the emitters never are, in too many ways to try all) stand at most"
            : "The mixtures that can be on the air together (some of the emitters never are) stand at most"
        : "All mixtures together stand";

    /// <summary>The answer to 'what lands on my channel?', as sentences a site's owner understands.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Answer(ReceiverFindings receiver, Typography typography) =>
        Answer(receiver, NumberedFinding.Of(receiver), typography);

    /// <summary>The same for findings already numbered.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="numbered"><see cref="NumberedFinding.Of(ReceiverFindings)"/> of the same receiver.</param>
    /// <param name="typography">The signs to use.</param>
    /// <param name="words">What before and after are called; the filter's where null.</param>
    public static string Answer(
        ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, Typography typography, ComparisonWords? words = null)
    {
        words ??= ComparisonWords.Filter;
        string channel = Figures.MegahertzExact(receiver.FrequencyHz) + typography.Space + "MHz";
        if (numbered.Count > 0 && receiver.Carriers.All(static c => c.LevelAtAntennaDbm is null))
        {
            return NoLevels(receiver, numbered, channel);
        }

        StringBuilder says = new();
        List<NumberedFinding> harmful = [.. numbered.Where(static f => f.Now == Verdict.Harmful)];
        List<NumberedFinding> marginal = [.. numbered.Where(static f => f.Now == Verdict.Marginal)];
        int before = receiver.WithoutFilter?.Harmful ?? 0;
        int sunk = numbered.Count(static f => f.Before?.Verdict == Verdict.Harmful && f.Now != Verdict.Harmful);

        if (IsMoved(numbered))
        {
            says.Append(ByThreshold(receiver, numbered, (harmful, marginal.Count), channel, typography, words));
            AppendRest(says, receiver, numbered, [], harmful.Count);
            return says.ToString();
        }

        if (sunk > 0)
        {
            says.Append(words.With).Append(Sunk(channel, before, sunk));
            if (harmful.Count == 1)
            {
                string subject = before - sunk == 1 && before > 1 ? $"The {Figures.OrdinalInWords(before)}" : "One";
                says.Append(' ').Append(subject).Append(StillOver(harmful[0], typography));
            }
            else if (harmful.Count > 1)
            {
                says.Append(' ').Append(Capital(Figures.CountInWords(harmful.Count))).Append(" are still over it, ")
                    .Append(WorstOf(harmful, typography));
                says.Append(Already(harmful));
            }
        }
        else if (harmful.Count > 0)
        {
            says
                .Append(Capital(Figures.CountInWords(harmful.Count)))
                .Append(harmful.Count == 1 ? " mixture lands on " : " mixtures land on ")
                .Append(channel).Append(" over the noise; ");
            if (harmful.Count == 1)
            {
                says.Append("it is ").Append(Over(harmful[0])).Append(typography.Space).Append("dB over it.");
            }
            else
            {
                says.Append(WorstOf(harmful, typography));
            }

            says.Append(ImpactWords.Sentence(harmful));
            if (receiver.WithoutFilter is not null)
            {
                says.Append(' ').Append(words.TakesNone);
            }

            says.Append(Already(harmful));
        }
        else
        {
            says.Append(NothingLands(receiver, numbered, channel, typography, words));
        }

        AppendRest(says, receiver, numbered, marginal, harmful.Count);
        return says.ToString();
    }

    /// <summary>What would be heard and how often, for one mixture.</summary>
    /// <param name="product">The mixture.</param>
    public static string Heard(ProductFinding product)
    {
        string hear = HeardWords.Of(product);
        string often = product.OnTogether < 1
            ? $" All its transmitters are on the air together {Figures.Percent(product.OnTogether)} of the time, by the activity given."
            : "";
        return (hear.Length == 0 ? "" : $"{Capital(hear)}.") + often;
    }

    /// <summary>A text with its first letter in upper case.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    // Arithmetic alone: what can land, never how strong.
    private static string NoLevels(ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, string channel)
    {
        long all = receiver.Products.Count + receiver.ProductsLeftOut;
        int lowest = numbered.Min(static f => f.Either.Order);
        int low = numbered.Count(f => f.Either.Order == lowest);
        string many = all > 99 ? Figures.Count(all, Typography.Fine) : Figures.CountInWords((int)all);
        string count = all == 1 ? "one mixture" : $"{many} mixtures";
        string of = low == all ? $"{(all == 1 ? "it is" : "all")} of order {lowest}"
            : $"{Figures.CountInWords(low)} of them of order {lowest}";
        return $"No level is known yet. By arithmetic alone {count} can land on {channel}, {of}; which of them matters, levels will tell.";
    }

    // Where harm begins elsewhere than at the noise: what is harmful may lie under it, and what is not over it.
    private static bool IsMoved(IReadOnlyList<NumberedFinding> numbered) => numbered
        .SelectMany(static f => (ProductFinding?[])[f.Before, f.After]).OfType<ProductFinding>()
        .Any(static p => p.OverNoiseDb is { } over && over >= 0 != (p.Verdict == Verdict.Harmful));

    private static string ByThreshold(
        ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, (List<NumberedFinding> Harmful, int Marginal) now,
        string channel, Typography typography, ComparisonWords words)
    {
        List<NumberedFinding> harmful = now.Harmful;
        NumberedFinding? most = numbered.Where(static f => f.After?.OverNoiseDb is not null).MaxBy(static f => f.After!.OverNoiseDb);
        string stands = most?.After is { OverNoiseDb: { } over } p
            ? $"; the {(harmful.Count > 0 ? "worst" : "nearest")}, {Arithmetic(p, typography)}, stands {Figures.BareDb(over)}"
                + $"{typography.Space}dB {(over >= 0 ? "over" : "under")} the noise"
            : "";
        string count = harmful.Count switch
        {
            0 => $"no mixture on {channel} is",
            1 => $"one mixture on {channel} is",
            var n => $"{Figures.CountInWords(n)} mixtures on {channel} are",
        };
        string before = receiver.WithoutFilter is { } without
            ? $" {Capital(words.Before)}: {Figures.CountInWords(without.Harmful)}."
            : "";
        string rest = now.Marginal == 0 ? "" : $" {Capital(Figures.CountInWords(now.Marginal))}{(harmful.Count > 0 ? " more" : "")} "
            + $"{(now.Marginal == 1 ? "is" : "are")} marginal.";
        return $"By the threshold that was set, {count} harmful{stands}.{before}{Already(harmful)}{rest}";
    }

    private static string Sunk(string channel, int before, int sunk) => (before, sunk) switch
    {
        (1, 1) => $", the one harmful mixture on {channel} sinks under the noise.",
        (2, 2) => $", both harmful mixtures on {channel} sink under the noise.",
        _ when before == sunk => $", all {Figures.CountInWords(before)} harmful mixtures on {channel} sink under the noise.",
        _ =>
            $", {Figures.CountInWords(sunk)} of the {Figures.CountInWords(before)} harmful mixtures on "
                + $"{channel} {(sunk == 1 ? "sinks" : "sink")} under the noise.",
    };

    private static string StillOver(NumberedFinding finding, Typography typography)
    {
        ProductFinding p = finding.After!;
        string over = $" is still {Over(finding)}{typography.Space}dB over it: {Arithmetic(p, typography)}";
        return p.Mechanism == Mechanism.Transmitter
            ? $"{over}. It arrives already mixed, from the transmitter of the {p.MadeIn}: no filter here will cure it."
            : $"{over}.";
    }

    private static string WorstOf(List<NumberedFinding> harmful, Typography typography)
    {
        NumberedFinding worst = harmful.MaxBy(static f => f.After!.OverNoiseDb ?? double.NegativeInfinity)!;
        return $"the worst, {Arithmetic(worst.After!, typography)}, by {Over(worst)}{typography.Space}dB.";
    }

    private static string Already(List<NumberedFinding> harmful)
    {
        List<string> makers =
        [
            .. harmful
                .Where(static f => f.After!.Mechanism == Mechanism.Transmitter)
                .Select(static f => f.After!.MadeIn)
                .Distinct(StringComparer.Ordinal),
        ];
        int mixed = harmful.Count(static f => f.After!.Mechanism == Mechanism.Transmitter);
        if (mixed == 0)
        {
            return "";
        }

        string who = mixed == harmful.Count
            ? harmful.Count == 1 ? "It" : "All of them"
            : mixed == 1 ? "One of them" : $"{Capital(Figures.CountInWords(mixed))} of them";
        bool one = mixed == 1;
        string from = makers.Count == 1 ? $"from the transmitter of the {makers[0]}" : "from other transmitters of the site";
        return $" {who} {(one ? "arrives" : "arrive")} already mixed, {from}: no filter here will cure {(one ? "it" : "them")}.";
    }

    private static string NothingLands(
        ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, string channel, Typography typography, ComparisonWords words)
    {
        NumberedFinding? nearest = numbered.Where(static f => f.After?.OverNoiseDb is not null).MaxBy(static f => f.After!.OverNoiseDb);
        string either = receiver.WithoutFilter is not null ? $", {words.Either}" : "";
        if (nearest is null)
        {
            return numbered.Any(static f => f.After is not null)
                ? $"No mixture of known level lands on {channel}."
                : $"Nothing lands on {channel}{either}.";
        }

        return $"Nothing lands on {channel} above the noise{either}; the nearest is {Over(nearest)}{typography.Space}dB under it.";
    }

    private static void AppendRest(
        StringBuilder says, ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, List<NumberedFinding> marginal, int harmful)
    {
        says.Append(ImpactWords.Rest(marginal, harmful > 0));

        int unknown = numbered.Count(static f => f.Now == Verdict.Unknown);
        if (unknown > 0)
        {
            says.Append(unknown == 1
                ? " One mixture that can land there has no level: the level of an emitter in it is not known."
                : $" {Capital(Figures.CountInWords(unknown))} mixtures that can land there have no "
                    + $"level: the level of an emitter in them is not known.");
        }

        int others = receiver.OtherCauses.Count(static c => c.Verdict == Verdict.Harmful);
        if (others > 0)
        {
            says.Append(
                others == 1
                    ? " Another cause, not a mixture, is harmful too: "
                    : $" {Capital(Figures.CountInWords(others))} other causes, not mixtures, are harmful too; the first: ");
            OtherCause cause = receiver.OtherCauses.First(static c => c.Verdict == Verdict.Harmful);
            string first = CauseWords.Says(cause);

            // A name keeps the letters that its owner gave it.
            bool named = cause.Emitter is { Length: > 0 } emitter && first.StartsWith(emitter, StringComparison.Ordinal);
            says.Append(
                !named && first.Length > 1 && char.IsUpper(first[0]) && char.IsLower(first[1])
                    ? char.ToLowerInvariant(first[0]) + first[1..]
                    : first);
            if (!first.EndsWith('.'))
            {
                says.Append('.');
            }
        }
    }

    private static string Over(NumberedFinding finding) => Figures.BareDb(finding.After!.OverNoiseDb ?? 0);

    private static string Joined(IReadOnlyList<Term> terms, Typography typography, Func<Term, string> each)
    {
        StringBuilder text = new();
        foreach (Term t in InReadingOrder(terms))
        {
            if (text.Length > 0)
            {
                text.Append(t.Coefficient < 0 ? $" {typography.Minus} " : " + ");
            }
            else if (t.Coefficient < 0)
            {
                text.Append(typography.Minus);
            }

            int times = Math.Abs(t.Coefficient);
            if (times > 1)
            {
                text.Append(times).Append(typography.Space).Append(typography.Times).Append(typography.Space);
            }

            text.Append(each(t));
        }

        return text.ToString();
    }
}
