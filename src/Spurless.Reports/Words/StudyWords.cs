using System.Text;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Words;

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
        return Joined(product, typography, t => Figures.Megahertz(t.FrequencyHz, decimals));
    }

    /// <summary>The mixture by names: <c>regional paging - 2 x waterworks base</c>.</summary>
    /// <param name="product">The mixture.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Names(ProductFinding product, Typography typography) => Joined(product, typography, static t => t.Name);

    /// <summary>Terms in reading order: what is added first, so that the sum never begins with a minus.</summary>
    /// <param name="product">The mixture.</param>
    public static IEnumerable<Term> InReadingOrder(ProductFinding product) =>
        product.Terms.Where(static t => t.Coefficient > 0).Concat(product.Terms.Where(static t => t.Coefficient < 0));

    /// <summary>How many decimals the mixture's frequencies need: 4, or 5 or 6 where one of them does.</summary>
    /// <param name="product">The mixture.</param>
    public static int Decimals(ProductFinding product) =>
        Figures.DecimalsFor(product.Terms.Select(static t => t.FrequencyHz).Append(product.FrequencyHz));

    /// <summary>Where it is made: <c>in this receiver</c>, <c>in amplifier 1</c>, <c>in the transmitter of the telemetry scanner</c>.</summary>
    /// <param name="product">The mixture.</param>
    /// <param name="receiver">The receiver's name.</param>
    public static string MadeWhere(ProductFinding product, string receiver) => product.Mechanism == Mechanism.Transmitter
        ? $"in the transmitter of the {product.MadeIn}"
        : product.MadeIn == receiver ? "in this receiver" : $"in {product.MadeIn}";

    /// <summary>The answer to 'what lands on my channel?', as sentences a site's owner understands.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Answer(ReceiverFindings receiver, Typography typography) =>
        Answer(receiver, NumberedFinding.Of(receiver), typography);

    /// <summary>The same for findings already numbered.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="numbered"><see cref="NumberedFinding.Of"/> of the same receiver.</param>
    /// <param name="typography">The signs to use.</param>
    /// <param name="words">What before and after are called; the filter's where null.</param>
    public static string Answer(ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, Typography typography, ComparisonWords? words = null)
    {
        words ??= ComparisonWords.Filter;
        string channel = Figures.MegahertzExact(receiver.FrequencyHz) + typography.Space + "MHz";
        StringBuilder says = new();
        List<NumberedFinding> harmful = [.. numbered.Where(static f => f.Now == Verdict.Harmful)];
        List<NumberedFinding> marginal = [.. numbered.Where(static f => f.Now == Verdict.Marginal)];
        int before = receiver.WithoutFilter?.Harmful ?? 0;
        int sunk = numbered.Count(static f => f.Before?.Verdict == Verdict.Harmful && f.Now != Verdict.Harmful);

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
            says.Append(Capital(Figures.CountInWords(harmful.Count))).Append(harmful.Count == 1 ? " mixture lands on " : " mixtures land on ")
                .Append(channel).Append(" over the noise; ");
            if (harmful.Count == 1)
            {
                says.Append("it is ").Append(Over(harmful[0])).Append(typography.Space).Append("dB over it.");
            }
            else
            {
                says.Append(WorstOf(harmful, typography));
            }

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
        string hear = product.Hear.Trim().TrimEnd('.');
        string often = product.OnTogether < 1
            ? $" All its transmitters are on the air together {Figures.Percent(product.OnTogether)} of the time, by the activity given."
            : "";
        return (hear.Length == 0 ? "" : $"{Capital(hear)}.") + often;
    }

    /// <summary>A text with its first letter in upper case.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string Sunk(string channel, int before, int sunk) => (before, sunk) switch
    {
        (1, 1) => $", the one harmful mixture on {channel} sinks under the noise.",
        (2, 2) => $", both harmful mixtures on {channel} sink under the noise.",
        _ when before == sunk => $", all {Figures.CountInWords(before)} harmful mixtures on {channel} sink under the noise.",
        _ => $", {Figures.CountInWords(sunk)} of the {Figures.CountInWords(before)} harmful mixtures on {channel} {(sunk == 1 ? "sinks" : "sink")} under the noise.",
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
        List<string> makers = [.. harmful.Where(static f => f.After!.Mechanism == Mechanism.Transmitter).Select(static f => f.After!.MadeIn).Distinct(StringComparer.Ordinal)];
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

    private static string NothingLands(ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, string channel, Typography typography, ComparisonWords words)
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

    private static void AppendRest(StringBuilder says, ReceiverFindings receiver, IReadOnlyList<NumberedFinding> numbered, List<NumberedFinding> marginal, int harmful)
    {
        if (harmful > 0 && marginal.Count > 0)
        {
            says.Append(marginal.Count == 1 ? " One more is marginal." : $" {Capital(Figures.CountInWords(marginal.Count))} more are marginal.");
        }
        else if (marginal.Count > 0)
        {
            says.Append(marginal.Count == 1 ? " One is marginal." : $" {Capital(Figures.CountInWords(marginal.Count))} are marginal.");
        }

        int unknown = numbered.Count(static f => f.Now == Verdict.Unknown);
        if (unknown > 0)
        {
            says.Append(unknown == 1
                ? " One mixture that can land there has no level: the level of an emitter in it is not known."
                : $" {Capital(Figures.CountInWords(unknown))} mixtures that can land there have no level: the level of an emitter in them is not known.");
        }

        int others = receiver.OtherCauses.Count(static c => c.Verdict == Verdict.Harmful);
        if (others > 0)
        {
            says.Append(others == 1 ? " Another cause, not a mixture, is harmful too: " : $" {Capital(Figures.CountInWords(others))} other causes, not mixtures, are harmful too; the first: ");
            string first = receiver.OtherCauses.First(static c => c.Verdict == Verdict.Harmful).Says.Trim();
            says.Append(first.Length > 1 && char.IsUpper(first[0]) && char.IsLower(first[1]) ? char.ToLowerInvariant(first[0]) + first[1..] : first);
            if (!first.EndsWith('.'))
            {
                says.Append('.');
            }
        }
    }

    private static string Over(NumberedFinding finding) => Figures.BareDb(finding.After!.OverNoiseDb ?? 0);

    private static string Joined(ProductFinding product, Typography typography, Func<Term, string> each)
    {
        StringBuilder text = new();
        foreach (Term t in InReadingOrder(product))
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
