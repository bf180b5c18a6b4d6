using Spurless.Browser.Browsing;
using Spurless.Reports.Html;
using Spurless.Reports.Tests.Fixtures;

namespace Spurless.Browser.Reports;

/// <summary>The reports that are looked at, written to files as a user would get them.</summary>
internal static class ReportPages
{
    private static readonly ReportContext Context = new()
    {
        GeneratedAt = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero),
        ProgramVersion = "0.1.0",
        Notice = "an invented site, for demonstration",
    };

    private static readonly SemaphoreSlim One = new(1, 1);

    /// <summary>Writes the report of that name and gives its address.</summary>
    public static async Task<string> AddressAsync(string name)
    {
        string html = name switch
        {
            "unfiltered" => await StudyReport.RenderAsync(DemoStudy.WithoutFilter(), Context, DemoStudy.Response),
            "filtered" => await StudyReport.RenderAsync(DemoStudy.WithFilter(), Context, DemoStudy.Response),
            _ => throw new ArgumentOutOfRangeException(nameof(name)),
        };
        string file = Artifacts.File(name + ".html");
        await One.WaitAsync();
        try
        {
            await File.WriteAllTextAsync(file, html);
        }
        finally
        {
            One.Release();
        }

        return new Uri(file).AbsoluteUri;
    }
}
