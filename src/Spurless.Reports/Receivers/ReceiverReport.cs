using Spurless.Reports.Html;
using Spurless.Sites.Receivers;

namespace Spurless.Reports.Receivers;

/// <summary>The report of a receiver's measurements: one self-contained page that ends in the sheet for the bench.</summary>
public static class ReceiverReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">What the measurements say.</param>
    /// <param name="written">What was written into a site file; empty where nothing was.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(ReceiverAnswer answer, IReadOnlyList<SiteFigure> written, ReportContext context) =>
        PageRenderer.RenderAsync<ReceiverPage>(new Dictionary<string, object?>
        {
            [nameof(ReceiverPage.Answer)] = answer,
            [nameof(ReceiverPage.Written)] = written,
            [nameof(ReceiverPage.Context)] = context,
        });
}
