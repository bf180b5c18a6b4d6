using System.Globalization;
using System.Text;
using Spurless.Reports.Designs;
using Spurless.Reports.Html;
using Spurless.Workbench.Designs;

namespace Spurless.Pages.Bench;

/// <summary>The build sheet of what a page shows: the same as the command's of the same requirement.</summary>
internal static class DesignDownloads
{
    /// <summary>Serves <c>/design-sheet/FILE</c> of a design that was made and is kept; else there is none.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet(
        "/design-sheet/{**file}", static async (string? file, HttpContext context, DesignShelf shelf, TimeProvider time) =>
    {
        DesignWish wish = DesignWish.Of(key => context.Request.Query[key]);
        FolderBrief brief = await shelf.BriefAsync(file ?? "", wish);
        if (brief.Brief is not { } asked || shelf.Known(asked) is not { Files.Count: > 0 } reading)
        {
            return Results.NotFound();
        }

        int rank = int.TryParse(context.Request.Query["rank"], NumberStyles.None, CultureInfo.InvariantCulture, out int at) ? at : 1;
        string page = await DesignSheet.RenderAsync(reading, rank, ReportContext.Now(time, ProgramVersion.Text));
        string name = reading.Files[Math.Clamp(rank, 1, reading.Files.Count) - 1].FileName;
        return Results.File(
            Encoding.UTF8.GetBytes(page), "text/html; charset=utf-8",
            $"{name[..name.IndexOf('.', StringComparison.Ordinal)]}-build-sheet.html");
    });
}
