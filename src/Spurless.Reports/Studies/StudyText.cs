using System.Globalization;
using Spurless.Reports.Text;
using Spurless.Reports.Words;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Writes a study for a terminal: one table per receiver, then what follows from it in a few sentences.</summary>
public static class StudyText
{
    /// <summary>So many mixtures of a receiver are shown; JSON and CSV list all.</summary>
    public const int Shown = 20;

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the whole study.</summary>
    /// <param name="study">The study.</param>
    /// <param name="output">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void Write(StudyResult study, TextWriter output, TextInk ink)
    {
        Paragraph(output, ink, study.Site, TextTone.Strong);
        foreach (ReceiverFindings receiver in study.Receivers)
        {
            output.Write('\n');
            Write(receiver, output, ink);
        }

        if (study.KeysNotUsedYet.Count > 0)
        {
            output.Write('\n');
            Paragraph(output, ink, "Read, not used yet: " + string.Join(", ", study.KeysNotUsedYet) + ".", TextTone.Faint);
        }
    }

    private static void Write(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        Paragraph(
            output,
            ink,
            $"{receiver.Name}, {Figures.MegahertzExact(receiver.FrequencyHz)} MHz, channel {Figures.Kilohertz(receiver.ChannelHz, Signs)} kHz, " +
            $"noise floor {Figures.Db(receiver.NoiseFloorDbm, Signs)} dBm in {Figures.Kilohertz(receiver.IfBandwidthHz, Signs)} kHz",
            TextTone.Strong);
        IReadOnlyList<NumberedFinding> findings = NumberedFinding.Of(receiver);
        List<NumberedFinding> listed = [.. findings.Where(static f => !f.Either.OnCarrierOfItsOwn)];
        if (listed.Count > 0)
        {
            output.Write('\n');
            Table(receiver, listed).WriteTo(output, ink);
            output.Write('\n');
        }

        int folded = findings.Count - listed.Count;
        List<string> rest = [];
        if (listed.Count > Shown)
        {
            rest.Add($"{Figures.Count(Shown, Signs)} of {Figures.Count(listed.Count, Signs)} mixtures are shown; --format csv lists them all.");
        }

        if (folded > 0)
        {
            rest.Add($"{Figures.Count(folded, Signs)} more lie on a carrier of their own (two emitters on one frequency cancel) and are not shown.");
        }

        if (receiver.ProductsLeftOut > 0)
        {
            rest.Add(receiver.ProductsLeftOutForecast
                ? $"--top left out about {LongList.AboutNumber(receiver.ProductsLeftOut)} weaker ones: a forecast, they were not counted."
                : $"--top left out {Figures.Count(receiver.ProductsLeftOut, Signs)} weaker ones.");
        }

        foreach (string line in rest)
        {
            Paragraph(output, ink, line, TextTone.Faint);
        }

        Cures(receiver, output, ink);
        output.Write('\n');
        foreach (string sentence in Conclusion(receiver, findings))
        {
            Paragraph(output, ink, sentence, TextTone.Plain);
        }

        WorstAsSum(receiver, output, ink);
        FilterText.Write(receiver, output, ink);
        NotComputed(receiver, output, ink);
        Assumed(receiver, listed, output, ink);
    }

    private static TextTable Table(ReceiverFindings receiver, List<NumberedFinding> findings)
    {
        bool both = receiver.WithoutFilter is not null;
        TextTable table = both
            ? new TextTable(
                new TextColumn("verdict"),
                new TextColumn("without\ndB", TextSide.Right),
                new TextColumn("with\ndB", TextSide.Right),
                new TextColumn("order", TextSide.Right),
                new TextColumn(both ? "mixture, MHz (dB over noise, without the filter and with it)" : "", TextSide.Left, Wraps: true))
            : new TextTable(
                new TextColumn("verdict"),
                new TextColumn("level\ndBm", TextSide.Right),
                new TextColumn("over\nnoise", TextSide.Right),
                new TextColumn("order", TextSide.Right),
                new TextColumn("mixture, MHz", TextSide.Left, Wraps: true));
        foreach (NumberedFinding finding in findings.Take(Shown))
        {
            ProductFinding product = finding.Either;
            TextCell verdict = new(StudyWords.Word(finding.Now), Tone(finding.Now));
            string order = product.Order.ToString(CultureInfo.InvariantCulture);
            string mixture = StudyWords.Mixture(product, Signs);
            if (both)
            {
                table.Add(verdict, Over(finding.Before), finding.After is null ? "under" : Over(finding.After), order, mixture);
            }
            else
            {
                table.Add(
                    verdict,
                    product.InChannelLevelDbm is { } level ? Figures.Db(level, Signs) : "",
                    Over(product),
                    order,
                    mixture);
            }

            table.Note(Who(receiver, product), TextTone.Faint);
        }

        return table;
    }

    private static string Over(ProductFinding? product) => product?.OverNoiseDb is { } over ? Figures.SignedDb(over, Signs) : "";

    private static string Who(ReceiverFindings receiver, ProductFinding product)
    {
        string who = StudyWords.Names(product, Signs);
        if (product.MadeIn != receiver.Name || product.Mechanism != Mechanism.Receiver)
        {
            who += ", made " + StudyWords.MadeWhere(product, receiver.Name);
            who += product.Mechanism == Mechanism.Transmitter ? "; no filter at your receiver removes it" : "";
        }

        return product.KeepsItselfUp ? who + "; keeps itself up" : who;
    }

    private static IEnumerable<string> Conclusion(ReceiverFindings receiver, IReadOnlyList<NumberedFinding> findings)
    {
        yield return StudyWords.Answer(receiver, findings, Signs);
        if (receiver.SumOverNoiseDb is { } sum)
        {
            string together = $"All mixtures together stand {Figures.SignedDb(sum, Signs)} dB over the noise";
            yield return receiver.WithoutFilter?.SumOverNoiseDb is { } before
                ? $"{together}; without the filter {Figures.SignedDb(before, Signs)} dB. The filter costs the wanted signal {Cost(receiver)} dB."
                : $"{together}.";
        }
        else if (receiver.WithoutFilter?.SumOverNoiseDb is { } before)
        {
            yield return $"Without the filter all mixtures together stand {Figures.SignedDb(before, Signs)} dB over the noise. " +
                $"It costs the wanted signal {Cost(receiver)} dB.";
        }

        ProductFinding? worst = receiver.Products.FirstOrDefault(static p => p.Verdict is Verdict.Harmful or Verdict.Marginal);
        if (worst is not null)
        {
            yield return "Of the worst you would hear " + worst.Hear.TrimEnd('.') + ".";
        }

        if (CureText.OwnTransmitterOff(receiver) is { } off)
        {
            yield return off;
        }

        if (worst is not null && NextMeasurement.AskOwner(worst) is { } ask)
        {
            yield return ask;
        }

        if (NextMeasurement.Of(receiver) is { } next)
        {
            yield return next;
        }
    }

    private static void WorstAsSum(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        ProductFinding? worst = receiver.Products.FirstOrDefault(static p => !p.OnCarrierOfItsOwn && p.Verdict is Verdict.Harmful or Verdict.Marginal);
        if (worst is null || ProductArithmetic.Of(receiver, worst) is not { Count: > 0 } lines)
        {
            return;
        }

        TextTable table = new(new TextColumn("the worst, part by part", TextSide.Left, Wraps: true), new TextColumn("dB, dBm", TextSide.Right));
        foreach (SumLine line in PrintedSum.Of(lines))
        {
            bool part = line.Kind == SumLineKind.Part;
            table.Add(
                new TextCell((part ? "  " : "") + line.What, part ? TextTone.Faint : TextTone.Plain),
                line.Kind == SumLineKind.Result ? Figures.SignedDb(line.Value, Signs) : Figures.Db(line.Value, Signs));
        }

        output.Write('\n');
        table.WriteTo(output, ink);
    }

    private static string Cost(ReceiverFindings receiver) => Figures.Db(receiver.WantedLossDb ?? 0, Signs);

    private static void Cures(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        foreach ((string heading, IReadOnlyList<(Verdict Verdict, string Says)> lines) in CureText.Groups(receiver))
        {
            output.Write('\n');
            Paragraph(output, ink, heading, TextTone.Strong);
            foreach ((Verdict verdict, string says) in lines)
            {
                Paragraph(output, ink, $"{StudyWords.Word(verdict)}: {says}", Tone(verdict), indent: 2, hanging: 2);
            }
        }
    }

    private static void NotComputed(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        string[] missing =
        [
            .. receiver.NotComputed
                .Concat(receiver.OtherCauses.SelectMany(static c => c.Missing))
                .Distinct(StringComparer.Ordinal),
        ];
        if (missing.Length == 0)
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

    private static void Assumed(ReceiverFindings receiver, List<NumberedFinding> findings, TextWriter output, TextInk ink)
    {
        List<string> assumed =
        [
            .. receiver.Assumed
                .Concat(receiver.Carriers.SelectMany(static c => c.Assumed.Select(a => c.Emitter + ": " + a)))
                .Concat(findings.Take(Shown).SelectMany(static f => f.Either.Assumed))
                .Select(a => a == ProductFinding.NotTrustworthy ? a + Untrusted(findings) : a)
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
        double[] errors = [.. findings.Take(Shown).Where(static f => f.Either.Assumed.Contains(ProductFinding.NotTrustworthy)).Select(static f => f.Either.NextDegreeErrorDb ?? 0)];
        return $" ({(errors.Length == 1 ? "one mixture" : $"{errors.Length} of the mixtures")}, by up to {Figures.BareDb(errors.Max())} dB)";
    }

    private static TextTone Tone(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => TextTone.Harmful,
        Verdict.Marginal => TextTone.Marginal,
        Verdict.Clear => TextTone.Clear,
        _ => TextTone.Plain,
    };

    private static void Paragraph(TextWriter output, TextInk ink, string text, TextTone tone, int indent = 0, int hanging = 0)
    {
        foreach (string line in TextFlow.Wrap(TextFlow.Printable(text), TextFlow.DefaultWidth, indent, hanging))
        {
            output.Write(ink.Apply(line, tone));
            output.Write('\n');
        }
    }
}
