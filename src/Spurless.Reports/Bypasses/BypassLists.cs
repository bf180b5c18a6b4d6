using Spurless.Drawing.Words;
using Spurless.Sites.Bypasses;

namespace Spurless.Reports.Bypasses;

/// <summary>What stands beside a relay's figures, as lists of sentences: for text, report and the page of the bench.</summary>
public static class BypassLists
{
    /// <summary>The lists that are not empty, each with its head, sentences with a capital and without a full stop.</summary>
    /// <param name="answer">What the relay does.</param>
    public static IReadOnlyList<(string Head, IReadOnlyList<string> Sentences)> Of(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        (string Head, IReadOnlyList<string> Sentences)[] all =
        [
            ("Which way serves", BypassRows.Ways(answer)),
            ("Against the chatter", BypassAdvice.Of(answer)),
            ("Assumed", BypassWords.Assumed(answer)),
        ];
        return
        [
            .. all.Where(static l => l.Sentences.Count > 0)
                .Select(static l => (l.Head, (IReadOnlyList<string>)[.. l.Sentences.Select(StudyWords.Capital)])),
        ];
    }
}
