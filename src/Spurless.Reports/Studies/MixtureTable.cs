using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>
/// The mixtures of a receiver as a table for a terminal: what each does, how strong it is and how sure that is, its arithmetic, and who.
/// </summary>
internal static class MixtureTable
{
    /// <summary>The table.</summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="findings">What is listed, in the order of the rows.</param>
    /// <param name="signs">The signs to use.</param>
    public static TextTable Of(ReceiverFindings receiver, IEnumerable<NumberedFinding> findings, Typography signs)
    {
        bool both = receiver.WithoutFilter is not null;
        TextColumn[] over = both
            ? [new TextColumn("without\ndB", TextSide.Right), new TextColumn("with\ndB", TextSide.Right)]
            : [new TextColumn("over\nnoise", TextSide.Right)];
        TextTable table = new(
        [
            new TextColumn("what it does"),
            .. over,
            new TextColumn("+-\ndB", TextSide.Right),
            new TextColumn("order", TextSide.Right),
            new TextColumn(both ? "mixture, MHz (over noise)" : "mixture, MHz", TextSide.Left, Wraps: true),
        ]);
        foreach (NumberedFinding finding in findings)
        {
            ProductFinding product = finding.Either;
            TextCell[] levels = both
                ? [Over(finding.Before, signs), finding.After is null ? "under" : Over(finding.After, signs)]
                : [Over(product, signs)];
            table.Add(
            [
                new TextCell(ImpactWords.Of(finding.After), Tone(finding.Now)),
                .. levels,
                product.SigmaDb is { } sigma ? Figures.BareDb(sigma) : "",
                product.Order.ToString(CultureInfo.InvariantCulture),
                StudyWords.Arithmetic(product, signs),
            ]);
            table.Note(Who(receiver, finding, signs), TextTone.Faint);
        }

        return table;
    }

    /// <summary>How a verdict is coloured.</summary>
    public static TextTone Tone(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => TextTone.Harmful,
        Verdict.Marginal => TextTone.Marginal,
        Verdict.Clear => TextTone.Clear,
        _ => TextTone.Plain,
    };

    private static string Over(ProductFinding? product, Typography signs) =>
        product?.OverNoiseDb is { } over ? Figures.SignedDb(over, signs) : "";

    private static string Who(ReceiverFindings receiver, NumberedFinding finding, Typography signs)
    {
        ProductFinding product = finding.Either;
        string who = StudyWords.Names(product, signs);
        if (product.OffsetHz != 0)
        {
            who += $", {Figures.OffsetKilohertz(product.OffsetHz, signs)} kHz off the channel";
        }

        if (product.MadeIn != receiver.Name || product.Mechanism != Mechanism.Receiver)
        {
            who += ", made " + StudyWords.MadeWhere(product, receiver.Name);
        }

        string often = finding.After is { } after ? ImpactWords.Often(after) : "";
        return who + (often.Length == 0 ? "" : "; " + often) + RowWords.Trust(product) + (product.KeepsItselfUp ? "; keeps itself up" : "");
    }
}
