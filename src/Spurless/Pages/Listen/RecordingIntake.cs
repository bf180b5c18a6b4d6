using Microsoft.AspNetCore.Components.Forms;
using Spurless.Pages.Shell;
using Spurless.Workbench.Recordings;

namespace Spurless.Pages.Listen;

/// <summary>A recording that was dropped on the page.</summary>
/// <param name="Path">Where it lies meanwhile; null where it was not taken.</param>
/// <param name="Problem">Why it was not taken.</param>
internal sealed record RecordingIntake(string? Path, string? Problem)
{
    /// <summary>The largest file that is taken by dropping; larger ones are for the folder or the command.</summary>
    public const long Largest = 1_000_000_000;

    /// <summary>Takes a WAV, or the two files of a SigMF recording.</summary>
    public static async Task<RecordingIntake> TakeAsync(RecordingShelf shelf, InputFileChangeEventArgs e)
    {
        if (e.FileCount > 2)
        {
            return new RecordingIntake(null, "drop one WAV, or the two files of a SigMF recording");
        }

        IReadOnlyList<IBrowserFile> files = e.GetMultipleFiles(2);
        if (files.FirstOrDefault(static f => f.Size > Largest) is { } large)
        {
            return new RecordingIntake(
                null, $"{large.Name} is larger than 1 GB; put it into the folder and choose it, or use 'spurless listen {large.Name}'");
        }

        IBrowserFile? first = files.FirstOrDefault(static f => Is(f, ".wav") || Is(f, ".sigmf-meta"));
        if (first is null)
        {
            return new RecordingIntake(null, "that is no recording; drop a .wav, or a .sigmf-meta with its .sigmf-data");
        }

        string folder = Directory.CreateDirectory(shelf.Place()).FullName;
        foreach (IBrowserFile file in files)
        {
            await using FileStream to = File.Create(Within(folder, file.Name));
            if (await file.CopyAsync(Largest, to) is { } problem)
            {
                return new RecordingIntake(null, problem);
            }
        }

        return new RecordingIntake(Within(folder, first.Name), null);
    }

    private static string Within(string folder, string name) => System.IO.Path.Combine(folder, System.IO.Path.GetFileName(name));

    private static bool Is(IBrowserFile file, string ending) => file.Name.EndsWith(ending, StringComparison.OrdinalIgnoreCase);
}
