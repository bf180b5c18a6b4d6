using System.Globalization;
using System.Text;
using Spurless.Browser.Browsing;
using Spurless.Browser.Reports;
using Spurless.Browser.Serving;
using Spurless.Drawing.Plotting;
using Spurless.Reports.Html;

namespace Spurless.Browser.Pages;

/// <summary>Whatever is installed on a machine, pages and reports are set in the two faces that they bring along.</summary>
public class TypefaceTests(BrowserFixture browser, ServeFixture serve)
{
    [Theory]
    [InlineData("", 11, false)]
    [InlineData("", 13, true)]
    [InlineData("say", 13, false)]
    public async Task Text_of_a_picture_is_as_wide_as_it_was_laid_out(string style, double size, bool bold)
    {
        string[] lines =
        [
            "145.0500 MHz", "noise floor \u2212128.9 dBm", "1 stays, +40.6 dB: mixed before it gets here", "AVAVA ToTo fi fl ffi WAY",
            "\u25C2 your channel, 12.5 kHz", "L1 27.6 nH, C2 39 pF, 50 \u03A9", "Łódź, Čáslav, Győr, Ærø", "response of the chain",
        ];
        StringBuilder page = new(
            $"<!DOCTYPE html><html lang=\"en\"><title>x</title><style>{PageRenderer.Styles("x")}</style>"
                + "<svg class=\"pic\" width=\"800\" height=\"400\">");
        foreach (string line in lines)
        {
            page.Append(
                CultureInfo.InvariantCulture,
                $"<text class=\"{style}\" x=\"10\" y=\"20\" font-size=\"{size}\"{(bold ? " font-weight=\"600\"" : "")}>{line}</text>");
        }

        await using WatchedPage watched = await browser.OpenAsync(900, 500);
        await watched.Page.SetContentAsync(page.Append("</svg></html>").ToString());
        double[] widths = await watched.Page.EvaluateAsync<double[]>(
            "async () => { await document.fonts.ready; "
                + "return [...document.querySelectorAll('text')].map(t => t.getComputedTextLength()); }");
        Assert.Equal(lines.Length, widths.Length);
        for (int i = 0; i < lines.Length; i++)
        {
            double expected = new SceneText(style, 0, 0, lines[i], Size: size, Bold: bold).Box.Width;
            // A browser rounds to a sixty-fourth of a pixel a letter.
            Assert.True(Math.Abs(expected - widths[i]) <= 0.02 * lines[i].Length, $"'{lines[i]}': {expected} laid out, {widths[i]} drawn");
        }
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/study/quernmoss-filtered.site.yaml")]
    [InlineData("/site/quernmoss.site.yaml")]
    [InlineData("/bench/filters/three-tank.circuit.yaml")]
    [InlineData("/coil")]
    [InlineData("/report/quernmoss.site.yaml")]
    public async Task Page_is_set_in_its_own_faces(string address)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(address);
        Assert.Equal("", string.Join(" | ", await UsedFaces.ForeignAsync(watched)));
        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData("demo-filtered")]
    [InlineData("response")]
    [InlineData("schematics")]
    public async Task Report_is_set_in_its_own_faces(string report)
    {
        await using WatchedPage watched = await browser.OpenAsync(1280, 800);
        await watched.Page.GotoAsync(await ReportPages.AddressAsync(report));
        Assert.Equal("", string.Join(" | ", await UsedFaces.ForeignAsync(watched)));
        Assert.Empty(watched.Complaints);
    }
}
