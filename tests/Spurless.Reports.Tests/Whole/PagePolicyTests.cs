using System.Security.Cryptography;
using System.Text;
using AngleSharp.Html.Parser;
using CsCheck;
using Spurless.Reports.Html;

namespace Spurless.Reports.Tests.Whole;

/// <summary>The policy of every page lets its own style sheet through and nothing else, whatever stands in a name.</summary>
public sealed class PagePolicyTests
{
    public static TheoryData<string> Answers => [.. Answered.Pages.Keys];

    // Content Security Policy, level 3, 6.7.2.3: the hash is of the text of the element, as it stands between its tags.
    [Theory]
    [MemberData(nameof(Answers))]
    public async Task Hash_in_the_policy_is_that_of_the_style_element(string answer)
    {
        string page = await Answered.PageOf(answer);
        int from = page.IndexOf("<style>", StringComparison.Ordinal) + 7, to = page.IndexOf("</style>", StringComparison.Ordinal);
        string hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(page[from..to])));
        string policy = new HtmlParser().ParseDocument(page).QuerySelector("meta[http-equiv='Content-Security-Policy']")!
            .GetAttribute("content")!;
        Assert.Equal([$"'sha256-{hash}'"], policy.Split("; ").Single(static p => p.StartsWith("style-src ", StringComparison.Ordinal))
            .Split(' ')[1..]);
        Assert.Equal(to, page.LastIndexOf("</style>", StringComparison.Ordinal));
        Assert.DoesNotContain("style=", page[to..], StringComparison.Ordinal);
    }

    // CSS Syntax, level 3, 4.3.7: a backslash and six hexadecimal digits are that character. Taken back here by hand.
    [Fact]
    public void Text_in_the_style_sheet_cannot_end_its_string_or_the_element_and_reads_back() => Gen.OneOf<string>(
        Gen.String[0, 30], Gen.OneOf("\"; } body { display: none", "</style><script>", "a\\", "\n", "\uD83D\uDCE1 mast", "Zwölf; Türme"))
            .Sample(static text =>
    {
        string well = string.Concat(text.EnumerateRunes());
        string css = PageRenderer.CssString(text);
        Assert.Equal('"', css[0]);
        Assert.Equal('"', css[^1]);
        Assert.Matches(@"^(\\[0-9a-f]{6}|[A-Za-z0-9 ,.-])*$", css[1..^1]);
        StringBuilder read = new();
        for (int i = 1; i < css.Length - 1; i++)
        {
            if (css[i] == '\\')
            {
                read.Append(new Rune(Convert.ToInt32(css.Substring(i + 1, 6), 16)));
                i += 6;
            }
            else
            {
                read.Append(css[i]);
            }
        }

        Assert.Equal(well, read.ToString());
    });
}
