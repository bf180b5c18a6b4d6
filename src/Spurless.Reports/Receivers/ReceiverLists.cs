using Spurless.Drawing.Words;
using Spurless.Sites.Receivers;

namespace Spurless.Reports.Receivers;

/// <summary>What stands beside a receiver's figures, as lists of sentences: for the report and the page of the bench.</summary>
public static class ReceiverLists
{
    /// <summary>The lists that are not empty, each with its head, sentences without a full stop.</summary>
    /// <param name="answer">What the measurements say.</param>
    /// <param name="written">What was written into a site file; empty where nothing was.</param>
    public static IReadOnlyList<(string Head, IReadOnlyList<string> Sentences)> Of(ReceiverAnswer answer, IReadOnlyList<SiteFigure> written)
    {
        ArgumentNullException.ThrowIfNull(answer);
        (string, IReadOnlyList<string> Sentences)[] all =
        [
            ("Does not fit", [.. answer.Warnings.Select(static w => StudyWords.Capital(ReceiverWarningWords.Of(w, Typography.Fine)))]),
            ("Written into the site file", [.. written.Select(ReceiverWriter.Written)]),
            (
                "Still unknown, and what would give it",
                [.. answer.Unknown.Select(g => StudyWords.Capital(ReceiverWarningWords.Of(g, answer.Document)))]),
            ("Assumed", [.. ReceiverWords.Assumed(answer, Typography.Fine).Select(StudyWords.Capital)]),
        ];
        return [.. all.Where(static l => l.Sentences.Count > 0)];
    }
}
