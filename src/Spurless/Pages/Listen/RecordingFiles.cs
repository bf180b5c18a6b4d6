using System.Text;
using Spurless.Reports.Recordings;
using Spurless.Workbench.Recordings;

namespace Spurless.Pages.Listen;

/// <summary>Recordings for the browser's own audio element, and the log of what was heard to keep.</summary>
internal static class RecordingFiles
{
    /// <summary>Serves <c>/recordings/sound?id=...</c> and <c>/recordings/log?id=...</c>.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/recordings/sound", static (string id, RecordingShelf shelf) =>
            shelf.Find(id) is { Answer.Heard.IsBand: false } recording && File.Exists(recording.Path)
                ? Results.File(recording.Path, "audio/wav", enableRangeProcessing: true)
                : Results.NotFound());
        routes.MapGet("/recordings/log", static (string id, RecordingShelf shelf) =>
        {
            if (shelf.Find(id) is not { Answer: { } answer } recording)
            {
                return Results.NotFound();
            }

            using StringWriter text = new(System.Globalization.CultureInfo.InvariantCulture) { NewLine = "\n" };
            ListenWriter.WriteLog(answer, text);
            return Results.File(
                Encoding.UTF8.GetBytes(text.ToString()), "text/csv; charset=utf-8",
                Path.GetFileNameWithoutExtension(recording.Name) + ".log.csv");
        });
    }
}
