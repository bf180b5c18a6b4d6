using Spurless.Circuits.Fit;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Html;

/// <summary>The report of a fit: sweep and fitted response one over the other, what is left over, values with their intervals; one self-contained page.</summary>
public static class FitReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="result">What was found.</param>
    /// <param name="inputs">The files read.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script.</returns>
    public static Task<string> RenderAsync(FitResult result, IReadOnlyList<InputFile> inputs, ReportContext context) =>
        PageRenderer.RenderAsync<FitPage>(new Dictionary<string, object?>
        {
            [nameof(FitPage.Result)] = result,
            [nameof(FitPage.Inputs)] = inputs,
            [nameof(FitPage.Context)] = context,
        });
}
