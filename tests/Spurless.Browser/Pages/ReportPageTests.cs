using System.Diagnostics;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The report page shows and hands out what the commands write.</summary>
public class ReportPageTests(BrowserFixture browser, ServeFixture serve)
{
    [Theory]
    [InlineData("quernmoss-filtered.site.yaml", "study", "csv", "Download the table (CSV)", "quernmoss-filtered-study.csv")]
    [InlineData("quernmoss-filtered.site.yaml", "study", "json", "Download the data (JSON)", "quernmoss-filtered-study.json")]
    [InlineData("filters/three-tank.circuit.yaml", "response", "csv", "Download the table (CSV)", "three-tank-response.csv")]
    public async Task Download_is_byte_for_byte_what_the_command_writes(
        string file, string command, string format, string link, string name)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync($"/report/{file}");
        IDownload download = await watched.Page.RunAndWaitForDownloadAsync(
            () => watched.Page.GetByRole(AriaRole.Link, new() { Name = link }).ClickAsync());
        Assert.Equal(name, download.SuggestedFilename);
        await using Stream stream = await download.CreateReadStreamAsync();
        using StreamReader reader = new(stream);
        Assert.Equal(await CommandAsync(demo.Folder, command, file, "--format", format), await reader.ReadToEndAsync());
    }

    [Fact]
    public async Task Frame_shows_the_whole_report_and_prints_it()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync("/report/quernmoss-filtered.site.yaml");
        IFrameLocator report = watched.Page.FrameLocator("#report");
        await Assertions.Expect(report.Locator("h1")).ToHaveTextAsync("Interference on the repeater input, 145.0500 MHz");
        await Assertions.Expect(report.GetByText("Cautions", new() { Exact = false }).First).ToBeVisibleAsync();
        // No bar of its own: it stands there whole.
        Assert.True(
            await watched.Page.Locator("#report").EvaluateAsync<bool>(
                "e => e.clientHeight >= e.contentDocument.documentElement.scrollHeight"));

        // Turned to a narrow view and back it is as tall as before, with nothing blank behind its end.
        int tall = await watched.Page.Locator("#report").EvaluateAsync<int>("e => e.clientHeight");
        await watched.Page.SetViewportSizeAsync(390, 800);
        await watched.Page.WaitForFunctionAsync($"() => document.getElementById('report').clientHeight > {tall} + 500");
        await watched.Page.SetViewportSizeAsync(1280, 900);
        await watched.Page.WaitForFunctionAsync($"() => Math.abs(document.getElementById('report').clientHeight - {tall}) <= 1");
        await watched.Page.EvaluateAsync(
            "() => { document.getElementById('report').contentWindow.print = () => { window.printed = true; }; }");
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Print the report" }).ClickAsync();
        await watched.Page.WaitForFunctionAsync("() => window.printed === true");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Site_with_errors_has_no_report_and_the_page_says_why()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        demo.Write("quernmoss.site.yaml", demo.Read("quernmoss.site.yaml").Replace("145.050 MHz", "145.050", StringComparison.Ordinal));
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync("/report/quernmoss.site.yaml");
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("has errors, so there is no report of it yet");
        await Assertions.Expect(watched.Page.Locator(".fault").GetByRole(AriaRole.Link)).ToHaveTextAsync("repeater input, frequency");
        Assert.Empty(watched.Complaints);
    }

    private static async Task<string> CommandAsync(string folder, params string[] words)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "spurless.dll"), .. words])
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
        };
        using Process process = Process.Start(start)!;
        string output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.Equal(0, process.ExitCode);
        return output;
    }
}
