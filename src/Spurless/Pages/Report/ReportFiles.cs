using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Pages.Shell;
using Spurless.Reports.Cures;
using Spurless.Reports.Html;
using Spurless.Reports.Locating;
using Spurless.Reports.Responses;
using Spurless.Reports.Studies;
using Spurless.Sites.Cures;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Workbench.Cures;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Locating;

namespace Spurless.Pages.Report;

/// <summary>
/// The reports as files, for the page's frame and to download: byte for byte those of the commands <c>study</c>, <c>response</c> and
/// (<c>/reports/evidence/FILE</c>) <c>locate --format html</c>.
/// </summary>
internal static class ReportFiles
{
    /// <summary>Serves <c>/reports/FORMAT/FILE</c>; with <c>?download</c> as a file to keep.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/reports/{format}/{**file}", async (
        string format,
        string file,
        HttpContext context,
        OpenFolder folder,
        FolderReadings readings,
        TimeProvider time,
        CancellationToken cancel) =>
    {
        if (format is not ("html" or "csv" or "json" or "evidence") || await readings.FinishedAsync(file, cancel) is not { } reading)
        {
            return Results.NotFound();
        }

        ReportContext made = ReportContext.Now(time, ProgramVersion.Text);
        string? text = reading.Study is { } study && !reading.IsBefore ? await OfStudyAsync(
            folder, file, study, format, made, Chosen(context.Request.Query), cancel)
            : reading.File.Kind is FileKind.Circuit or FileKind.Touchstone && format != "evidence"
                ? await OfNetworkAsync(folder, file, format, made, cancel)
                : null;
        if (text is null)
        {
            return Results.NotFound();
        }

        if (context.Request.Query.ContainsKey("download"))
        {
            string name = file[(file.LastIndexOf('/') + 1)..];
            return Results.File(
                Encoding.UTF8.GetBytes(text),
                Type(format),
                $"{name[..name.IndexOf('.', StringComparison.Ordinal)]}-{(reading.Study is null ? "response" : "study")}.{format}");
        }

        // The report states its own, stricter policy; the page that holds it may frame it, nobody else.
        context.Response.Headers.ContentSecurityPolicy =
            "frame-ancestors 'self'; script-src 'none'; object-src 'none'; base-uri 'none'; form-action 'none'";
        return Results.Text(text, Type(format), Encoding.UTF8);
    });

    private static async Task<string?> OfStudyAsync(
        OpenFolder folder, string file, StudyResult study, string format, ReportContext made,
        (int Rank, string? Receiver)? chosen, CancellationToken cancel)
    {
        if (folder.Site(file)?.Site is not { } site)
        {
            return null;
        }

        LocateAnswer? located = format == "evidence" || site.Document.Evidence.Count > 0
            ? LocateService.Weigh(FolderEvidence.Question(folder, file, site, study.Options), study, cancel)
            : null;
        return format switch
        {
            "html" => await StudyReport.RenderAsync(
                study, made, located, chosen is { } c ? await Task.Run(() => Ways(folder, file, c, cancel), cancel) : null),
            "evidence" => await LocateReport.RenderAsync(located!, made),
            "csv" => Written(to => StudyCsv.Write(study, to, located)),
            _ => WrittenBytes(to => StudyJson.Write(study, to, located)),
        };
    }

    // What the address asks: 'ways=0' for the list, 'ways=2' for the list with the second way as the one chosen.
    private static (int Rank, string? Receiver)? Chosen(IQueryCollection query) =>
        AddressNumber.Of(query["ways"]) is { } rank ? (rank, query["receiver"]) : null;

    private static ReportedWays? Ways(OpenFolder folder, string file, (int Rank, string? Receiver) chosen, CancellationToken cancel)
    {
        if (FolderCures.Question(folder, file, null) is not { } question
            || CureService.Ask(question, null, cancel).Answer is not { } answer)
        {
            return null;
        }

        CuredReceiver? of = answer.Receivers.FirstOrDefault(r => r.Before.Name == chosen.Receiver)
            ?? (answer.Receivers.Count == 1 ? answer.Receivers[0] : null);
        return new ReportedWays(
            answer, of is null || chosen.Rank == 0 ? new Dictionary<int, int>() : new Dictionary<int, int> { [of.Index] = chosen.Rank });
    }

    private static async Task<string?> OfNetworkAsync(
        OpenFolder folder, string file, string format, ReportContext made, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        if (!folder.Paths.TryResolve(file, out string path) || SiteFolder.ReadFile(path) is not { } bytes
            || SourceReader.Network(new SourceFile(file, bytes, folder.Beside(file)), findings) is not { } network
            || ResponseService.Ask(new ResponseQuestion { Network = network }, null, cancel).Answer is not { } response)
        {
            return null;
        }

        return format switch
        {
            "html" => await ResponseReport.RenderAsync(response, made),
            "csv" => Written(to => ResponseWriter.WriteCsv(response, to)),
            _ => WrittenBytes(to => ResponseWriter.WriteJson(response, to)),
        };
    }

    private static string Written(Action<TextWriter> write)
    {
        using StringWriter text = new(System.Globalization.CultureInfo.InvariantCulture) { NewLine = "\n" };
        write(text);
        return text.ToString();
    }

    private static string WrittenBytes(Action<Stream> write)
    {
        using MemoryStream memory = new();
        write(memory);
        return Encoding.UTF8.GetString(memory.ToArray());
    }

    private static string Type(string format) => format switch
    {
        "html" or "evidence" => "text/html; charset=utf-8",
        "csv" => "text/csv; charset=utf-8",
        _ => "application/json; charset=utf-8",
    };
}
