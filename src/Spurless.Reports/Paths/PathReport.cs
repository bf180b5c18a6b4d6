using Spurless.Reports.Html;
using Spurless.Sites.Paths;

namespace Spurless.Reports.Paths;

/// <summary>The report of one path: the ground from the side, the loss by each way, what was assumed; one self-contained page.</summary>
public static class PathReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(PathAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<PathPage>(new Dictionary<string, object?>
        {
            [nameof(PathPage.Answer)] = answer,
            [nameof(PathPage.Context)] = context,
        });
}
