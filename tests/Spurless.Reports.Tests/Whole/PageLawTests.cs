using System.Collections.Concurrent;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Spurless.Reports.Tests.Text;

namespace Spurless.Reports.Tests.Whole;

/// <summary>
/// What every report keeps to as a document: nothing of the outside, nothing that runs, every picture with its name and words, every table
/// square, every name as text.
/// </summary>
public sealed partial class PageLawTests
{
    private static readonly ConcurrentDictionary<string, IHtmlDocument> _pages = new();

    public static TheoryData<string> Answers => [.. Answered.Pages.Keys];

    [Theory]
    [MemberData(nameof(Answers))]
    public void Asks_nothing_of_the_outside_and_runs_nothing(string answer)
    {
        IHtmlDocument page = Page(answer);
        Assert.Empty(page.QuerySelectorAll("script, iframe, object, embed, form, base, audio, video"));
        foreach (IElement element in page.All)
        {
            Assert.DoesNotContain(element.Attributes, static a => a.Name.StartsWith("on", StringComparison.OrdinalIgnoreCase)
                || a.Name == "style");
            foreach (string name in (string[])["href", "src", "xlink:href", "action", "data"])
            {
                string? to = element.GetAttribute(name);
                Assert.True(
                    to is null || to.StartsWith('#') || to.StartsWith("data:", StringComparison.Ordinal), $"{element.LocalName}: {to}");
            }
        }

        string policy = page.QuerySelector("meta[http-equiv='Content-Security-Policy']")!.GetAttribute("content")!;
        Assert.StartsWith("default-src 'none';", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Names_of_its_parts_are_its_own_and_what_points_to_them_finds_them(string answer)
    {
        IHtmlDocument page = Page(answer);
        string[] ids = [.. page.All.Select(static e => e.Id).OfType<string>().Where(static i => i.Length > 0)];
        Assert.Equal(ids.Length, ids.Distinct().Count());
        foreach (IElement element in page.All)
        {
            foreach (string attribute in (string[])["aria-labelledby", "aria-describedby", "for", "headers"])
            {
                Assert.All(
                    element.GetAttribute(attribute)?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [], i => Assert.Contains(i, ids));
            }

            if (element.GetAttribute("href") is ['#', .. var target] && target.Length > 0)
            {
                Assert.Contains(target, ids);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Pictures_have_a_name_and_words_and_no_broken_figure(string answer)
    {
        foreach (IElement svg in Page(answer).QuerySelectorAll("svg"))
        {
            bool hidden = svg.GetAttribute("aria-hidden") == "true" || svg.Closest("[aria-hidden=true]") is not null;
            if (!hidden)
            {
                string name = svg.GetAttribute("aria-label") ?? svg.QuerySelector("title")?.TextContent ?? "";
                Assert.True(name.Trim().Length > 0, svg.OuterHtml[..200]);
            }

            foreach (IAttr attribute in svg.QuerySelectorAll("*").SelectMany(static e => e.Attributes))
            {
                Assert.DoesNotContain("NaN", attribute.Value, StringComparison.Ordinal);
                Assert.DoesNotContain("Infinity", attribute.Value, StringComparison.Ordinal);
                Assert.False(attribute.Name is "fill" or "stroke" && Colour().IsMatch(attribute.Value), "a colour that no theme knows");
            }
        }

        Assert.All(Page(answer).QuerySelectorAll("img"), static i => Assert.True(i.HasAttribute("alt")));
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Tables_are_square_and_their_heads_say_what_they_head(string answer)
    {
        foreach (IElement table in Page(answer).QuerySelectorAll("table"))
        {
            int[] widths =
            [
                .. table.QuerySelectorAll("tr").Select(static r => r.Children.Sum(static c => c is IHtmlTableCellElement cell
                    ? cell.ColumnSpan : 0)),
            ];
            Assert.True(widths.Distinct().Count() <= 1 || table.QuerySelector("[rowspan]") is not null, string.Join(' ', widths));
            Assert.All(table.QuerySelectorAll("thead th"), static h => Assert.True(h.HasAttribute("scope"), h.OuterHtml));
        }
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Text_has_no_broken_figure_and_headings_go_down_one_step_at_a_time(string answer)
    {
        IHtmlDocument page = Page(answer);
        foreach (IElement element in page.Body!.QuerySelectorAll("p, td, th, li, dd, dt, figcaption, text, title, desc, h1, h2, h3, h4"))
        {
            // The open point of a Smith chart is called so; no figure of a table or a sentence is.
            if (element is not { LocalName: "text", TextContent: "\u221E" })
            {
                WrittenText.Figures(element.TextContent);
            }
        }

        int last = 0;
        foreach (IElement heading in page.QuerySelectorAll("h1, h2, h3, h4, h5, h6"))
        {
            Assert.InRange(heading.LocalName[1] - '0', 1, last + 1);
            last = heading.LocalName[1] - '0';
            Assert.NotEqual("", heading.TextContent.Trim());
        }

        Assert.Single(page.QuerySelectorAll("h1"));
        Assert.Equal("en", page.DocumentElement.GetAttribute("lang"));
        Assert.NotEqual("", page.Title);
        Assert.Contains("0.1.0", page.Body.TextContent, StringComparison.Ordinal);
    }

    /// <summary>A name with an element in it stands there as text.</summary>
    [Theory]
    [InlineData("study")]
    [InlineData("cure")]
    [InlineData("locate")]
    [InlineData("newcomer")]
    [InlineData("stress")]
    [InlineData("tolerance")]
    [InlineData("response")]
    public void Names_stand_there_as_text(string answer)
    {
        IHtmlDocument page = Page(answer);
        Assert.DoesNotContain(page.QuerySelectorAll("b"), static b => b.TextContent == "base");
        Assert.Contains(Answered.Element, page.Body!.TextContent, StringComparison.Ordinal);
    }

    private static IHtmlDocument Page(string answer) => _pages.GetOrAdd(
        answer, static a => new HtmlParser().ParseDocument(Answered.PageOf(a).GetAwaiter().GetResult()));

    [GeneratedRegex("#[0-9a-fA-F]{3,8}|rgb|hsl")]
    private static partial Regex Colour();
}
