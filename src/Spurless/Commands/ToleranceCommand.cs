using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bench;
using Spurless.Sites;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Sites.Tolerances;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>tolerance CIRCUIT</c>: what becomes of it when it is built.</summary>
internal static class ToleranceCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("CIRCUIT", "a circuit file");
        Option<int?> samples = OptionKinds.Parsed<int>("--samples", "N", "how many specimens to draw; default 10000", TrySamples);
        Option<ulong?> seed = OptionKinds.Parsed<ulong>("--seed", "N", "another seed draws other specimens; default 1", TrySeed);
        Option<string?> mask = OptionKinds.Text("--mask", "REQUIREMENT", "a requirement file: how many specimens keep all of it");
        Option<TemperatureRange?> temperature = OptionKinds.Parsed<TemperatureRange>(
            "--temperature", "T",
            "range in which each specimen has some temperature, like \"-10..40 C\"; default 20 C, where values hold",
            TemperatureRange.TryParse);
        Option<OtherTolerance?> others = OptionKinds.Parsed<OtherTolerance>(
            "--others", "T", "tolerance of the parts that state none, like \"5 %\", \"2 % normal\" or E24", OtherTolerances.TryParse);
        SweepOptions sweep = new(ToleranceQuestion.MostPoints);

        Verb tolerance = new("tolerance", "says how far a circuit's response spreads when it is built, and which part does most of it")
        {
            Details =
                "Draws specimens by chance within each part's 'tolerance:' and 'ppm:'. The same seed gives the "
                    + "same result on any machine. S21 at 5 % is the value that one " +
                "specimen in twenty falls below. Without frequencies: 201 round the pass-band and the mask.",
            Examples =
            [
                new("tolerance demo/filters/three-tank.circuit.yaml --at \"145.05 MHz\" --samples 8000",
                    "The demo's filter, every part within 5 %, untuned: half lose over 5 dB."),
                new(
                    "tolerance demo/filters/three-tank.circuit.yaml --mask "
                        + "demo/filters/quiet-input.requirement.yaml --temperature \"-10..40 C\"",
                    "How many keep a requirement."),
                new(
                    "tolerance demo/filters/three-tank.circuit.yaml --mask "
                        + "demo/filters/quiet-input.requirement.yaml --format html --out sheet.html",
                    "The bench sheet, with the band and what is needed in the plots."),
            ],
        };
        tolerance.Add(file);
        foreach (Option option in (Option[])[samples, seed, mask, temperature, others])
        {
            tolerance.Add(option);
        }

        sweep.AddTo(tolerance);
        tolerance.Does(terminal, new OutputOptions("text", "json", "csv", "html"), async (context, cancel) =>
        {
            FrequencyChoice? frequencies = sweep.Frequencies(context);
            DiagnosticBag findings = new();
            SourceFile? ofCircuit = await context.SourceAsync(context.Value(file), FileKind.Circuit, findings, cancel)
                .ConfigureAwait(false);
            CircuitFile? circuit = ofCircuit is null ? null : SourceReader.Circuit(ofCircuit, findings);
            SourceFile? ofMask = context.Value(mask) is { } path
                ? await context.SourceAsync(path, FileKind.Requirement, findings, cancel).ConfigureAwait(false)
                : null;
            RequirementFile? required = ofMask is null ? null : SourceReader.Requirement(ofMask, findings);
            ToleranceAnswer? answer = null;
            if (circuit is not null && !findings.HasErrors)
            {
                ToleranceQuestion question = new()
                {
                    Circuit = circuit.Circuit,
                    Others = context.Value(others),
                    Frequencies = frequencies,
                    ForPlots = context.Format == "html",
                    Requirement = required?.Requirement,
                    Inputs = [.. circuit.Inputs, .. required is null ? Array.Empty<InputFile>() : [required.Source.Input]],
                };
                answer = Ask(context, question with
                {
                    Samples = context.Value(samples) ?? question.Samples,
                    Seed = context.Value(seed) ?? question.Seed,
                    LowestC = context.Value(temperature)?.LowestC ?? question.LowestC,
                    HighestC = context.Value(temperature)?.HighestC ?? question.HighestC,
                }, cancel).Told(findings, circuit, ofMask?.Path);
            }

            int status = context.Tell(findings.InOrder());
            if (answer is null || status != ExitStatus.Done)
            {
                return status;
            }

            string? page = context.Format == "html"
                ? await BenchReport.RenderAsync(BenchSheetInput.Of(answer), CommandContext.Made).ConfigureAwait(false)
                : null;
            return context.Format switch
            {
                "json" => context.WriteBytes(to => ToleranceWriter.WriteJson(answer, to)),
                "csv" => context.Write(to => ToleranceWriter.WriteCsv(answer, to)),
                "html" => context.Write(to => to.Write(page)),
                _ => context.Write(to => ToleranceWriter.WriteText(answer, to, context.Ink)),
            };
        });
        return tolerance;
    }

    private static Outcome<ToleranceAnswer> Ask(CommandContext context, ToleranceQuestion question, CancellationToken cancel)
    {
        using ProgressLine line = context.Progress("drawing specimens");
        Outcome<ToleranceAnswer> outcome = ToleranceService.Ask(question, line, cancel);
        return outcome.Refusal?.Subject == nameof(ToleranceQuestion.Samples) ? throw new UsageException(outcome.Problem) : outcome;
    }

    private static bool TrySamples(string text, out int value, out string problem)
    {
        problem = $"'{text.Trim()}' is no number of samples; write 20 to 10000000";
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value)
            && value is >= ToleranceQuestion.LeastSamples and <= ToleranceQuestion.MostSamples;
    }

    private static bool TrySeed(string text, out ulong value, out string problem)
    {
        problem = $"'{text.Trim()}' is no seed; write a whole number of 0 or more";
        return ulong.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);
    }
}
