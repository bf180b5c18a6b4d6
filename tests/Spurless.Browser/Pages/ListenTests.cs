using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The page that says what kind of transmission is on a recording, or on the sound that comes in.</summary>
public class ListenTests(BrowserFixture browser)
{
    [Fact]
    public async Task Recording_of_the_folder_leads_to_its_mixture_and_a_mark_to_its_evidence()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync("/listen/recordings/warble.wav?site=quernmoss.site.yaml");
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("paging, 1200 bit/s");
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("waterworks base");

        // The bars of the picture are marks: a click shows by what the kind is known.
        await watched.Page.Locator(".heard rect.mark").First.ClickAsync();
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Region, new() { Name = "Evidence" })).ToBeVisibleAsync();
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "paging, 1200 bit/s" }).ClickAsync();
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Region, new() { Name = "Evidence" })).ToContainTextAsync("4 sync words");
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Img, new() { Name = "Spectrum while it was on" })).ToBeVisibleAsync();

        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Img, new() { Name = "Eye" })).ToBeVisibleAsync();

        // Taken as evidence it stands beside the site file and in it.
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Take it as evidence" }).ClickAsync();
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Link, new() { Name = "what it says now" })).ToBeVisibleAsync();
        Assert.Contains("  - log: warble.log.csv", demo.Read("quernmoss.site.yaml"), StringComparison.Ordinal);
        Assert.Contains("time,repeater input", demo.Read("warble.log.csv"), StringComparison.Ordinal);

        // The browser's own player stands where the kind begins (9.6 s), and the line on the picture with it.
        await watched.Page.WaitForFunctionAsync("() => Math.abs(document.getElementById('sound').currentTime - 9.6) < 0.2");
        await watched.Page.WaitForFunctionAsync(
            "() => (document.querySelector('[data-head]').getAttribute('transform') ?? '').startsWith('translate(2')");
        AssertCalm(watched);
    }

    [Fact]
    public async Task Recording_that_is_dropped_is_heard_and_stays_out_of_the_folder()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        string outside = Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N") + ".wav");
        File.Move(Path.Combine(demo.Folder, "recordings", "warble.wav"), outside);
        try
        {
            await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
            await watched.GoAsync("/listen?site=none");
            await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("Drop a recording");
            await watched.Page.Locator("input[type=file]").GiveAsync([outside]);
            await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("paging, 1200 bit/s");
            Assert.DoesNotContain(
                Directory.GetFiles(demo.Folder, "*", SearchOption.AllDirectories),
                static f => f.EndsWith(".wav", StringComparison.Ordinal));
            AssertCalm(watched);
        }
        finally
        {
            File.Delete(outside);
        }
    }

    /// <summary>The browser's sound input is replaced by an oscillator of its own at 1,000 Hz.</summary>
    [Fact]
    public async Task Live_sound_gets_its_label()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.Page.AddInitScriptAsync("""
            navigator.mediaDevices.getUserMedia = async () => {
              const context = new AudioContext({ sampleRate: 48000 });
              await context.resume();
              const tone = context.createOscillator(), gain = context.createGain(), out = context.createMediaStreamDestination();
              tone.frequency.value = 1000; gain.gain.value = 0.3;
              tone.connect(gain).connect(out);
              tone.start();
              return out.stream;
            };
            """);
        await watched.GoAsync("/listen");
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Listen live" }).ClickAsync();
        await Assertions.Expect(watched.Page.Locator("section[aria-label=Live] p.live")).ToContainTextAsync("tone, 1000.0 Hz");
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Stop listening" }).ClickAsync();
        await Assertions.Expect(watched.Page.Locator("section[aria-label=Live]")).ToHaveCountAsync(0);
        Assert.DoesNotContain(watched.Complaints, static c => c.Contains("error", StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The browser's player breaks off a request once it has what it wants for now; nothing else may fail.</summary>
    private static void AssertCalm(WatchedPage watched) =>
        Assert.DoesNotContain(
            watched.Complaints,
            static c => !c.Contains("/recordings/sound?", StringComparison.Ordinal) || c.Contains("status", StringComparison.Ordinal));
}
