using System.Text;
using Spurless.Drawing.Responses;
using Spurless.Drawing.Schematics;
using Spurless.Reports.Pictures;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Bench;

/// <summary>The bench's pictures as files of their own, and their data: of the very view that the address names.</summary>
internal static class BenchDownloads
{
    private const double Width = 816;

    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet(
            "/bench-svg/{picture}/{**file}",
            static async (string picture, string file, HttpContext context, BenchShelf shelf, OpenFolder folder) =>
        {
            if (await StateAsync(file, context, shelf, folder) is not { } state)
            {
                return Results.NotFound();
            }

            Spurless.Drawing.Plotting.Scene? scene = (picture, state.Picture) switch
            {
                ("schematic", _) => SchematicScene.Draw(state.Tuned.Circuit),
                ("gain", { } p) => ResponsePlotScene.Draw(p.Wide, Width, BenchView.WideHeight),
                ("passband", { } p) => ResponsePlotScene.Draw(p.Close, Width, BenchView.CloseHeight),
                ("return-loss", { } p) => ResponsePlotScene.Draw(p.ReturnLoss, Width, BenchView.LossHeight),
                ("reflection", { } p) => p.Smith(BenchView.SmithWidth, state.Tuned.Circuit.ImpedanceOhm),
                _ => null,
            };
            return scene is null
                ? Results.NotFound()
                : Results.File(Encoding.UTF8.GetBytes(await PictureFile.SvgAsync(scene)), "image/svg+xml", NameOf(file, picture, "svg"));
        });
        routes.MapGet("/bench-csv/{**file}", static async (string file, HttpContext context, BenchShelf shelf, OpenFolder folder) =>
            await StateAsync(file, context, shelf, folder) is { Picture: { } p }
                ? Results.File(Encoding.UTF8.GetBytes(p.Csv()), "text/csv; charset=utf-8", NameOf(file, "response", "csv"))
                : Results.NotFound());
    }

    private static async Task<BenchState?> StateAsync(string file, HttpContext context, BenchShelf shelf, OpenFolder folder)
    {
        if (shelf.Of(file)?.Bench is not { } bench)
        {
            return null;
        }

        BenchAddress address = BenchAddress.Of(key => context.Request.Query[key]);
        SiteNeeds? needs = BenchState.SiteOf(folder, bench, address) is { } site ? await shelf.NeedsAsync(site, address.Receiver) : null;
        BenchState state = BenchState.Of(shelf, bench, folder, address, needs);
        state.Lay(state.Scatter(null, context.RequestAborted));
        return state;
    }

    private static string NameOf(string file, string what, string kind)
    {
        string name = file[(file.LastIndexOf('/') + 1)..];
        int dot = name.IndexOf('.', StringComparison.Ordinal);
        return $"{(dot > 0 ? name[..dot] : name)}-{what}.{kind}";
    }
}
