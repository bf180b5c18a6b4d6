using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Writes what differs between two studies for a terminal.</summary>
public static class ComparisonText
{
    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the whole comparison.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="output">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void Write(StudyComparison comparison, TextWriter output, TextInk ink)
    {
        Line(output, ink, $"{comparison.Now.Site} against {comparison.Before.Site}", TextTone.Strong);
        foreach (ReceiverComparison receiver in comparison.Receivers)
        {
            output.Write('\n');
            Line(output, ink, receiver.Name, TextTone.Strong);
            Line(output, ink, Summary(receiver), TextTone.Plain);
            if (receiver.Appeared.Count + receiver.Went.Count + receiver.Changed.Count == 0)
            {
                continue;
            }

            TextTable table = new(
                new TextColumn("what"),
                new TextColumn("was\ndB", TextSide.Right),
                new TextColumn("is\ndB", TextSide.Right),
                new TextColumn("order", TextSide.Right),
                new TextColumn("mixture, MHz (dB over noise)", TextSide.Left, Wraps: true));
            Add(table, "appeared", receiver.Appeared.Select(static p => ((ProductFinding?)null, (ProductFinding?)p)));
            Add(table, "went", receiver.Went.Select(static p => ((ProductFinding?)p, (ProductFinding?)null)));
            Add(table, "changed", receiver.Changed.Select(static c => ((ProductFinding?)c.Before, (ProductFinding?)c.Now)));
            output.Write('\n');
            table.WriteTo(output, ink);
        }
    }

    private static string Summary(ReceiverComparison receiver)
    {
        if (receiver.Before is null)
        {
            return "This receiver is new.";
        }

        if (receiver.Now is null)
        {
            return "This receiver went.";
        }

        return string.Create(
            CultureInfo.InvariantCulture,
            $"{receiver.Appeared.Count} appeared, {receiver.Went.Count} went, {receiver.Changed.Count} changed, "
                + $"{receiver.Unchanged} {(receiver.Unchanged == 1 ? "is" : "are")} the same; ") +
            string.Create(
                CultureInfo.InvariantCulture,
                $"harmful {receiver.Before.Harmful} -> {receiver.Now.Harmful}, "
                    + $"marginal {receiver.Before.Marginal} -> {receiver.Now.Marginal}.");
    }

    private static void Add(TextTable table, string what, IEnumerable<(ProductFinding? Was, ProductFinding? Is)> rows)
    {
        List<(ProductFinding? Was, ProductFinding? Is)> all = [.. rows];
        foreach ((ProductFinding? was, ProductFinding? now) in all.Take(StudyText.Shown))
        {
            ProductFinding product = (now ?? was)!;
            table.Add(what, Over(was), Over(now), product.Order.ToString(CultureInfo.InvariantCulture), StudyWords.Mixture(product, Signs));
            table.Note(StudyWords.Names(product, Signs), TextTone.Faint);
        }

        if (all.Count > StudyText.Shown)
        {
            table.Note($"and {Figures.Count(all.Count - StudyText.Shown, Signs)} more {what}; --format json lists them all");
        }
    }

    private static string Over(ProductFinding? product) => product switch
    {
        null => "-",
        { OverNoiseDb: { } over } => Figures.SignedDb(over, Signs),
        _ => "unknown",
    };

    private static void Line(TextWriter output, TextInk ink, string text, TextTone tone)
    {
        foreach (string line in TextFlow.Wrap(TextFlow.Printable(text)))
        {
            output.Write(ink.Apply(line, tone));
            output.Write('\n');
        }
    }
}
