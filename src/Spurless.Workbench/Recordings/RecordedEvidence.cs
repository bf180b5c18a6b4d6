using Spurless.Sites.Documents;
using Spurless.Sites.Recordings;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Locating;

namespace Spurless.Workbench.Recordings;

/// <summary>
/// Takes what a recording witnessed as evidence of a site: its log beside the site file, the log's name and the kinds on the receiver's
/// channel under <c>evidence</c>. Two steps for undo; what cannot be named is not left lying.
/// </summary>
public static class RecordedEvidence
{
    // So many recordings of one name can have been taken before.
    private const int MostOfAName = 50;

    /// <summary>Writes the log and names it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="site">The site file's name within the folder.</param>
    /// <param name="recording">The recording's name without its ending: the log is named after it.</param>
    /// <param name="answer">What was heard, held against the site.</param>
    /// <param name="text">The log.</param>
    /// <param name="log">The log's name within the folder.</param>
    /// <returns>Why not: 'what; what to do instead'. Null where it was taken.</returns>
    public static string? Take(OpenFolder folder, string site, string recording, ListenAnswer answer, string text, out string log)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(recording);
        ArgumentNullException.ThrowIfNull(answer);
        log = "";
        for (int i = 1; i <= MostOfAName; i++)
        {
            log = NamesInFolder.Beside(site) + recording + (i == 1 ? "" : FormattableString.Invariant($"-{i}")) + ".log.csv";
            FolderText? there = folder.Session.Read(log);
            if (there is not null && there.Text != text)
            {
                continue; // another's, or of another listening
            }

            bool named = there is not null && folder.Site(site)?.Asked.Contains(log) == true;
            return named ? $"'{log}' is among the evidence already; it counts once" : Name(folder, site, answer, log, text, there);
        }

        return $"there are {MostOfAName} logs of that name; take some out of the folder";
    }

    private static string? Name(OpenFolder folder, string site, ListenAnswer answer, string log, string text, FolderText? there)
    {
        string path = NamesInFolder.From(site, log);
        if (folder.Session.Read(site) is not { } before)
        {
            return $"'{site}' cannot be read; see to its permissions";
        }

        if (With(before.Text).Problem is { } problem)
        {
            return problem;
        }

        if (there is null && folder.Session.Save(log, text, null, "log of a recording written") != SaveOutcome.Saved)
        {
            return $"'{log}' cannot be written; see to the folder's permissions";
        }

        return folder.Edit(site, "recording taken as evidence", With).Problem;

        (string? Text, string? Problem) With(string now)
        {
            if (answer is { Receiver: { } receiver, OnChannel.Count: > 0 })
            {
                if (!EvidenceEdits.TryAddRecording(
                    now, receiver, [.. answer.OnChannel.Select(KindTokens.Of)], answer.DeviationHz, out string? edited, out string? wrong))
                {
                    return (null, wrong);
                }

                now = edited;
            }

            return EvidenceEdits.TryAddLog(now, path, out string? added, out string? why) ? (added, null) : (null, why);
        }
    }
}
