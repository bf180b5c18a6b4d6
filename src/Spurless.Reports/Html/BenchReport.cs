using Spurless.Circuits.Parts;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;
using Spurless.Reports.Bench;
using Spurless.Reports.Drawing.Responses;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Html;

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
}

/// <summary>The bench sheet: one self-contained page with schematic, response, stress, tolerance, parts, assumptions and cautions.</summary>
public static class BenchReport
{
    private const int WidePoints = 161;
    private const int DetailPoints = 121;

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

    /// <summary>The frequencies in hertz that a tolerance run needs so that the sheet's plots can show its band: those of its two frames, of the mask, and those asked for.</summary>
    /// <param name="network">The network.</param>
    /// <param name="name">Its name.</param>
    /// <param name="mask">The mask; empty for none.</param>
    /// <param name="asked">Those asked for; empty for none.</param>
    public static double[] Frequencies(ITwoPort network, string name, IReadOnlyList<MaskLine> mask, IReadOnlyList<double> asked)
    {
        ArgumentNullException.ThrowIfNull(mask);
        ResponseView view = BenchView.Frames(network, name, mask, asked);
        return [.. Circuits.Response.FrequencyGrid.Logarithmic(view.WideFrom, view.WideTo, WidePoints)
            .Concat(view.DetailTo > view.DetailFrom ? Circuits.Response.FrequencyGrid.Linear(view.DetailFrom, view.DetailTo, DetailPoints) : [])
            .Concat(asked)
            .Concat(mask.Where(static m => m.MostLossDb is not null).SelectMany(static m => new[] { m.FromHz, (m.FromHz + m.ToHz) / 2, m.ToHz }))
            .Where(f => f >= network.LowestHz && f <= network.HighestHz).Distinct().Order()];
    }
}
