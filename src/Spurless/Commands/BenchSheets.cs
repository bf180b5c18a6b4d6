using Spurless.CommandLine;
using Spurless.Reports.Html;

namespace Spurless.Commands;

/// <summary>Writes a bench sheet as the commands of the bench do.</summary>
internal static class BenchSheets
{
    /// <summary>Writes the sheet.</summary>
    public static int Write(CommandContext context, BenchSheetInput input)
    {
        string version = typeof(BenchSheets).Assembly.GetName().Version!.ToString(3);
        string page = BenchReport.RenderAsync(input, ReportContext.Now(TimeProvider.System, version)).GetAwaiter().GetResult();
        return context.Write(to => to.Write(page));
    }
}
