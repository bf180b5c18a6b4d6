using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Plans;
using Spurless.Sites;
using Spurless.Sites.Documents;
using Spurless.Sites.Plans;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>plan SITE</c>: the channels of a band on which a receiver would be quiet.</summary>
internal static class PlanCommand
{
    /// <summary>Which option a refusal of the service is about.</summary>
    private static readonly Dictionary<string, string> OptionOf = new(StringComparer.Ordinal)
    {
        [nameof(PlanQuestion.FromHz)] = "--band",
        [nameof(PlanQuestion.RasterHz)] = "--raster",
        [nameof(PlanQuestion.ShiftHz)] = "--shift",
        [nameof(PlanQuestion.Count)] = "--count",
        [nameof(PlanQuestion.Receiver)] = "--receiver",
    };

    public static Command Create(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.File("SITE", "the site file");
        Option<FrequencyRange?> band = OptionKinds.Parsed<FrequencyRange>(
            "--band", "F-F", "the lowest and the highest channel, like \"145.0 MHz-145.8 MHz\"", FrequencyRange.TryParse);
        Option<Frequency?> raster = OptionKinds.Parsed<Frequency>(
            "--raster", "F", "from one channel to the next, like \"12.5 kHz\"", OptionKinds.TryParseWidth);
        Option<Frequency?> shift = OptionKinds.Parsed<Frequency>(
            "--shift", "F", "transmit less receive frequency, like \"-600 kHz\"; default: our transmitter keeps its distance",
            OptionKinds.TryParseWidth);
        Option<int?> count = OptionKinds.Parsed<int>("--count", "M", "also M channels that are quiet side by side", Count);
        Option<string?> receiver = OptionKinds.Text("--receiver", "NAME", "the receiver that is moved; default the site's first");
        Option<string?> plan = OptionKinds.Text(
            "--band-plan", "FILE", "a CSV with the heads from, to and use: any, receive only, transmit only or forbidden");
        band.Required = true;
        raster.Required = true;
        Verb verb = new("plan", "lists the channels of a band on which no mixture would land, best first")
        {
            Details =
                "Every channel is scored for the receiver moved there with the transmitter that follows it and the chain as it is; both "
                    + "edges of the band are channels. Channels on which something stands are never offered. Coordination and the licence "
                    + "decide, not this list.",
            Examples =
            [
                new("plan demo/quernmoss.site.yaml --band \"145.0 MHz-145.8 MHz\" --raster \"12.5 kHz\"",
                    "The invented demo: the repeater on every channel of a band."),
                new("plan demo/quernmoss.site.yaml --band \"145.0 MHz-145.2 MHz\" --raster \"25 kHz\" --count 2",
                    "Two channels that bear two repeaters side by side."),
            ],
        };
        verb.Add(site);
        foreach (Option option in (Option[])[band, raster, shift, count, receiver, plan])
        {
            verb.Add(option);
        }

        verb.Does(terminal, new OutputOptions("text", "json", "csv", "html"), async (context, cancel) =>
        {
            string path = context.Value(site);
            DiagnosticBag findings = new();
            BandPlan? bandPlan = await BandPlanAsync(context, context.Value(plan), findings, cancel).ConfigureAwait(false);
            SourceFile? source = await context.SourceAsync(path, FileKind.Site, findings, cancel).ConfigureAwait(false);
            LoadedSite? loaded = source is null ? null : SourceReader.Site(source, findings);
            if (context.Tell(findings.InOrder()) != ExitStatus.Done || loaded is null)
            {
                return ExitStatus.Input;
            }

            return await PlanAsync(context, path, new PlanQuestion
            {
                Site = loaded,
                FromHz = context.Value(band)!.Value.From.Hertz,
                ToHz = context.Value(band)!.Value.To.Hertz,
                RasterHz = context.Value(raster)!.Value.Hertz,
                ShiftHz = context.Value(shift)?.Hertz,
                Count = context.Value(count),
                Receiver = context.Value(receiver),
                BandPlan = bandPlan,
            }, cancel).ConfigureAwait(false);
        });
        return verb;
    }

    private static async Task<BandPlan?> BandPlanAsync(
        CommandContext context, string? path, DiagnosticBag findings, CancellationToken cancel) =>
        path is not null && await context.SourceAsync(path, FileKind.BandPlan, findings, cancel).ConfigureAwait(false) is { } source
            ? BandPlanReader.Read(source.Bytes, source.Path, findings)
            : null;

    private static async Task<int> PlanAsync(CommandContext context, string path, PlanQuestion question, CancellationToken cancel)
    {
        Outcome<PlanAnswer> outcome;
        using (ProgressLine line = context.Progress("searching"))
        {
            outcome = PlanService.Ask(question, new SearchProgressLine(line), cancel);
        }

        if (outcome.Answer is not { } answer)
        {
            if (outcome.Refusal?.Subject is { } subject && OptionOf.TryGetValue(subject, out string? option))
            {
                throw new UsageException($"{option}: {outcome.Problem}");
            }

            context.Terminal.Error.WriteLine($"{path}:0:0: {outcome.Problem}");
            return ExitStatus.Input;
        }

        string? page = context.Format == "html"
            ? await PlanReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false)
            : null;
        return context.Format switch
        {
            "json" => context.WriteBytes(to => PlanWriter.WriteJson(answer, to)),
            "csv" => context.Write(to => PlanWriter.WriteCsv(answer, to)),
            "html" => context.Write(to => to.Write(page)),
            _ => context.Write(to => PlanWriter.WriteText(answer, to, context.Ink)),
        };
    }

    private static bool Count(string text, out int value, out string problem)
    {
        problem = $"'{text.Trim()}' is no number of channels; write 1 to {PlanQuestion.MostTogether}";
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value)
            && value is >= 1 and <= PlanQuestion.MostTogether;
    }
}
