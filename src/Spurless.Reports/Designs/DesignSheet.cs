using Spurless.Reports.Html;
using Spurless.Sites.Designs;

namespace Spurless.Reports.Designs;

/// <summary>
/// The build sheet: candidates, and of one of them schematic, response against the mask, parts with windings, stress, alignment; one
/// self-contained page.
/// </summary>
public static class DesignSheet
{
    /// <summary>Renders the sheet.</summary>
    /// <param name="reading">What was found; at least one candidate.</param>
    /// <param name="rank">Rank of the candidate that is drawn whole, from 1.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script.</returns>
    public static Task<string> RenderAsync(DesignReading reading, int rank, ReportContext context) =>
        PageRenderer.RenderAsync<DesignPage>(new Dictionary<string, object?>
        {
            [nameof(DesignPage.Reading)] = reading,
            [nameof(DesignPage.Rank)] = rank,
            [nameof(DesignPage.Context)] = context,
        });
}
