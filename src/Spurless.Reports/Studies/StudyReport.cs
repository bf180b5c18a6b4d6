using Spurless.Reports.Cures;
using Spurless.Reports.Html;
using Spurless.Sites.Locating;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>The report of a study: one page that a site's owner accepts and a bench engineer checks.</summary>
public static class StudyReport
{
    /// <summary>Findings listed one by one for a receiver; the rest is grouped, and the CSV lists all.</summary>
    public const int MostRows = 60;

    /// <summary>Renders the report.</summary>
    /// <param name="study">What was found.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <param name="located">What the site's evidence says; null where there is none.</param>
    /// <param name="ways">Ways out of this very study; null where none were tried.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(StudyResult study, ReportContext context, LocateAnswer? located = null,
        ReportedWays? ways = null) => RenderAsync(study, context, null, located, ways);

    /// <summary>The same with the responses of the chains given, for results that were not computed from a chain.</summary>
    internal static Task<string> RenderAsync(
        StudyResult study, ReportContext context, Func<ReceiverFindings, Func<double, double>>? responses,
            LocateAnswer? located = null, ReportedWays? ways = null) =>
        PageRenderer.RenderAsync<StudyPage>(new Dictionary<string, object?>
        {
            [nameof(StudyPage.Study)] = study,
            [nameof(StudyPage.Context)] = context,
            [nameof(StudyPage.Responses)] = responses,
            [nameof(StudyPage.Located)] = located,
            [nameof(StudyPage.Ways)] = ways,
        });
}
