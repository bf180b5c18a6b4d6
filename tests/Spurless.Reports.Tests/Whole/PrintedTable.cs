using System.Globalization;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;

namespace Spurless.Reports.Tests.Whole;

/// <summary>A table as a reader sees it, taken apart again: of a page by its elements, of a text by the rule under its head.</summary>
/// <param name="Heads">Its heads, lines joined by a blank.</param>
/// <param name="Rows">Its rows.</param>
internal sealed partial record PrintedTable(IReadOnlyList<string> Heads, IReadOnlyList<string[]> Rows)
{
    /// <summary>Every table of a page that has a head.</summary>
    public static IReadOnlyList<PrintedTable> OfPage(string html) =>
    [
        .. new HtmlParser().ParseDocument(html).QuerySelectorAll("table").Where(static t => t.QuerySelector("thead") is not null).Select(
            static table => new PrintedTable(
                [.. table.QuerySelectorAll("thead th").Select(Said)],
                [.. table.QuerySelectorAll("tbody tr").Select(static r => r.Children.Select(Said).ToArray())])),
    ];

    /// <summary>Every table of a text: a line of rules two blanks apart, heads above it, rows below until the width is left.</summary>
    public static IReadOnlyList<PrintedTable> OfText(string text)
    {
        string[] lines = text.Split('\n');
        List<PrintedTable> tables = [];
        for (int i = 1; i < lines.Length; i++)
        {
            if (!Rule().IsMatch(lines[i]))
            {
                continue;
            }

            (int From, int To)[] columns = [.. Dashes().Matches(lines[i]).Select(static m => (m.Index, m.Index + m.Length))];
            int top = i;
            while (top > 0 && lines[top - 1].Trim().Length > 0)
            {
                top--;
            }

            string[] heads = [.. columns.Select(c => string.Join(' ', lines[top..i].Select(l => Cut(l, c)).Where(static h =>
                h.Length > 0)))];
            List<string[]> rows = [];
            for (int r = i + 1; r < lines.Length && lines[r].Trim().Length > 0 && Fits(lines[r], columns); r++)
            {
                rows.Add([.. columns.Select(c => Cut(lines[r], c))]);
            }

            tables.Add(new PrintedTable(heads, rows));
        }

        return tables;
    }

    /// <summary>Place of the column with this head.</summary>
    public int Column(string head)
    {
        int at = Heads.ToList().IndexOf(head);
        Assert.True(at >= 0, $"no column '{head}' among {string.Join(" | ", Heads)}");
        return at;
    }

    /// <summary>
    /// A cell's figure and how much its last digit is worth; null where it has none. Signs of print are those of every keyboard here.
    /// </summary>
    public static (double Value, double LastDigit)? Figure(string cell)
    {
        Match figure = Number().Match(cell.Replace('\u2212', '-').Replace("\u202F", "", StringComparison.Ordinal));
        if (!figure.Success)
        {
            return null;
        }

        int decimals = figure.Value.Contains('.', StringComparison.Ordinal)
            ? figure.Value.Length - figure.Value.IndexOf('.', StringComparison.Ordinal) - 1 : 0;
        return (double.Parse(figure.Value, CultureInfo.InvariantCulture), Math.Pow(10, -decimals));
    }

    // A sentence under a table has letters where a row has the blanks between its columns.
    private static bool Fits(string line, (int From, int To)[] columns) => columns.Length < 3
        || columns[1..].All(c => c.From > line.Length || line[(c.From - 2)..c.From].All(static b => b == ' '));

    private static string Cut(string line, (int From, int To) at) =>
        at.From >= line.Length ? "" : line[at.From..Math.Min(line.Length, at.To)].Trim();

    private static string Said(IElement element) => Blanks().Replace(element.InnerHtml.Contains("<br", StringComparison.Ordinal)
        ? string.Join(' ', element.ChildNodes.Select(static n => n.TextContent.Trim()))
        : element.TextContent, " ").Trim();

    [GeneratedRegex("^ *-+(  -+)*$")]
    private static partial Regex Rule();

    [GeneratedRegex("-+")]
    private static partial Regex Dashes();

    [GeneratedRegex(@"[+-]?\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();
}
