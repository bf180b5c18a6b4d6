using System.Text;
using Spurless.Circuits.Response;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Responses;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;
using Spurless.Sites.Checking;
using Spurless.Sites.Documents;
using Spurless.Sites.Folders;
using Spurless.Sites.Networks;
using Spurless.Sites.Studies;

namespace Spurless.Pages.Report;

/// <summary>The reports as files, for the page's frame and to download: byte for byte those of the commands <c>study</c> and <c>response</c>.</summary>
internal static class ReportFiles
{
    /// <summary>Serves <c>/reports/FORMAT/FILE</c>; with <c>?download</c> as a file to keep.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/reports/{format}/{**file}", async (
        string format, string file, HttpContext context, OpenFolder folder, FolderReadings readings, TimeProvider time, CancellationToken cancel) =>
    {
        if (format is not ("html" or "csv" or "json") || await readings.FinishedAsync(file, cancel) is not { } reading)
        {
            return Results.NotFound();
        }

        ReportContext made = ReportContext.Now(time, typeof(ReportFiles).Assembly.GetName().Version!.ToString(3));
        string? text = reading.Study is { } study && !reading.IsBefore ? await OfStudyAsync(study, format, made)
            : reading.File.Kind is FileKind.Circuit or FileKind.Touchstone ? await OfNetworkAsync(folder, file, format, made, cancel)
            : null;
        if (text is null)
        {
            return Results.NotFound();
        }

        if (context.Request.Query.ContainsKey("download"))
        {
            string name = file[(file.LastIndexOf('/') + 1)..];
            return Results.File(Encoding.UTF8.GetBytes(text), Type(format), $"{name[..name.IndexOf('.', StringComparison.Ordinal)]}-{(reading.Study is null ? "response" : "study")}.{format}");
        }

        // The report states its own, stricter policy; the page that holds it may frame it, nobody else.
        context.Response.Headers.ContentSecurityPolicy = "frame-ancestors 'self'; script-src 'none'; object-src 'none'; base-uri 'none'; form-action 'none'";
        return Results.Text(text, Type(format), Encoding.UTF8);
    });

    private static async Task<string> OfStudyAsync(StudyResult study, string format, ReportContext made) => format switch
    {
        "html" => await StudyReport.RenderAsync(study, made),
        "csv" => Written(to => StudyCsv.Write(study, to)),
        _ => WrittenBytes(to => StudyJson.Write(study, to)),
    };

    private static async Task<string?> OfNetworkAsync(OpenFolder folder, string file, string format, ReportContext made, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        if (!folder.Paths.TryResolve(file, out string path) || SiteFolder.ReadFile(path) is not { } bytes
            || NetworkFile.Load(file, bytes, folder.Beside(file), findings) is not { } network
            || network.Response(null, findings, cancel) is not { } response)
        {
            return null;
        }

        return format switch
        {
            "html" => await ResponseReport.RenderAsync(
                new ResponseReportInput { Result = response, Network = network.Network, Circuit = network.Circuit, Inputs = [new InputFile(network.File, network.Sha256)] }, made),
            "csv" => Written(to => ResponseWriter.WriteCsv(response, to)),
            _ => WrittenBytes(to => ResponseWriter.WriteJson(response, [], to)),
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
        "html" => "text/html; charset=utf-8",
        "csv" => "text/csv; charset=utf-8",
        _ => "application/json; charset=utf-8",
    };
}
