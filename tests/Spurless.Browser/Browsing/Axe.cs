using System.Text.Json;
using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>A rule that is broken, and where.</summary>
/// <param name="Id">The rule's name.</param>
/// <param name="Help">What it asks.</param>
/// <param name="Nodes">The places that break it.</param>
internal sealed record BrokenRule(string Id, string Help, IReadOnlyList<BrokenPlace> Nodes);

/// <summary>A place that breaks a rule.</summary>
/// <param name="Html">Its markup.</param>
internal sealed record BrokenPlace(string Html);

/// <summary>What the rules of accessibility say of a page.</summary>
/// <param name="Violations">What is broken.</param>
/// <param name="Passes">Names of the rules that hold.</param>
internal sealed record AxeFindings(IReadOnlyList<BrokenRule> Violations, IReadOnlyList<string> Passes);

/// <summary>
/// Holds pages against the rules of accessibility with the script that the library bundles. Its own way of running it opens a second page
/// and sends every place that keeps a rule twice, many times the work on a page of hundreds of rows. Frames are left out: the only one
/// holds a report, and reports are looked at by themselves.
/// </summary>
internal static class Axe
{
    private const string Run =
        """
        async () => {
          const found = await axe.run(document, { resultTypes: ['violations'], iframes: false });
          return JSON.stringify({
            Violations: found.violations.map(v => ({ Id: v.id, Help: v.help, Nodes: v.nodes.map(n => ({ Html: n.html })) })),
            Passes: found.passes.map(p => p.id),
          });
        }
        """;

    private static readonly Lazy<string> Script = new(static () => new BundledAxeScriptProvider().GetScript());

    public static async Task<AxeFindings> RulesAsync(this IPage page)
    {
        if (!await page.EvaluateAsync<bool>("() => typeof axe === 'object'"))
        {
            await page.EvaluateAsync(Script.Value);
        }

        return JsonSerializer.Deserialize<AxeFindings>(await page.EvaluateAsync<string>(Run))!;
    }
}
