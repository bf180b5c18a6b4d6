using Spurless.Files.Diagnostics;
using Spurless.Sites.Plans;

namespace Spurless.Workbench.Plans;

/// <summary>A question about channels as the page asks it.</summary>
/// <param name="Text">The site file's text that it is about.</param>
/// <param name="Band">The band that holds, as one would type it.</param>
/// <param name="Raster">The raster that holds, as one would type it.</param>
/// <param name="Faults">By field, what is wrong with what was typed: 'what; what to write instead'.</param>
/// <param name="Findings">What is wrong with the band plan.</param>
public sealed record AskedPlan(
    string Text, string Band, string Raster, IReadOnlyDictionary<string, string> Faults, IReadOnlyList<Diagnostic> Findings)
{
    /// <summary>The question; null where something is wrong with what was typed.</summary>
    public PlanQuestion? Question { get; init; }
}
