using Microsoft.AspNetCore.Components.Forms;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Shell;

/// <summary>Files that were dropped on a page or chosen there, and what became of them.</summary>
/// <param name="Taken">Names within the folder of those that were taken.</param>
/// <param name="Problems">Why others were not: 'what; what to do instead'.</param>
public sealed record Uploads(IReadOnlyList<string> Taken, IReadOnlyList<string> Problems)
{
    /// <summary>What was taken, in words; null where nothing was.</summary>
    public string? Says => Taken.Count == 0 ? null : "added " + string.Join(", ", Taken);

    /// <summary>Takes files into the folder; what is there already is never written over.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="e">The files.</param>
    /// <param name="beside">A file of the folder beside which they are put; empty for the folder itself.</param>
    /// <param name="refuses">Why a page does not take a file of a name; null where it takes whatever the folder does.</param>
    /// <param name="numbered">Whether a name that is in use gets a number behind it instead of being refused.</param>
    public static async Task<Uploads> TakeAsync(
        OpenFolder folder, InputFileChangeEventArgs e, string beside = "", Func<string, string?>? refuses = null,
        bool numbered = false)
    {
        if (e.FileCount > FolderIntake.MostAtOnce)
        {
            return new Uploads(
                [], [FormattableString.Invariant($"{e.FileCount} files at once are too many; take at most {FolderIntake.MostAtOnce}")]);
        }

        List<string> problems = [];
        List<string> taken = [];
        foreach (IBrowserFile file in e.GetMultipleFiles(FolderIntake.MostAtOnce))
        {
            string name = NamesInFolder.Beside(beside) + file.Name;
            if (numbered && file.Name.LastIndexOf('.') is var dot and > 0 && folder.Paths.TryResolve(name, out string there)
                && File.Exists(there))
            {
                name = FolderIntake.FreeName(folder, NamesInFolder.Beside(beside) + file.Name[..dot], file.Name[dot..]);
            }

            if ((FolderIntake.Refusal(folder, name, file.Size) ?? refuses?.Invoke(name)) is { } refusal)
            {
                problems.Add(refusal);
                continue;
            }

            using MemoryStream memory = new();
            if ((await file.CopyAsync(FolderSession.LargestFile, memory) ?? FolderIntake.Take(folder, name, memory.ToArray()))
                is { } problem)
            {
                problems.Add(problem);
            }
            else
            {
                taken.Add(name);
            }
        }

        return new Uploads(taken, problems);
    }
}
