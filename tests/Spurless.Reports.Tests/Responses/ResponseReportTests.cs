using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Response;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Responses;
using Spurless.Sites.Responses;

namespace Spurless.Reports.Tests.Responses;

/// <summary>Pages of sweeps with one port or one point, by hand: reflection of a resistor in 50 ohm.</summary>
public sealed partial class ResponseReportTests
{
    private static readonly ReportContext Context = new()
    {
        GeneratedAt = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero),
        ProgramVersion = "0.1.0",
    };

    [Fact]
    public async Task Render_a_one_port_tells_its_best_match_and_speaks_of_no_filter()
    {
        // |G| 0.1 is 20 dB, 0.5 is 6.02 dB.
        string html = await Render("a.s1p", "# MHz S RI R 50\n100 0.5 0\n150 0.1 0\n200 0.5 0\n");
        Assert.Contains("Its return loss is 20.0\u00A0dB at best, at 150.0\u00A0MHz.", html, StringComparison.Ordinal);
        Assert.Contains("The plots as a table", html, StringComparison.Ordinal);
        Assert.DoesNotContain("Gain", html, StringComparison.Ordinal);
        Assert.DoesNotContain("with the output on its reference", html, StringComparison.Ordinal);
        Assert.DoesNotContain("receive filter", html, StringComparison.Ordinal);
        // A typeface in the page is base64, in which any three letters occur.
        Assert.DoesNotContain("NaN", Embedded().Replace(html, ""), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_a_one_port_of_one_point_says_so()
    {
        string html = await Render("a.s1p", "# MHz S RI R 50\n100 0.5 0\n");
        Assert.Contains("measured at 100.0\u00A0MHz only: its return loss there is 6.0\u00A0dB.", html, StringComparison.Ordinal);
        Assert.DoesNotContain("plots", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<svg", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_a_two_port_of_one_point_has_no_pass_band()
    {
        // A series resistor of 100 ohm: S21 = 0.5, 6.02 dB.
        string html = await Render("a.s2p", "# MHz S RI R 50\n100 0.5 0 0.5 0 0.5 0 0.5 0\n");
        Assert.Contains(
            "At 100.0\u00A0MHz, the one frequency of the sweep, the loss is 6.0\u00A0dB and the return loss 6.0\u00A0dB.",
            html,
            StringComparison.Ordinal);
        Assert.DoesNotContain("pass-band", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<svg", html, StringComparison.Ordinal);
    }

    [GeneratedRegex("data:[a-z0-9/+-]+;base64,[A-Za-z0-9+/=]*")]
    private static partial Regex Embedded();

    private static async Task<string> Render(string name, string text)
    {
        DiagnosticBag findings = new();
        using MemoryStream stream = new(Encoding.ASCII.GetBytes(text));
        MeasuredTwoPort network = MeasuredTwoPort.From(TouchstoneReader.Read(stream, name, findings)!);
        Assert.False(findings.HasErrors);
        ResponseResult result = ResponseCalculator.Compute(network, name, ResponseCalculator.DefaultFrequencies(network));
        return WebUtility.HtmlDecode(
            await ResponseReport.RenderAsync(new ResponseAnswer { Result = result, Network = network, Circuit = null }, Context));
    }
}
