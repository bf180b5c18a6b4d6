using System.Diagnostics;
using System.Globalization;
using System.Text;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>
/// A site of three hundred emitters: only what is in sight is drawn, and everything can still be reached. Times are printed, not judged: a
/// busy machine is no fault of the program.
/// </summary>
public class BigSiteTests(BrowserFixture browser)
{
    private const string File = "big.site.yaml";
    private const int Emitters = 300;

    [Fact]
    public async Task Three_hundred_rows_open_are_found_are_reached_by_key_and_saved()
    {
        await using ServedFolder served = await ServedFolder.EmptyAsync();
        served.Write(File, Site(Emitters));
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: served.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/");
        List<double> opened = [], saved = [];
        for (int i = 0; i < 4; i++)
        {
            Stopwatch clock = Stopwatch.StartNew();
            await watched.GoAsync($"/site/{File}");
            await page.GetByLabel("name of e0", new() { Exact = true }).WaitForAsync();
            opened.Add(clock.Elapsed.TotalMilliseconds);
        }

        // Of three hundred rows those in sight are in the document, and a few on either side.
        int rows = await page.Locator("table[data-grid=emitters] input[data-col='0']").CountAsync();
        Assert.InRange(rows, 10, 120);
        ILocator level = page.GetByLabel("level of e3", new() { Exact = true });
        for (int i = 0; i < 12; i++)
        {
            string value = string.Create(CultureInfo.InvariantCulture, $"-{41 + i} dBm");
            saved.Add(await level.EvaluateAsync<double>(Save, value));
        }

        Assert.Contains("level: -52 dBm", served.Read(File), StringComparison.Ordinal);

        // A finding leads to a row that is far out of sight, and typing there is saved.
        await watched.GoAsync($"/site/{File}?at=emitters[287].level");
        ILocator far = page.GetByLabel("level of e287", new() { Exact = true });
        await Assertions.Expect(far).ToBeFocusedAsync();
        await far.FillAsync("-33 dBm");
        await far.PressAsync("Enter");
        await Assertions.Expect(page.GetByLabel("level of e288", new() { Exact = true })).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("#undo")).ToContainTextAsync("e287, level");
        await page.GetByLabel("Find a row of Emitters").FillAsync("e29");
        await Assertions.Expect(page.GetByLabel("name of e299", new() { Exact = true })).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("11 of 300")).ToBeVisibleAsync(); // e29 and e290 to e299
        Assert.Empty(watched.Complaints);
        await TellAsync("site of 300", opened, saved);
    }

    [Fact]
    public async Task Study_of_three_hundred_draws_what_is_in_sight_and_folds_the_rest()
    {
        await using ServedFolder served = await ServedFolder.EmptyAsync();
        served.Write(File, Site(Emitters));
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: served.Address);
        IPage page = watched.Page;
        List<double> opened = [];
        for (int i = 0; i < 4; i++)
        {
            Stopwatch clock = Stopwatch.StartNew();
            await watched.GoAsync($"/study/{File}");
            await page.Locator("#finding-1").WaitForAsync();
            opened.Add(clock.Elapsed.TotalMilliseconds);
        }

        // Painted for the width that the browser told before: one picture, where a first visit has one for wide and one for narrow.
        IAPIResponse painted = await page.Context.APIRequest.GetAsync($"{served.Address}study/{File}");
        string html = await painted.TextAsync();
        Assert.Equal(2, html.Split("<svg class=\"pic").Length);
        Assert.Contains("<svg class=\"pic\" viewBox=\"0 0 8", html, StringComparison.Ordinal);

        // The list of one group is long; what is drawn of it is not, and its end is reached by scrolling.
        await page.GetByLabel("Find mixtures of an emitter, by name or frequency").FillAsync("MHz no such");
        await Assertions.Expect(page.GetByText("No mixture here is of such an emitter.")).ToBeVisibleAsync();
        await page.GetByLabel("Find mixtures of an emitter, by name or frequency").FillAsync("");
        await Assertions.Expect(page.Locator("#finding-1")).ToBeVisibleAsync();
        Assert.InRange(await page.Locator(".finds .find button[data-finding]").CountAsync(), 5, 160);
        int causes = await page.Locator(".finds .find.cause:visible").CountAsync();
        Assert.InRange(causes, 1, 5);
        await page.Locator(".finds .find.cause summary").First.ClickAsync();
        Assert.True(await page.Locator(".finds .find.cause:visible").CountAsync() > causes);
        await page.ScreenshotAsync(new() { Path = Artifacts.File("study-300.png"), FullPage = true });
        Assert.Empty(watched.Complaints);
        await TellAsync("study of 300", opened, []);
    }

    // From the change as the browser tells it to the first frame after the head says that it is saved.
    private const string Save = """
        (cell, value) => new Promise(done => {
          cell.focus();
          cell.value = value;
          cell.dispatchEvent(new Event('input', { bubbles: true }));
          const undo = document.getElementById('undo');
          setTimeout(() => {
            const began = performance.now();
            const watch = new MutationObserver(() => {
              if (!undo.textContent.includes(value)) return;
              watch.disconnect();
              requestAnimationFrame(() => done(performance.now() - began));
            });
            watch.observe(undo, { subtree: true, childList: true, characterData: true });
            cell.dispatchEvent(new Event('change', { bubbles: true }));
          }, 50);
        })
        """;

    private static async Task TellAsync(string what, List<double> opened, List<double> saved)
    {
        string cells = saved.Count == 0 ? "" : string.Create(
            CultureInfo.InvariantCulture,
            $"; a cell saved in {saved.Order().ElementAt(saved.Count / 2):0} ms (median), {saved.Max():0} ms (worst) of {saved.Count}");
        string says = string.Create(
            CultureInfo.InvariantCulture,
            $"{what} emitters: first opened in {opened[0]:0} ms, then in "
                + $"{opened.Skip(1).Order().ElementAt(1):0} ms (median of three){cells}");
        TestContext.Current.TestOutputHelper?.WriteLine(says);
        TestContext.Current.SendDiagnosticMessage(says);
        await System.IO.File.WriteAllTextAsync(
            Artifacts.File($"{what.Replace(' ', '-')}.txt"), says + "\n", TestContext.Current.CancellationToken);
    }

    /// <summary>Emitters on a raster from 136 to 476 MHz, by a fixed seed, each with a level and a power: no station is meant.</summary>
    internal static string Site(int emitters)
    {
        Random random = new(1);
        StringBuilder text = new(
            "spurless: 1\nsite: three hundred emitters (invented)\nreceivers:\n  - name: input\n    frequency: 145.050 MHz\n"
                + "    channel: 12.5 kHz\n    noise_figure: 6 dB\n    iip2: 30 dBm\n    iip3: -2 dBm\n    chain:\n"
                + "      - feedline: { loss: 1.2 dB at 145 MHz }\n      - attenuator: 1 dB\nemitters:\n");
        for (int i = 0; i < emitters; i++)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  - name: e{i}\n    frequency: {136 + (random.Next(27200) * 0.0125):0.0000} MHz\n    emission: 11K2F3E\n    power: 5 W\n"
                    + $"    level: -{31 + random.Next(55)} dBm\n");
        }

        return text.Append("search: { orders: 2-5, signals: 3 }\n").ToString();
    }
}
