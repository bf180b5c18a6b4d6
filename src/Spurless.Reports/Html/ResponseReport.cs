using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.TwoPorts;
using Spurless.Reports.Responses;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Html;

/// <summary>What a response report is made of.</summary>
public sealed record ResponseReportInput
{
    /// <summary>The figures.</summary>
    public required ResponseResult Result { get; init; }

    /// <summary>The network itself, for its curves between the points.</summary>
    public required ITwoPort Network { get; init; }

    /// <summary>The circuit, for its schematic; null for a measured file.</summary>
    public required Circuit? Circuit { get; init; }

    /// <summary>A receiver of a site, for the losses at its channel and its carriers; null without a site.</summary>
    public ReceiverFindings? Receiver { get; init; }

    /// <summary>What the network takes from each emitter of the site, in the site file's order; empty without a site.</summary>
    public IReadOnlyList<CarrierLoss> Losses { get; init; } = [];

    /// <summary>The files read.</summary>
    public IReadOnlyList<InputFile> Inputs { get; init; } = [];
}

/// <summary>The report of a circuit's or a sweep's response: one self-contained page.</summary>
public static class ResponseReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="input">What it shows.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(ResponseReportInput input, ReportContext context) =>
        PageRenderer.RenderAsync<ResponsePage>(new Dictionary<string, object?>
        {
            [nameof(ResponsePage.Input)] = input,
            [nameof(ResponsePage.Context)] = context,
        });
}
