using Spurless.Reports.Html;
using Spurless.Sites.Newcomers;

namespace Spurless.Reports.Newcomers;

/// <summary>The sheet for the site's owner: one self-contained page, to read, sign and file.</summary>
public static class NewcomerReport
{
    /// <summary>Renders the sheet.</summary>
    /// <param name="answer">What the newcomer does.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(NewcomerAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<NewcomerPage>(new Dictionary<string, object?>
        {
            [nameof(NewcomerPage.Answer)] = answer,
            [nameof(NewcomerPage.Context)] = context,
        });
}
