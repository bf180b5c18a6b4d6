using System.Text;
using Spurless.Pages.Shell;
using Spurless.Reports.Html;
using Spurless.Reports.Newcomers;
using Spurless.Sites.Newcomers;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Newcomers;

namespace Spurless.Pages.Newcomers;

/// <summary>The sheet for a site's owner: byte for byte that of <c>newcomer SITE NEW --format html</c>.</summary>
internal static class NewcomerSheet
{
    /// <summary>Where the sheet of a newcomer to a site is.</summary>
    public static string AddressOf(string file, string newcomer) =>
        $"{PageLinks.AddressOf("sheets/newcomer", file)}?new={Uri.EscapeDataString(newcomer)}";

    /// <summary>Serves <c>/sheets/newcomer/FILE?new=NEW</c>; with <c>&amp;download</c> as a file to keep.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/sheets/newcomer/{**file}", async (
        string file, HttpContext context, OpenFolder folder, TimeProvider time, CancellationToken cancel) =>
    {
        string? newcomer = context.Request.Query["new"];
        if (newcomer is null || FolderNewcomers.Read(folder, file, newcomer)?.Sites is not { } sites)
        {
            return Results.NotFound();
        }

        var outcome = await Task.Run(() => NewcomerService.Ask(new NewcomerQuestion { Sites = sites }, null, cancel), cancel);
        if (outcome.Answer is not { } answer)
        {
            return Results.NotFound();
        }

        string sheet = await NewcomerReport.RenderAsync(answer, ReportContext.Now(time, ProgramVersion.Text));
        if (context.Request.Query.ContainsKey("download"))
        {
            string name = newcomer[(newcomer.LastIndexOf('/') + 1)..];
            return Results.File(
                Encoding.UTF8.GetBytes(sheet), "text/html; charset=utf-8",
                name[..name.IndexOf('.', StringComparison.Ordinal)] + "-sheet.html");
        }

        // The sheet states its own, stricter policy.
        context.Response.Headers.ContentSecurityPolicy =
            "frame-ancestors 'self'; script-src 'none'; object-src 'none'; base-uri 'none'; form-action 'none'";
        return Results.Text(sheet, "text/html; charset=utf-8", Encoding.UTF8);
    });
}
