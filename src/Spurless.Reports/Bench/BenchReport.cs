using Spurless.Circuits.Parts;
using Spurless.Circuits.Stress;
using Spurless.Circuits.TwoPorts;
using Spurless.Drawing.Responses;
using Spurless.Reports.Html;
using Spurless.Sites.Sources;
using Spurless.Sites.Stresses;
using Spurless.Sites.Tolerances;

namespace Spurless.Reports.Bench;

/// <summary>What a bench sheet is made of.</summary>
public sealed record BenchSheetInput
{
    /// <summary>The circuit.</summary>
    public required Circuit Circuit { get; init; }

    /// <summary>The same as a two-port at its values as drawn.</summary>
    public required ITwoPort Network { get; init; }

    /// <summary>What transmitting does to it; null where that was not asked.</summary>
    public StressResult? Stress { get; init; }

    /// <summary>What tolerances do to it; null where that was not asked.</summary>
    public ToleranceReading? Tolerance { get; init; }

    /// <summary>Points of a sweep of its gain, in dB; empty without one.</summary>
    public IReadOnlyList<PlotReading> MeasuredGain { get; init; } = [];

    /// <summary>The sweep's name; null without one.</summary>
    public string? MeasuredName { get; init; }

    /// <summary>The files read.</summary>
    public IReadOnlyList<InputFile> Inputs { get; init; } = [];

    /// <summary>The sheet of a stress computation.</summary>
    public static BenchSheetInput Of(StressAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new BenchSheetInput
        {
            Circuit = answer.Question.Circuit,
            Network = answer.Network,
            Stress = answer.Result,
            Inputs = answer.Question.Inputs,
        };
    }

    /// <summary>The sheet of a tolerance run.</summary>
    public static BenchSheetInput Of(ToleranceAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new BenchSheetInput
        {
            Circuit = answer.Circuit,
            Network = answer.Network,
            Tolerance = ToleranceReading.Of(answer),
            Inputs = answer.Question.Inputs,
        };
    }
}

/// <summary>
/// The bench sheet: one self-contained page with schematic, response, stress, tolerance, parts, assumptions and cautions.
/// </summary>
public static class BenchReport
{
    /// <summary>Renders the sheet.</summary>
    /// <param name="input">What it shows.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(BenchSheetInput input, ReportContext context) =>
        PageRenderer.RenderAsync<BenchPage>(new Dictionary<string, object?>
        {
            [nameof(BenchPage.Input)] = input,
            [nameof(BenchPage.Context)] = context,
        });
}
