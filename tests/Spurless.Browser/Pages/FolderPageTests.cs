using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The folder page: what a new user meets, and what becomes of files that are handed over.</summary>
public class FolderPageTests(BrowserFixture browser, ServeFixture serve)
{
    [Fact]
    public async Task Empty_folder_offers_the_demonstration_as_a_copy()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: empty.Address);
        await watched.GoAsync("/");
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("Four questions lead to a first study");
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Link, new() { Name = "Study" })).ToHaveCountAsync(0);
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Open the demonstration" }).ClickAsync();
        await Assertions.Expect(watched.Page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/study/quernmoss[.]site[.]yaml"));
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("mixtures land on");
        foreach (
            string file in Directory.EnumerateFiles(Path.Combine(Artifacts.Root, "demo"), "*", SearchOption.AllDirectories).Where(
                static f => f.EndsWith(".yaml", StringComparison.Ordinal) || f.EndsWith(".s2p", StringComparison.Ordinal)))
        {
            string name = Path.GetRelativePath(Path.Combine(Artifacts.Root, "demo"), file);
            Assert.Equal(File.ReadAllBytes(file), File.ReadAllBytes(Path.Combine(empty.Folder, name)));
        }

        // A second time it is not copied again, and nothing is lost.
        empty.Write("quernmoss.site.yaml", empty.Read("quernmoss.site.yaml") + "# mine\n");
        await watched.Page.GetByRole(AriaRole.Link, new() { Name = "Folder" }).ClickAsync();
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("sites here");
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Open the demonstration" }).ClickAsync();
        await Assertions.Expect(watched.Page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/study/quernmoss[.]site[.]yaml"));
        Assert.EndsWith("# mine\n", empty.Read("quernmoss.site.yaml"), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
        Assert.Empty(empty.Errors);
    }

    [Fact]
    public async Task Four_questions_lead_to_a_study_and_say_what_is_missing()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: empty.Address);
        await watched.GoAsync("/");
        IPage page = watched.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the first study" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("Frequency of your channel")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("#q-e1")).ToContainTextAsync("frequency");

        await page.GetByLabel("Frequency of your channel").FillAsync("145.050");
        await page.GetByLabel("Frequency of your channel").PressAsync("Tab");
        await Assertions.Expect(page.Locator("#q-e1")).ToContainTextAsync("'145.050' has no unit; write 145.050 MHz");
        await page.GetByLabel("Frequency of your channel").FillAsync("145.050 MHz");
        await page.GetByLabel("Name of the site").FillAsync("Our hill");
        await page.GetByLabel("two-tone warble, data bursts").CheckAsync();
        await page.GetByLabel("name, row 1").FillAsync("pager");
        await page.GetByLabel("name, row 1").PressAsync("Tab");
        await page.Keyboard.TypeAsync("466.075 MHz");
        await page.GetByLabel("level, row 1").FillAsync("-20 dBm");
        await page.GetByLabel("name, row 2").FillAsync("taxi");
        await page.GetByLabel("frequency, row 2").FillAsync("160.5125 MHz");
        await page.GetByLabel("frequency, row 2").PressAsync("Enter");
        await page.GetByLabel("power of taxi").FillAsync("25 W");
        await page.GetByLabel("distance of taxi").FillAsync("2.4 km");
        await page.GetByLabel("distance of taxi").PressAsync("Tab");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the first study" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/study/our-hill[.]site[.]yaml"));
        string text = empty.Read("our-hill.site.yaml");
        Assert.Contains("heard: [\"two-tone warble, data bursts\"]", text, StringComparison.Ordinal);
        Assert.Contains("level: -20 dBm", text, StringComparison.Ordinal);
        Assert.Contains("distance: 2.4 km", text, StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Files_are_taken_by_choice_and_by_dropping_and_refused_by_name()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: empty.Address);
        await watched.GoAsync("/");
        IPage page = watched.Page;
        byte[] sweep = File.ReadAllBytes(Path.Combine(Artifacts.Root, "demo", "filters", "three-tank.s2p"));
        await page.GetByLabel("Add files").GiveAsync(
        [
            new FilePayload { Name = "mine.s2p", MimeType = "text/plain", Buffer = sweep },
            new FilePayload { Name = "picture.png", MimeType = "image/png", Buffer = [1, 2, 3] },
            new FilePayload { Name = ".hidden.csv", MimeType = "text/csv", Buffer = [1] },
            new FilePayload { Name = "big.csv", MimeType = "text/csv", Buffer = new byte[(10 * 1024 * 1024) + 1] },
        ]);
        await Assertions.Expect(page.Locator(".note[role=status]")).ToHaveTextAsync("added mine.s2p");
        Assert.Equal(sweep, File.ReadAllBytes(Path.Combine(empty.Folder, "mine.s2p")));
        ILocator refused = page.GetByRole(AriaRole.Alert);
        await Assertions.Expect(refused).ToContainTextAsync("'picture.png' is of no kind the program reads");
        await Assertions.Expect(refused).ToContainTextAsync("'.hidden.csv' is no name for a file here");
        await Assertions.Expect(refused).ToContainTextAsync("'big.csv' is larger than 10 MB");
        Assert.Single(Directory.EnumerateFiles(empty.Folder));

        await page.EvaluateAsync(
            """
            () => {
              const d = new DataTransfer();
              d.items.add(new File(['name,frequency,bandwidth,level\nx,145 MHz,16 kHz,-30 dBm\n'], 'near.csv'));
              document.querySelector('h1').dispatchEvent(new DragEvent('drop', { dataTransfer: d, bubbles: true, cancelable: true }));
            }
            """);
        await Assertions.Expect(page.GetByText("table of emitters, 1 emitter")).ToBeVisibleAsync();
        await page.GetByLabel("Add files").GiveAsync([new FilePayload { Name = "near.csv", MimeType = "text/csv", Buffer = [1] }]);
        await Assertions.Expect(refused).ToContainTextAsync("'near.csv' is there already and would be lost");
        Assert.Empty(watched.Complaints);
        Assert.Empty(empty.Errors);
    }

    [Fact]
    public async Task Verdicts_follow_the_files()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync("/");
        ILocator row = watched.Page.Locator(
            "tr", new() { Has = watched.Page.GetByRole(AriaRole.Link, new() { Name = "quernmoss.site.yaml", Exact = true }) });
        await Assertions.Expect(row).ToContainTextAsync("harmful");
        demo.Write("quernmoss.site.yaml", demo.Read("quernmoss.site.yaml").Replace("145.050 MHz", "145.050", StringComparison.Ordinal));
        await Assertions.Expect(row).ToContainTextAsync("1 problem");
        await Assertions.Expect(watched.Page.GetByText("'145.050' has no unit").First).ToBeVisibleAsync();
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Template_is_made_and_can_be_taken_back()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: empty.Address);
        await watched.GoAsync("/");
        await watched.Page.GetByText("New from a template").ClickAsync();
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "A commented circuit file" }).ClickAsync();
        await Assertions.Expect(watched.Page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex(
            "/build/new.circuit.yaml")); // opened after creation
        Assert.True(File.Exists(Path.Combine(empty.Folder, "new.circuit.yaml")));
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Undo: new circuit from the template" }).ClickAsync();
        await Assertions.Expect(watched.Page.Locator("#undo")).ToBeDisabledAsync();
        Assert.False(File.Exists(Path.Combine(empty.Folder, "new.circuit.yaml")));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Files_are_grouped_by_kind_renamed_copied_and_deleted_into_a_trash_and_undo_takes_each_back()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        const string circuit = "filters/three-tank.circuit.yaml";
        string text = demo.Read(circuit);
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/");
        string[] kinds = [.. await page.Locator("tr.kind").AllInnerTextsAsync()];
        Assert.Equal(["Sites", "Circuits"], kinds.Take(2));
        Assert.Equal(kinds.Distinct(), kinds);
        await page.GetByRole(AriaRole.Button, new() { Name = "Rename " + circuit }).ClickAsync();
        ILocator name = page.GetByLabel("New name of " + circuit);
        await name.FillAsync("unmarked");
        await name.PressAsync("Enter");
        await Assertions.Expect(page.GetByText("is there already; choose another name")).ToBeVisibleAsync();
        await name.FillAsync("tanks");
        await name.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Copy filters/tanks.circuit.yaml" })).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("will say that it is missing")).ToContainTextAsync("filtered.site.yaml");
        await page.GetByRole(AriaRole.Button, new() { Name = "Copy filters/tanks.circuit.yaml" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Delete filters/tanks-copy.circuit.yaml" }))
            .ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Delete filters/tanks.circuit.yaml" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Delete filters/tanks.circuit.yaml" })).ToHaveCountAsync(0);
        Assert.False(File.Exists(Path.Combine(demo.Folder, "filters", "tanks.circuit.yaml")));
        Assert.Equal(text, demo.Read(".spurless/trash/1/filters/tanks.circuit.yaml"));
        foreach (string step in (string[])["deleted", "copied", "renamed"])
        {
            await Assertions.Expect(page.Locator("#undo")).ToContainTextAsync(step);
            await page.Locator("#undo").ClickAsync();
        }

        await Assertions.Expect(page.Locator("#undo")).ToBeDisabledAsync();
        Assert.Equal(text, demo.Read(circuit));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Controls_are_dead_until_the_page_is_live()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        // The script that makes it live does not come: what is painted must not take input that would be lost.
        await watched.Page.RouteAsync(
            "**/assets/blazor.web.js",
            static r =>
                r.FulfillAsync(
                    new RouteFulfillOptions
                    {
                        Body = "window.Blazor = { start: () => new Promise(() => {}) };",
                        ContentType = "text/javascript",
                    }));
        foreach (string address in (string[])["/", "/?begin=site", "/site/quernmoss.site.yaml", "/report/quernmoss.site.yaml"])
        {
            await watched.Page.GotoAsync(address);
            Assert.Equal("no", await watched.Page.Locator(".page").GetAttributeAsync("data-live"));
            Assert.Equal(0, await watched.Page.Locator("input:enabled, select:enabled, textarea:enabled, button:enabled").CountAsync());
        }
    }
}
