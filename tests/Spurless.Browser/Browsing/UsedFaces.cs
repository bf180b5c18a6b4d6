using System.Text.Json;
using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>What the browser itself says of the faces that it drew a page's texts with.</summary>
internal static class UsedFaces
{
    /// <summary>Texts that are drawn in a face that the page did not bring along, with that face.</summary>
    public static async Task<List<string>> ForeignAsync(WatchedPage watched)
    {
        await watched.Page.EvaluateAsync("() => document.fonts.ready.then(() => true)");
        ICDPSession session = await watched.Page.Context.NewCDPSessionAsync(watched.Page);
        await session.SendAsync("DOM.enable");
        await session.SendAsync("CSS.enable");
        JsonElement root = (await session.SendAsync("DOM.getDocument"))!.Value;
        JsonElement nodes = (await session.SendAsync("DOM.querySelectorAll", new Dictionary<string, object>
        {
            ["nodeId"] = root.GetProperty("root").GetProperty("nodeId").GetInt32(),
            ["selector"] = "h1, h2, h3, p, td, th, caption, figcaption, li, dt, dd, label, button, a, b, text, .eq, .who, .unit",
        }))!.Value;
        List<string> faults = [];
        int seen = 0;
        foreach (int node in nodes.GetProperty("nodeIds").EnumerateArray().Select(static n => n.GetInt32()))
        {
            JsonElement used;
            try
            {
                used = (await session.SendAsync(
                    "CSS.getPlatformFontsForNode", new Dictionary<string, object> { ["nodeId"] = node }))!.Value;
            }
            catch (PlaywrightException gone) when (gone.Message.Contains("Could not find node", StringComparison.Ordinal))
            {
                continue; // the page has drawn itself anew in the meantime
            }

            foreach (JsonElement font in used.GetProperty("fonts").EnumerateArray())
            {
                seen++;
                if (!font.GetProperty("isCustomFont").GetBoolean())
                {
                    JsonElement outer = (await session.SendAsync(
                        "DOM.getOuterHTML", new Dictionary<string, object> { ["nodeId"] = node }))!.Value;
                    string html = outer.GetProperty("outerHTML").GetString()!;
                    faults.Add($"{font.GetProperty("familyName").GetString()}: {html[..Math.Min(html.Length, 160)]}");
                }
            }
        }

        Assert.InRange(seen, 10, 100_000);
        return faults;
    }
}
