using Spurless.Reports.Html;
using Spurless.Sites.Cures;

namespace Spurless.Reports.Cures;

/// <summary>The report of ways out: one self-contained page.</summary>
public static class CureReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">The ways out.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(CureAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<CurePage>(new Dictionary<string, object?>
        {
            [nameof(CurePage.Answer)] = answer,
            [nameof(CurePage.Context)] = context,
        });
}
