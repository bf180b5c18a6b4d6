using Spurless.Reports.Html;
using Spurless.Sites.Responses;

namespace Spurless.Reports.Responses;

/// <summary>The report of a circuit's or a sweep's response: one self-contained page.</summary>
public static class ResponseReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">What it shows.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(ResponseAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<ResponsePage>(new Dictionary<string, object?>
        {
            [nameof(ResponsePage.Input)] = answer,
            [nameof(ResponsePage.Context)] = context,
        });
}
