using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Spurless.Reports.Html;
using Spurless.Reports.Studies;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Reports.Tests.Studies;

/// <summary>The report of any study as a document: every name as text, headings in steps.</summary>
public sealed class StudyPageStructureTests
{
    private static readonly ReportContext _context = new()
    {
        GeneratedAt = new DateTimeOffset(2031, 3, 4, 12, 0, 0, TimeSpan.Zero),
        ProgramVersion = "0.1.0",
    };

    [Fact]
    public void Render_of_any_study_holds_every_name_as_text() => RandomStudies.Study.Sample(
        static study =>
        {
            IHtmlDocument page = Page(study);
            string text = Blank(page.DocumentElement.TextContent);
            Assert.Contains(Blank(study.Site), text, StringComparison.OrdinalIgnoreCase);
            foreach (ReceiverFindings receiver in study.Receivers)
            {
                Assert.Contains(Blank(receiver.Name), text, StringComparison.OrdinalIgnoreCase);
                Assert.All(receiver.Carriers, c => Assert.Contains(Blank(c.Emitter), text, StringComparison.OrdinalIgnoreCase));
            }
        },
        iter: 40);

    [Fact]
    public void Render_of_headings_goes_down_one_level_at_a_time() => RandomStudies.Study.Sample(
        static study =>
        {
            int last = 0;
            foreach (IElement heading in Page(study).QuerySelectorAll("h1, h2, h3, h4, h5, h6"))
            {
                int level = heading.LocalName[1] - '0';
                Assert.InRange(level, 1, last + 1);
                last = level;
            }
        },
        iter: 30);

    private static IHtmlDocument Page(StudyResult study) =>
        new HtmlParser().ParseDocument(StudyReport.RenderAsync(study, _context).GetAwaiter().GetResult());

    // White space in HTML is one space.
    private static string Blank(string text) => string.Join(
        ' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
