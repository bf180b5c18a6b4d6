using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;
using static Microsoft.Playwright.Assertions;

namespace Spurless.Browser.Pages;

/// <summary>A circuit built from nothing by mouse and by keyboard, and changed afterwards.</summary>
public class BuildTests(BrowserFixture browser, ServeFixture serve)
{
    private int _actions;

    [Fact]
    public async Task Three_tank_filter_of_the_demo_is_built_from_an_empty_circuit_in_under_sixty_actions()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: empty.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/");
        await DoAsync(page.GetByText("New from a template").ClickAsync());
        await DoAsync(page.GetByRole(AriaRole.Button, new() { Name = "An empty circuit, to build by mouse" }).ClickAsync());
        await Expect(page.Locator("h1")).ToContainTextAsync("No part yet");
        ILocator kind = page.GetByLabel("Kind of the new part");

        // The demo's file: C1 a-b, tank at b, C3 b-c, tank at c, C5 c-e, tank at e, C7 e-d. The port 'out' is b in the empty file.
        await DoAsync(page.GetByLabel("Node of the output").FillAsync("d"));
        await DoAsync(page.GetByLabel("Node of the output").PressAsync("Enter"));
        await Expect(page.Locator("g.pick[data-target='node d'][role=button]")).ToHaveCountAsync(1);
        (string Kind, string From, string To, string Value)[] parts =
        [
            ("capacitor", "a", "b", "6.8 pF"), ("capacitor", "b", "gnd", "36 pF"), ("capacitor", "b", "c", "1.6 pF"), ("capacitor", "c",
                "gnd", "39 pF"), ("capacitor", "c", "e", "1.6 pF"),
            ("capacitor", "e", "gnd", "36 pF"), ("capacitor", "e", "d", "6.8 pF"), ("inductor", "b", "gnd", "27.6 nH"), ("inductor", "c",
                "gnd", "28.6 nH"), ("inductor", "e", "gnd", "27.6 nH"),
        ];
        string before = "capacitor";
        for (int i = 0; i < parts.Length; i++)
        {
            (string what, string from, string to, string value) = parts[i];
            if (what != before)
            {
                await DoAsync(kind.SelectOptionAsync(what));
                before = what;
            }

            await DrawAsync(page, from, to);
            await Expect(page.GetByLabel("Second node of the new part")).ToHaveValueAsync(to);
            ILocator typed = page.GetByLabel(what == "capacitor" ? "Capacitance of the new part" : "Inductance of the new part");
            if (i is 0 or 7)
            {
                await DoAsync(page.GetByLabel("Q of the new part").FillAsync(i == 0 ? "400 at 145.05 MHz" : "160 at 145.05 MHz"));
                await DoAsync(page.GetByLabel("Tolerance of the new part").FillAsync("5 %"));
            }

            await DoAsync(typed.FillAsync(value));
            await DoAsync(typed.PressAsync("Enter"));
            await Expect(page.GetByRole(AriaRole.Region, new() { Name = "Parts of the circuit" }).Locator("tbody tr:has(button)"))
                .ToHaveCountAsync(i + 1);
        }

        // As the demo's own file without a site.
        await Expect(page.Locator("h1")).ToHaveTextAsync("Passes best at 145.0242\u00A0MHz, with 2.9\u00A0dB loss.");
        string says = string.Create(CultureInfo.InvariantCulture, $"three tanks from an empty circuit: {_actions} actions");
        TestContext.Current.TestOutputHelper?.WriteLine(says);
        TestContext.Current.SendDiagnosticMessage(says);
        Assert.InRange(_actions, 1, 59);
        string text = empty.Read("new.circuit.yaml");
        Assert.Contains("\n  C1: { capacitor: 6.8 pF, between: [a, b], q: 400 at 145.05 MHz, tolerance: 5 % }\n", text,
            StringComparison.Ordinal);
        Assert.Contains("\n  L3: { inductor: 27.6 nH, between: [e, gnd], q: 160 at 145.05 MHz, tolerance: 5 % }\n", text,
            StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Parts_are_renamed_reconnected_copied_deleted_and_given_further_values_and_undo_takes_each_back()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        const string file = "filters/three-tank.circuit.yaml";
        string before = demo.Read(file);
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/build/" + file + "?text=yes");
        ILocator rows = page.GetByRole(AriaRole.Region, new() { Name = "Parts of the circuit" }).Locator("tbody tr:has(button)");
        await Expect(rows).ToHaveCountAsync(10);
        await page.GetByRole(AriaRole.Button, new() { Name = "Copy L2" }).ClickAsync();
        await Expect(rows).ToHaveCountAsync(11);
        Assert.Contains("\n  L4: { inductor: 28.6 nH, between: [c, gnd]", demo.Read(file), StringComparison.Ordinal);
        await TypeAsync(page.GetByLabel("Second node of L4"), "e");
        await Expect(page.GetByLabel("YAML of " + file)).ToHaveValueAsync(new System.Text.RegularExpressions.Regex(
            @"L4: \{ inductor: 28.6 nH, between: \[c, e\]"));
        await TypeAsync(page.GetByLabel("Name of L4"), "Lx");
        await Expect(page.GetByLabel("Name of Lx")).ToHaveValueAsync("Lx");

        // A coupling follows the name of its coil, and goes with it.
        await page.GetByLabel("Kind of the new part").SelectOptionAsync("coupling");
        await page.GetByLabel("Coefficient of the new part").FillAsync("0.01");
        await page.GetByLabel("Coils of the new part").FillAsync("L1, Lx");
        await page.GetByLabel("Coils of the new part").PressAsync("Enter");
        await Expect(rows).ToHaveCountAsync(12);
        await TypeAsync(page.GetByLabel("Name of Lx"), "L9");
        await Expect(page.GetByLabel("YAML of " + file)).ToHaveValueAsync(new System.Text.RegularExpressions.Regex(
            @"M1: \{ coupling: 0.01, of: \[L1, L9\]"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Delete L9" }).ClickAsync();
        await Expect(rows).ToHaveCountAsync(10);
        await Expect(page.Locator("#undo")).ToContainTextAsync("L9 and its coupling M1 deleted");

        await page.GetByRole(AriaRole.Button, new() { Name = "More of C2" }).ClickAsync();
        await TypeAsync(page.GetByLabel("Rated of C2"), "100 V, 2 A");
        await TypeAsync(page.GetByLabel("Tolerance of C2"), "E24");
        await Expect(page.GetByLabel("YAML of " + file)).ToHaveValueAsync(new System.Text.RegularExpressions.Regex(
            @"C2: \{ capacitor: 36 pF,  between: \[b, gnd\], q: 400 at 145.05 MHz, tolerance: E24, rated: \[100 V, 2 A\]"));

        // What cannot be read stays as typed, said at its part.
        await TypeAsync(page.GetByLabel("Capacitance of C3"), "1,6 pF");
        await Expect(page.Locator(".faultrow")).ToContainTextAsync("C3:");
        await Expect(page.GetByLabel("Capacitance of C3")).ToHaveValueAsync("1,6 pF");
        await page.GetByRole(AriaRole.Button, new() { Name = "write 1.6 pF" }).ClickAsync();
        await Expect(page.GetByLabel("Capacitance of C3")).ToHaveValueAsync("1.6 pF");
        await Expect(page.Locator(".faultrow")).ToHaveCountAsync(0);
        for (int i = 0; i < 20 && demo.Read(file) != before; i++)
        {
            string told = await page.Locator("#undo").InnerTextAsync();
            await page.Locator("#undo").ClickAsync();
            await Expect(page.Locator("#undo")).Not.ToHaveTextAsync(told);
        }

        Assert.Equal(before, demo.Read(file));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Board_is_one_stop_for_the_keys_with_arrows_inside_and_a_part_is_added_by_keyboard_alone()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        empty.Write("one.circuit.yaml",
            "spurless_circuit: 1\nname: one (invented)\nports: { in: a, out: b, impedance: 50 ohm }\nparts:\n"
            + "  R1: { resistor: 10 ohm, between: [a, b] }\n");
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: empty.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/build/one.circuit.yaml");
        Assert.Equal(1, await page.Locator("svg.onestop g.pick[tabindex='0']").CountAsync());
        await page.Locator("g.pick[data-target='node a'][role=button]").TakeFocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowRight");
        string reached = await page.EvaluateAsync<string>("document.activeElement.dataset.target");
        Assert.StartsWith("node ", reached, StringComparison.Ordinal);
        await page.Locator("g.pick[data-target='node gnd'][role=button]").TakeFocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Second node of the new part")).ToHaveValueAsync("gnd");
        ILocator value = page.GetByLabel("Capacitance of the new part");
        await value.TakeFocusAsync();
        await page.Keyboard.TypeAsync("10 pF");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Name of C1")).ToHaveValueAsync("C1");
        Assert.Contains("C1: { capacitor: 10 pF, between: [a, gnd] }", empty.Read("one.circuit.yaml"), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData(1280, false)]
    [InlineData(1280, true)]
    [InlineData(390, false)]
    [InlineData(390, true)]
    public async Task Page_at_both_widths_and_themes_breaks_no_rule_and_no_text_meets_another(int width, bool dark)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(width, 900, dark, demo.Address);
        await watched.GoAsync("/build/filters/three-tank.circuit.yaml?text=yes");
        await watched.Page.Locator("g.pick[data-target='part C3']").First.ClickAsync();
        await Expect(watched.Page.Locator("tr.further")).ToHaveCountAsync(1);
        await watched.Page.ScreenshotAsync(new()
        {
            Path = Artifacts.File(string.Create(CultureInfo.InvariantCulture,
            $"build-{width}{(dark ? "-dark" : "")}.png")),
            FullPage = true
        });
        Assert.Empty((await TextBoxes.LookAsync(watched.Page)).Problems);
        AxeFindings axe = await watched.Page.RulesAsync();
        Assert.Empty(axe.Violations.Select(static v =>
            $"{v.Id}: {v.Help} at {string.Join(", ", v.Nodes.Take(3).Select(static n => n.Html))}"));
        Assert.Empty(watched.Complaints);
    }

    private static async Task TypeAsync(ILocator field, string value)
    {
        await field.FillAsync(value);
        await field.PressAsync("Enter");
    }

    // One gesture: pressed on one node, let go over another.
    private async Task DrawAsync(IPage page, string from, string to)
    {
        await page.Locator($"g.pick[data-target='node {from}'] circle.hit").DragToAsync(page.Locator(
            $"g.pick[data-target='node {to}'] circle.hit"), new() { Force = true });
        _actions++;
    }

    private Task DoAsync(Task action)
    {
        _actions++;
        return action;
    }
}
