using Spurless.Sites.Studies;

namespace Spurless.Reports.Html;

/// <summary>The report of a study: one page that a site's owner accepts and a bench engineer checks.</summary>
public static class StudyReport
{
    /// <summary>Findings listed one by one for a receiver; the rest is grouped, and the CSV lists all.</summary>
    public const int MostRows = 60;

    /// <summary>Renders the report.</summary>
    /// <param name="study">What was found.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(StudyResult study, ReportContext context) => RenderAsync(study, context, null);

    /// <summary>The same with the responses of the chains given, for results that were not computed from a chain.</summary>
    internal static Task<string> RenderAsync(StudyResult study, ReportContext context, Func<ReceiverFindings, Func<double, double>>? responses) =>
        PageRenderer.RenderAsync<StudyPage>(new Dictionary<string, object?>
        {
            [nameof(StudyPage.Study)] = study,
            [nameof(StudyPage.Context)] = context,
            [nameof(StudyPage.Responses)] = responses,
        });
}
