using System.Text;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Reports.Pictures;
using Spurless.Sites.Studies;
using Spurless.Workbench.Desk;

namespace Spurless.Pages.Study;

/// <summary>The study picture as a file of its own, and its data: of the very view that the address names.</summary>
internal static class StudyDownloads
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/study-svg/{**file}", static async (string file, HttpContext context, DeskShelf shelf) =>
        {
            if (await ModelAsync(file, context, shelf) is not ({ } model, var finding))
            {
                return Results.NotFound();
            }

            string svg = await PictureFile.SvgAsync(model, 816, finding);
            return Results.File(Encoding.UTF8.GetBytes(svg), "image/svg+xml", NameOf(file, "svg"));
        });
        routes.MapGet("/study-csv/{**file}", static async (string file, HttpContext context, DeskShelf shelf) =>
            await ModelAsync(file, context, shelf) is ({ } model, _)
                ? Results.File(Encoding.UTF8.GetBytes(PictureFile.Csv(model)), "text/csv; charset=utf-8", NameOf(file, "csv"))
                : Results.NotFound());
    }

    private static string NameOf(string file, string kind)
    {
        string name = file[(file.LastIndexOf('/') + 1)..];
        int dot = name.IndexOf('.', StringComparison.Ordinal);
        return $"{(dot > 0 ? name[..dot] : name)}-study.{kind}";
    }

    private static async Task<(StudyPictureModel? Model, int? Finding)> ModelAsync(string file, HttpContext context, DeskShelf shelf)
    {
        if (shelf.Of(file) is not { Desk: { } desk } shelved)
        {
            return (null, null);
        }

        int receiver = int.TryParse(context.Request.Query["receiver"], out int asked) && asked >= 0 && asked < desk.Receivers.Count
            ? asked
            : 0;
        DeskSettings settings = DeskSettings.Parse(context.Request.Query["set"]).Known(desk.Items);
        DeskOutcome before = await shelved.Study(receiver, desk.WithoutFilters(receiver)).Outcome;
        DeskOutcome now = await shelved.Study(receiver, settings).Outcome;
        if (now.Findings is null || before.Findings is null)
        {
            return (null, null);
        }

        Dictionary<ProductRow, int> numbers = [];
        StudyShown.Number(before.Findings, numbers);
        ComparisonWords? words = StudyShown.Words(desk.Receivers[receiver], settings);
        StudyPictureModel model = StudyShown.Of(
            now.Findings, words is null ? null : before.Findings, words ?? ComparisonWords.Filter, shelved.Options, numbers, null);
        return (model, int.TryParse(context.Request.Query["finding"], out int finding) ? finding : null);
    }
}
