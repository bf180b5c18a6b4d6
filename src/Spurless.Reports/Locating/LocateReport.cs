using Spurless.Reports.Html;
using Spurless.Sites.Locating;

namespace Spurless.Reports.Locating;

/// <summary>The report of evidence: one self-contained page that ends in the sheet to take along.</summary>
public static class LocateReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">What the evidence says.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(LocateAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<LocatePage>(new Dictionary<string, object?>
        {
            [nameof(LocatePage.Answer)] = answer,
            [nameof(LocatePage.Context)] = context,
        });
}
