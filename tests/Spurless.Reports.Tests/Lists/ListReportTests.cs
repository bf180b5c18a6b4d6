using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using CsCheck;
using Spurless.Reports.Html;
using Spurless.Reports.Lists;
using Spurless.Reports.Tests.Whole;

namespace Spurless.Reports.Tests.Lists;

/// <summary>Any list as a page: every cell as text in its column, heads that go with it on a narrow screen, empty parts left out.</summary>
public sealed class ListReportTests
{
    private static readonly Gen<string> _text = Gen.OneOf<string>(
        Gen.String[Gen.Char[' ', '~'], 1, 20], Gen.OneOf("<script>alert(1)</script>", "</style><b>x", "a & b", "\" onload=\"x", "=1+1"));

    private static readonly Gen<ListTable> _table =
        from heads in _text.Array[1, 5]
        from numbers in Gen.Bool.Array[heads.Length]
        from cells in _text.Array[heads.Length].Array[0, 5]
        from title in _text
        from note in _text.Null(0.5)
        select new ListTable(title, [.. heads.Zip(numbers, static (h, n) => new ListColumn(h, n))], cells, note);

    private static readonly Gen<ListView> _view =
        from tables in _table.Array[0, 3]
        from notes in Gen.Select(_text, _text.Array[0, 3], static (t, s) => new ListNotes(t, s)).Array[0, 3]
        from words in _text.Array[4]
        select new ListView { Kind = words[0], Title = words[1], Lead = words[2], Method = words[3], Tables = tables, Notes = notes };

    [Fact]
    public void Render_of_any_list_holds_every_cell_as_text_under_its_head() => _view.Sample(
        static view =>
        {
            IHtmlDocument page = Page(view);
            IElement[] tables = [.. page.QuerySelectorAll("table.listed")];
            Assert.Equal(view.Tables.Count, tables.Length);
            foreach ((ListTable table, IElement shown) in view.Tables.Zip(tables))
            {
                Assert.Equal(
                    table.Columns.Select(static c => Blank(c.Head)),
                    shown.QuerySelectorAll("thead th").Select(static h => Blank(h.TextContent)));
                IElement[] rows = [.. shown.QuerySelectorAll("tbody tr")];
                Assert.Equal(table.Rows.Count, rows.Length);
                foreach ((IReadOnlyList<string> row, IElement tr) in table.Rows.Zip(rows))
                {
                    Assert.Equal(row.Select(Blank), tr.Children.Select(static c => Blank(c.TextContent)));
                    Assert.Equal(table.Columns.Select(static c => c.Head), tr.Children.Select(static c => c.GetAttribute("data-head")));
                    Assert.Equal(
                        table.Columns.Select(static c => c.IsNumber), tr.Children.Select(static c => c.ClassList.Contains("num")));
                }
            }

            Assert.Empty(page.QuerySelectorAll("script"));
            Assert.Equal(Blank(view.Lead), Blank(page.QuerySelector("p.lead")!.TextContent));
        },
        iter: 60);

    [Fact]
    public void Render_leaves_out_notes_without_a_sentence() => _view.Sample(
        static view =>
        {
            string[] heads = [.. Page(view).QuerySelectorAll("h2.part").Select(static h => Blank(h.TextContent))];
            foreach (ListNotes notes in view.Notes.Where(static n => n.Sentences.Count > 0))
            {
                Assert.Contains(Blank(notes.Title), heads);
            }

            // The tables, the notes that say something, the cautions and what it rests on.
            Assert.Equal(view.Tables.Count + view.Notes.Count(static n => n.Sentences.Count > 0) + 2, heads.Length);
        },
        iter: 40);

    /// <summary>The policy allows the very style sheet and nothing else, whatever name stands at the foot of a printed sheet.</summary>
    [Fact]
    public void Styles_of_any_foot_cannot_be_left_and_have_the_hash_of_the_policy() => _text.Sample(static foot =>
    {
        string styles = PageRenderer.Styles(foot);
        Assert.DoesNotContain("</", styles, StringComparison.Ordinal);
        string css = PageRenderer.CssString(foot);
        Assert.Matches("^\"[^\"<>\\n]*\"$", css);

        // Read back by the rule of CSS (Syntax Level 3, 4.3.7: up to six hexadecimal digits): what it says is the name.
        Assert.Equal(foot, System.Text.RegularExpressions.Regex.Replace(css[1..^1], @"\\([0-9a-f]{6})", static m =>
            char.ConvertFromUtf32(Convert.ToInt32(m.Groups[1].Value, 16))));
        string hash = Convert.ToBase64String(
            System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(styles)));
        Assert.Contains($"'sha256-{hash}'", PageRenderer.Policy(styles), StringComparison.Ordinal);
    });

    private static IHtmlDocument Page(ListView view) =>
        new HtmlParser().ParseDocument(ListReport.RenderAsync(view, Answered.Context).GetAwaiter().GetResult());

    private static string Blank(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
