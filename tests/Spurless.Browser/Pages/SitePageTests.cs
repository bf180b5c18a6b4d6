using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;
using Spurless.Sites.Checking;

namespace Spurless.Browser.Pages;

/// <summary>The site page: typing into its tables changes the file, and nothing else in it.</summary>
public class SitePageTests(BrowserFixture browser)
{
    private const string File = "quernmoss.site.yaml";

    [Fact]
    public async Task Typing_writes_the_file_and_undo_takes_it_back()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        string before = demo.Read(File);

        ILocator level = page.GetByLabel("level of haulage base");
        await level.FillAsync("-21 dBm");
        await level.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Undo: haulage base, level" })).ToBeEnabledAsync();
        // One value, spliced: every other byte stands as it stood, comments too.
        Assert.Equal(before.Replace("level: -24.5 dBm", "level: -21 dBm", StringComparison.Ordinal), demo.Read(File));
        await Assertions.Expect(page.Locator(".kept")).ToContainTextAsync($"{File} saved");

        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(level).ToHaveValueAsync("-24.5 dBm");
        Assert.Equal(before, demo.Read(File));
        await page.GetByRole(AriaRole.Button, new() { Name = "Redo: haulage base, level" }).ClickAsync();
        await Assertions.Expect(level).ToHaveValueAsync("-21 dBm");
        Assert.Contains("level: -21 dBm", demo.Read(File), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
        Assert.Empty(demo.Errors);
    }

    [Fact]
    public async Task Faulty_value_is_marked_at_its_field_in_the_words_of_check()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        ILocator frequency = watched.Page.GetByLabel("frequency of forest base");
        await frequency.FillAsync("1575 Mhz and more");
        await frequency.PressAsync("Enter");
        await Assertions.Expect(frequency).ToHaveAttributeAsync("aria-invalid", "true");
        CheckResult check = await FileCheck.RunAsync(Path.Combine(demo.Folder, File));
        var only = Assert.Single(check.Findings, static f => f.Severity == Spurless.Files.Diagnostics.Severity.Error);
        string described = await frequency.GetAttributeAsync("aria-describedby") ?? "";
        await Assertions.Expect(watched.Page.Locator($"#{described}")).ToHaveTextAsync($"line {only.Line}: {only.What}; {only.Remedy}");
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("one thing is wrong");

        await frequency.FillAsync("157.500 MHz");
        await frequency.PressAsync("Enter");
        await Assertions.Expect(frequency).Not.ToHaveAttributeAsync("aria-invalid", "true");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Bare_number_takes_its_columns_unit_a_decimal_comma_is_mended_by_one_click_and_a_frequency_used_twice_is_remarked()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        ILocator frequency = page.GetByLabel("frequency of forest base");
        await frequency.FillAsync("157.525");
        await frequency.PressAsync("Enter");
        await Assertions.Expect(frequency).ToHaveValueAsync("157.525 MHz");
        await frequency.FillAsync("161,35 MHz");
        await frequency.PressAsync("Enter");
        await page.GetByRole(AriaRole.Button, new() { Name = "write 161.35 MHz" }).ClickAsync();
        await Assertions.Expect(frequency).ToHaveValueAsync("161.35 MHz");
        await Assertions.Expect(frequency).Not.ToHaveAttributeAsync("aria-invalid", "true");
        string other = await page.GetByLabel("frequency of haulage base").InputValueAsync();
        await frequency.FillAsync(other);
        await frequency.PressAsync("Enter");
        await Assertions.Expect(page.GetByText("stand on one frequency")).ToContainTextAsync("forest base");
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.GetByText("stand on one frequency")).ToHaveCountAsync(0);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Keyboard_alone_moves_through_the_table_and_takes_typing_back()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        string before = demo.Read(File);
        await page.GetByLabel("name of haulage base").TakeFocusAsync();
        await page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(page.GetByLabel("name of forest base")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("End");
        await page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(page.GetByLabel("frequency of forest base")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.GetByLabel("emission of forest base")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("nonsense");
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(page.GetByLabel("emission of forest base")).ToHaveValueAsync("11K2F3E");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByLabel("emission of telemetry scanner")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Shift+Enter");
        await Assertions.Expect(page.GetByLabel("emission of forest base")).ToBeFocusedAsync();
        Assert.Equal(before, demo.Read(File));

        // From the head of the page: the first stop skips to the content, and every stop can be seen.
        await page.ReloadAsync();
        await watched.LiveAsync();
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.GetByText("Skip to the content")).ToBeFocusedAsync();
        for (int i = 0; i < 25; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            string outline = await page.EvaluateAsync<string>(
                "() => { const e = document.activeElement; const s = getComputedStyle(e); "
                    + "return e === document.body ? 'body' : s.outlineStyle + ' ' + s.outlineWidth; }");
            Assert.True(outline is "solid 2px" or "auto 1px", $"stop {i}: {outline}");
        }

        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Row_behind_the_last_one_makes_a_new_emitter_and_focus_stays_in_it()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        await page.GetByLabel("name of new emitter").ClickAsync();
        await page.Keyboard.TypeAsync("valley taxi");
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.GetByLabel("frequency of valley taxi")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("161.650 MHz");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.TypeAsync("11K2F3E");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByLabel("emission of valley taxi")).ToHaveValueAsync("11K2F3E");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("18 emitters; nothing is wrong");
        Assert.Contains(
            "  - name: valley taxi\n    frequency: 161.650 MHz\n    emission: 11K2F3E\nsearch:", demo.Read(File), StringComparison.Ordinal);

        await page.GetByRole(AriaRole.Button, new() { Name = "Remove valley taxi" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("name of valley taxi")).ToHaveCountAsync(0);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Rows_pasted_from_a_spreadsheet_are_one_step()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        string before = demo.Read(File);
        ILocator next = page.GetByLabel("name of new emitter");
        await next.TakeFocusAsync();
        await PasteAsync(next, "taxi\t161.650 MHz\t11K2F3E\t-30 dBm\r\nferry, \"east\"\t156.800 MHz\t16K0F3E\t\r\n");
        await Assertions.Expect(page.GetByLabel("level of taxi")).ToHaveValueAsync("-30 dBm");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("19 emitters; nothing is wrong");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo: rows pasted" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("17 emitters");
        Assert.Equal(before, demo.Read(File));

        // A row of keys says which column is which.
        await next.TakeFocusAsync();
        await PasteAsync(next, "frequency\tname\tbandwidth\n156.800 MHz\tferry\t16 kHz\n");
        await Assertions.Expect(page.GetByLabel("frequency of ferry")).ToHaveValueAsync("156.800 MHz");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Chain_is_built_by_mouse_alone()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "an attenuator" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "a filter from its circuit" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("circuit, stage 3")).ToHaveValueAsync("filters/three-tank.circuit.yaml");
        await page.GetByRole(AriaRole.Button, new() { Name = "up, towards the antenna: stage 3, circuit" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("circuit, stage 2")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Remove stage 3, attenuator" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("attenuator, stage 3")).ToHaveCountAsync(0);
        Assert.Contains(
            "- feedline: { loss: 1.2 dB at 145 MHz }\n      - circuit: filters/three-tank.circuit.yaml\n",
            demo.Read(File),
            StringComparison.Ordinal);
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("nothing is wrong");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Further_keys_are_shown_and_added()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "more of repeater input" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("iip2 of repeater input")).ToHaveValueAsync("30 dBm");
        await page.GetByLabel("Add a key to repeater input").SelectOptionAsync("squelch_opens");
        await page.GetByLabel("squelch_opens of repeater input").FillAsync("7 dB");
        await page.GetByLabel("squelch_opens of repeater input").PressAsync("Tab");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Undo: repeater input, squelch opens" })).ToBeEnabledAsync();
        Assert.Contains("squelch_opens: 7 dB", demo.Read(File), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Text_beside_the_tables_is_the_file_with_the_same_findings()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        await page.GetByRole(AriaRole.Link, new() { Name = "Show its text beside the tables" }).ClickAsync();
        ILocator text = page.GetByLabel($"YAML of {File}");
        await Assertions.Expect(text).ToHaveValueAsync(demo.Read(File));
        Assert.EndsWith("?text=yes", page.Url, StringComparison.Ordinal);
        string broken = demo.Read(File).Replace("frequency: 145.650 MHz", "frequency: 145.650", StringComparison.Ordinal);
        await text.FillAsync(broken);
        await page.Locator("h1").ClickAsync();
        await Assertions.Expect(page.Locator("#text-f")).ToContainTextAsync("'145.650' has no unit");
        await Assertions.Expect(page.GetByLabel("frequency of repeater output")).ToHaveAttributeAsync("aria-invalid", "true");
        Assert.Equal(broken, demo.Read(File));

        // Even a broken form leaves the way to mend it.
        await text.FillAsync("site: [\n");
        await page.Locator("h1").ClickAsync();
        await Assertions.Expect(page.GetByText("The form of the file is broken")).ToBeVisibleAsync();
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.GetByLabel("frequency of repeater output")).ToHaveValueAsync("145.650");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Two_tabs_on_one_value_show_both_and_the_user_chooses()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage one = await OpenAsync(demo);
        await using WatchedPage two = await OpenAsync(demo);
        ILocator mine = one.Page.GetByLabel("level of haulage base");
        ILocator theirs = two.Page.GetByLabel("level of haulage base");
        await mine.FillAsync("-20 dBm");
        await theirs.FillAsync("-30 dBm");
        await theirs.PressAsync("Enter");
        await Assertions.Expect(one.Page.GetByText("in the file now: -30 dBm")).ToBeVisibleAsync();
        await Assertions.Expect(mine).ToHaveValueAsync("-20 dBm");
        await mine.PressAsync("Enter");
        ILocator notice = one.Page.Locator(".conflict");
        await Assertions.Expect(notice).ToContainTextAsync("-30 dBm");
        await Assertions.Expect(notice).ToContainTextAsync("-20 dBm");
        Assert.Contains("level: -30 dBm", demo.Read(File), StringComparison.Ordinal);
        await one.Page.GetByRole(AriaRole.Button, new() { Name = "Write mine" }).ClickAsync();
        await Assertions.Expect(notice).ToHaveCountAsync(0);
        await Assertions.Expect(theirs).ToHaveValueAsync("-20 dBm");
        Assert.Contains("level: -20 dBm", demo.Read(File), StringComparison.Ordinal);
        Assert.Empty(one.Complaints);
        Assert.Empty(two.Complaints);
    }

    [Fact]
    public async Task Editor_and_text_on_one_file_keep_both_versions()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync($"/site/{File}?text=yes");
        IPage page = watched.Page;
        ILocator text = page.GetByLabel($"YAML of {File}");
        string before = demo.Read(File);
        string mine = before + "# mine\n";
        await text.FillAsync(mine);
        demo.Write(File, before + "# theirs\n");
        await Assertions.Expect(page.GetByText("both versions are shown")).ToBeVisibleAsync();
        await page.Locator("h1").ClickAsync();
        await Assertions.Expect(page.GetByLabel("yours")).ToHaveValueAsync(mine);
        await Assertions.Expect(page.GetByLabel("in the file now")).ToHaveValueAsync(before + "# theirs\n");
        Assert.Equal(before + "# theirs\n", demo.Read(File));
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep mine as another file" }).ClickAsync();
        await page.WaitForURLAsync("**/site/quernmoss-mine.site.yaml?text=yes");
        Assert.Equal(mine, demo.Read("quernmoss-mine.site.yaml"));
        Assert.Equal(before + "# theirs\n", demo.Read(File));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Text_with_carriage_returns_and_a_mark_keeps_them()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        string before = "\uFEFF" + demo.Read(File).ReplaceLineEndings("\r\n");
        System.IO.File.WriteAllBytes(Path.Combine(demo.Folder, File), System.Text.Encoding.UTF8.GetBytes(before)); // with the mark
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync($"/site/{File}?text=yes");
        ILocator text = watched.Page.GetByLabel($"YAML of {File}");
        await text.FillAsync((await text.InputValueAsync()).Replace("iip2: 30 dBm", "iip2: 31 dBm", StringComparison.Ordinal));
        await watched.Page.Locator("h1").ClickAsync();
        await Assertions.Expect(watched.Page.Locator("#undo")).ToBeEnabledAsync();
        Assert.Equal(
            System.Text.Encoding.UTF8.GetBytes(before.Replace("iip2: 30 dBm", "iip2: 31 dBm", StringComparison.Ordinal)),
            System.IO.File.ReadAllBytes(Path.Combine(demo.Folder, File)));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Server_killed_during_an_edit_and_started_again_loses_no_typing(bool afterLeaving)
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo);
        IPage page = watched.Page;
        ILocator level = page.GetByLabel("level of haulage base");
        await level.ClickAsync();
        await level.FillAsync("-21");
        await demo.KillAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToHaveTextAsync("Not connected. Your typing is kept; trying again.");
        await level.PressAsync("End");
        await page.Keyboard.TypeAsync(" dBm");
        if (afterLeaving)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "an attenuator" }).ClickAsync(); // dead: nothing happens
        await demo.RestartAsync();
        await Assertions.Expect(page.Locator("#lost")).ToBeHiddenAsync();
        await watched.LiveAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Undo: haulage base, level" })).ToBeEnabledAsync();
        await Assertions.Expect(level).ToHaveValueAsync("-21 dBm");
        Assert.Contains("level: -21 dBm", demo.Read(File), StringComparison.Ordinal);
        Assert.DoesNotContain("attenuator", demo.Read(File), StringComparison.Ordinal);

        // What the browser itself says of a server that is not there is no fault of the page; from here on it is silent again.
        watched.Forgive();
        await level.FillAsync("-22 dBm");
        await level.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#redo")).ToBeDisabledAsync();
        Assert.Empty(watched.Complaints);
    }

    private static Task PasteAsync(ILocator cell, string text) => cell.EvaluateAsync(
        "(e, text) => { const d = new DataTransfer(); d.setData('text/plain', text); "
            + "e.dispatchEvent(new ClipboardEvent('paste', { clipboardData: d, bubbles: true, cancelable: true })); }",
        text);

    private async Task<WatchedPage> OpenAsync(ServedFolder demo)
    {
        WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync($"/site/{File}");
        return watched;
    }
}
