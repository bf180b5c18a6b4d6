using Spurless.Reports.Html;
using Spurless.Sites.Fits;

namespace Spurless.Reports.Bench;

/// <summary>
/// The report of a fit: sweep and fitted response one over the other, what is left over, values with their intervals; one self-contained
/// page.
/// </summary>
public static class FitReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">What was found.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script.</returns>
    public static Task<string> RenderAsync(FitAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<FitPage>(new Dictionary<string, object?>
        {
            [nameof(FitPage.Result)] = answer.Result,
            [nameof(FitPage.Inputs)] = answer.Question.Inputs,
            [nameof(FitPage.Context)] = context,
        });
}
