using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Reports.Cures;
using Spurless.Reports.Locating;
using Spurless.Reports.Text;
using Spurless.Sites.Cures;
using Spurless.Sites.Locating;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Writes a study for a terminal: one table per receiver, then what follows from it in a few sentences.</summary>
public static class StudyText
{
    /// <summary>So many mixtures of a receiver are shown; JSON and CSV list all.</summary>
    public const int Shown = 20;

    private const int LeadSentences = 3;

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the whole study.</summary>
    /// <param name="study">The study.</param>
    /// <param name="output">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    /// <param name="located">What the site's evidence says; null where there is none.</param>
    /// <param name="ways">Ways out of this very study; null where none were tried.</param>
    public static void Write(
        StudyResult study, TextWriter output, TextInk ink, LocateAnswer? located = null, ReportedWays? ways = null)
    {
        Paragraph(output, ink, study.Site, TextTone.Strong);
        for (int r = 0; r < study.Receivers.Count; r++)
        {
            output.Write('\n');
            Write(study.Receivers[r], LocateWords.WithEvidence(located, r), ways?.Of(r), ways?.ChosenOf(r), output, ink);
        }

        if (study.KeysNotUsedYet.Count > 0)
        {
            output.Write('\n');
            Paragraph(output, ink, "Read, not used yet: " + string.Join(", ", study.KeysNotUsedYet) + ".", TextTone.Faint);
        }
    }

    private static void Write(
        ReceiverFindings receiver, LocatedReceiver? located, CuredReceiver? ways, int? chosen, TextWriter output, TextInk ink)
    {
        Heading(receiver, output, ink);
        IReadOnlyList<NumberedFinding> findings = NumberedFinding.Of(receiver);
        (string lead, string further) = Parted(StudyWords.Answer(receiver, findings, Signs));
        Paragraph(output, ink, lead, TextTone.Plain);
        List<NumberedFinding> listed = [.. findings.Where(static f => !f.Either.OnCarrierOfItsOwn).OrderBy(static f =>
            f.After?.Impact ?? Impact.NotHeard)];
        if (listed.Count > 0)
        {
            output.Write('\n');
            MixtureTable.Of(receiver, listed.Take(Shown), Signs).WriteTo(output, ink);
        }

        LeftOut(receiver, findings.Count - listed.Count, listed.Count, output, ink);
        if (located is not null)
        {
            Sentences("What the evidence says", LocateWords.OfStudy(located, Signs), output, ink);
        }

        Sentences("What to do, and what to measure", ToDo(receiver), output, ink);
        if (ways is not null)
        {
            CureWriter.WriteSection(ways, chosen, output, ink);
        }

        Sentences("More of it", Further(receiver, further), output, ink);
        Cures(receiver, output, ink);
        WorstAsSum(receiver, output, ink);
        FilterText.Write(receiver, output, ink);
        NotComputed(receiver, output, ink);
        Assumed(receiver, listed, output, ink);
    }

    /// <summary>The receiver and its figures, on one line where they fit.</summary>
    private static void Heading(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        string figures = $"{Figures.MegahertzExact(receiver.FrequencyHz)} MHz, channel {Figures.Kilohertz(receiver.ChannelHz, Signs)} kHz, "
            + $"noise {Figures.Db(receiver.NoiseFloorDbm, Signs)} dBm in {Figures.Kilohertz(receiver.IfBandwidthHz, Signs)} kHz";
        bool fits = TextFlow.WidthOf(receiver.Name) + 2 + figures.Length <= TextFlow.DefaultWidth;
        if (fits)
        {
            Paragraph(output, ink, $"{receiver.Name}, {figures}", TextTone.Strong);
        }
        else
        {
            Paragraph(output, ink, receiver.Name, TextTone.Strong);
            Paragraph(output, ink, figures, TextTone.Strong);
        }

        output.Write('\n');
    }

    /// <summary>The conclusion in three sentences, and what is left of it.</summary>
    internal static (string Lead, string Further) Parted(string answer)
    {
        int at = 0;
        for (int sentences = 0; sentences < LeadSentences; sentences++)
        {
            int next = answer.IndexOf(". ", at, StringComparison.Ordinal);
            if (next < 0)
            {
                return (answer, "");
            }

            at = next + 2;
        }

        return (answer[..(at - 1)], answer[at..]);
    }

    private static void LeftOut(ReceiverFindings receiver, int folded, int listed, TextWriter output, TextInk ink)
    {
        List<string> rest = [];
        if (listed > Shown)
        {
            rest.Add($"{Figures.Count(Shown, Signs)} of {Figures.Count(listed, Signs)} mixtures are shown; --format csv lists them all.");
        }

        if (folded > 0)
        {
            rest.Add(
                $"{Figures.Count(folded, Signs)} more {(folded == 1 ? "lies on a carrier of its" : "lie on a carrier of their")} own "
                    + $"(two emitters on one frequency cancel) and {(folded == 1 ? "is" : "are")} not shown.");
        }

        if (receiver.ProductsLeftOut > 0)
        {
            rest.Add(receiver.ProductsLeftOutForecast
                ? $"--top left out about {LongList.AboutNumber(receiver.ProductsLeftOut)} weaker ones: a forecast, they were not counted."
                : $"--top left out {Figures.Count(receiver.ProductsLeftOut, Signs)} weaker "
                    + (receiver.ProductsLeftOut == 1 ? "one." : "ones."));
        }

        if (rest.Count > 0)
        {
            output.Write('\n');
        }

        foreach (string line in rest)
        {
            Paragraph(output, ink, line, TextTone.Faint);
        }
    }

    private static void Sentences(string heading, IEnumerable<string> sentences, TextWriter output, TextInk ink)
    {
        string[] all = [.. sentences];
        if (all.Length == 0)
        {
            return;
        }

        output.Write('\n');
        Paragraph(output, ink, heading, TextTone.Strong);
        foreach (string sentence in all)
        {
            Paragraph(output, ink, "- " + sentence, TextTone.Plain, hanging: 2);
        }
    }

    private static IEnumerable<string> ToDo(ReceiverFindings receiver)
    {
        if (receiver.Products.FirstOrDefault(static p => p is { Mechanism: Mechanism.Transmitter, Verdict: Verdict.Harmful }) is { } made
            && AdviceWords.AskOwner(made) is { } ask)
        {
            yield return ask;
        }

        if (AdviceWords.AtReceiver(receiver) is { } filter)
        {
            yield return filter;
        }

        if (AdviceWords.MeasureNext(receiver, Signs) is { } next)
        {
            yield return next;
        }
    }

    private static IEnumerable<string> Further(ReceiverFindings receiver, string further)
    {
        if (further.Length > 0)
        {
            yield return further;
        }

        if (receiver.SumOverNoiseDb is { } sum)
        {
            string together = $"{StudyWords.Together(receiver)} {Figures.SignedDb(sum, Signs)} dB over the noise";
            yield return receiver.WithoutFilter?.SumOverNoiseDb is { } before
                ? $"{together}; without the filter {Figures.SignedDb(before, Signs)} dB. The filter "
                    + $"costs the wanted signal {Cost(receiver)} dB."
                : $"{together}.";
        }
        else if (receiver.WithoutFilter?.SumOverNoiseDb is { } before)
        {
            yield return $"Without the filter all mixtures together stand {Figures.SignedDb(before, Signs)} dB over the noise. "
                + $"It costs the wanted signal {Cost(receiver)} dB.";
        }

        yield return SensitivityWords.Of(receiver, Signs);
        if (receiver.Products.FirstOrDefault(static p => p.Verdict is Verdict.Harmful or Verdict.Marginal) is { } worst)
        {
            yield return "Of the worst you would hear " + HeardWords.Of(worst) + ".";
        }

        if (CureText.OwnTransmitterOff(receiver) is { } off)
        {
            yield return off;
        }

        foreach (string limit in LimitWords.Of(receiver, Signs))
        {
            yield return limit;
        }
    }

    private static void WorstAsSum(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        ProductFinding? worst = receiver.Products.FirstOrDefault(
            static p => !p.OnCarrierOfItsOwn && p.Verdict is Verdict.Harmful or Verdict.Marginal);
        if (worst is null || ProductArithmetic.Of(receiver, worst) is not { Count: > 0 } lines)
        {
            return;
        }

        TextTable table = new(
            new TextColumn("the worst, part by part", TextSide.Left, Wraps: true), new TextColumn("dB, dBm", TextSide.Right));
        foreach (SumLine line in PrintedSum.Of(lines))
        {
            bool part = line.Kind == SumLineKind.Part;
            table.Add(
                new TextCell((part ? "  " : "") + SumWords.What(line), part ? TextTone.Faint : TextTone.Plain),
                line.Kind == SumLineKind.Result ? Figures.SignedDb(line.Value, Signs) : Figures.Db(line.Value, Signs));
        }

        output.Write('\n');
        table.WriteTo(output, ink);
    }

    private static string Cost(ReceiverFindings receiver) => Figures.Db(receiver.WantedLossDb ?? 0, Signs);

    private static void Cures(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        foreach ((string heading, IReadOnlyList<(Verdict Verdict, string Does, string Says)> lines) in CureText.Groups(receiver))
        {
            output.Write('\n');
            Paragraph(output, ink, heading, TextTone.Strong);
            foreach ((Verdict verdict, string does, string says) in lines)
            {
                Paragraph(output, ink, $"{does}: {says}", MixtureTable.Tone(verdict), indent: 2, hanging: 2);
            }
        }
    }

    private static void NotComputed(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        IReadOnlyList<string> missing = GapWords.Of(receiver);
        if (missing.Count == 0)
        {
            return;
        }

        output.Write('\n');
        Paragraph(output, ink, "Not known, and what would tell", TextTone.Strong);
        foreach (string line in missing)
        {
            Paragraph(output, ink, "- " + line, TextTone.Faint, hanging: 2);
        }
    }

    /// <summary>So many carriers are named with what is assumed of all of them.</summary>
    private const int NamedTogether = 5;

    private static void Assumed(ReceiverFindings receiver, List<NumberedFinding> findings, TextWriter output, TextInk ink)
    {
        // What holds for many carriers is told once, with their names.
        List<IGrouping<string, string>> ofCarriers =
        [
            .. receiver.Carriers.SelectMany(static c => LevelNoteWords.Of(c.Assumed).Distinct().Select(a => (c.Emitter, a)))
                .GroupBy(static p => p.a, static p => p.Emitter, StringComparer.Ordinal),
        ];
        List<string> assumed =
        [
            .. receiver.Assumed.Select(ReceiverAssumptionWords.Of)
                .Concat(ofCarriers.Select(static g => $"{NameList.Of([.. g], NamedTogether)}: {g.Key}"))
                .Concat(findings.Take(Shown).SelectMany(static f => f.Either.Assumed)
                    .Select(a => AssumptionWords.Of(a) + (a.Kind == AssumptionKind.NextDegree ? Untrusted(findings) : "")))
                .Concat(AssumptionWords.Of(receiver.OtherCauses.Where(static c => !c.OnlyUsual).SelectMany(static c => c.Assumed))
                    .Except(ofCarriers.Select(static g => g.Key), StringComparer.Ordinal))
                .Distinct(StringComparer.Ordinal),
        ];
        if (assumed.Count == 0)
        {
            return;
        }

        output.Write('\n');
        Paragraph(output, ink, "Assumed", TextTone.Strong);
        foreach (string line in assumed)
        {
            Paragraph(output, ink, "- " + line, TextTone.Faint, hanging: 2);
        }
    }

    /// <summary>How many of the mixtures shown that holds for, and up to how many dB.</summary>
    private static string Untrusted(List<NumberedFinding> findings)
    {
        double[] errors =
        [
            .. findings
                .Take(Shown)
                .Where(static f => f.Either.Assumed.Any(static a => a.Kind == AssumptionKind.NextDegree))
                .Select(static f => f.Either.NextDegreeErrorDb ?? 0),
        ];
        return $" ({(errors.Length == 1 ? "one mixture" : $"{errors.Length} of the mixtures")}, "
            + $"by up to {Figures.BareDb(errors.Max())} dB)";
    }

    private static void Paragraph(TextWriter output, TextInk ink, string text, TextTone tone, int indent = 0, int hanging = 0)
    {
        foreach (string line in TextFlow.Wrap(TextFlow.Printable(text), TextFlow.DefaultWidth, indent, hanging))
        {
            output.Write(ink.Apply(line, tone));
            output.Write('\n');
        }
    }
}
