using Spurless.Reports.Html;
using Spurless.Sites.Recordings;

namespace Spurless.Reports.Recordings;

/// <summary>The report of a recording: one self-contained page.</summary>
public static class ListenReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">What was heard.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(ListenAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<ListenPage>(new Dictionary<string, object?>
        {
            [nameof(ListenPage.Answer)] = answer,
            [nameof(ListenPage.Context)] = context,
        });
}
