using System.CommandLine;
using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Response;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bench;
using Spurless.Reports.Html;
using Spurless.Sites.Networks;
using Spurless.Sites.Studies;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>tolerance CIRCUIT</c>: what becomes of it when it is built.</summary>
internal static class ToleranceCommand
{
    private const int DefaultSamples = 10_000;
    private const int DefaultPoints = 201;
    private const int MostPoints = 10_001;

    // Four bytes each for S21 and S11 of every sample and point.
    private const long MostValues = 60_000_000;

    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("CIRCUIT", "a circuit file");
        Option<int?> samples = OptionKinds.Parsed<int>("--samples", "N", "how many specimens to draw; default 10000", TrySamples);
        Option<ulong?> seed = OptionKinds.Parsed<ulong>("--seed", "N", "another seed draws other specimens; default 1", TrySeed);
        Option<string?> mask = OptionKinds.Text("--mask", "REQUIREMENT", "a requirement file: how many specimens keep all of it");
        Option<TemperatureRange?> temperature = OptionKinds.Parsed<TemperatureRange>("--temperature", "T", "range in which each specimen has some temperature, like \"-10..40 C\"; default 20 C, where values hold", TemperatureRange.TryParse);
        Option<OtherTolerance?> others = OptionKinds.Parsed<OtherTolerance>("--others", "T", "tolerance of the parts that state none, like \"5 %\", \"2 % normal\" or E24", OtherTolerance.TryParse);
        SweepOptions sweep = new(MostPoints);

        Verb tolerance = new("tolerance", "says how far a circuit's response spreads when it is built, and which part does most of it")
        {
            Details = "Draws specimens by chance within each part's 'tolerance:' and 'ppm:'. The same seed gives the same result on any machine. S21 at 5 % is the value that one " +
                "specimen in twenty falls below. Without frequencies: 201 round the pass-band and the mask.",
            Examples =
            [
                new("tolerance demo/filters/three-tank.circuit.yaml --at \"145.05 MHz\" --samples 8000", "The demo's filter, every part within 5 %, untuned: half lose over 5 dB."),
                new("tolerance demo/filters/three-tank.circuit.yaml --mask demo/filters/quiet-input.requirement.yaml --temperature \"-10..40 C\"", "How many keep a requirement."),
                new("tolerance demo/filters/three-tank.circuit.yaml --mask demo/filters/quiet-input.requirement.yaml --format html --out sheet.html", "The bench sheet, with the band and what is needed in the plots."),
            ],
        };
        tolerance.Add(file);
        foreach (Option option in (Option[])[samples, seed, mask, temperature, others])
        {
            tolerance.Add(option);
        }

        sweep.AddTo(tolerance);
        tolerance.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, cancel) =>
        {
            double[]? asked = sweep.Frequencies(context);
            DiagnosticBag findings = new();
            CircuitFile? loaded = CircuitFile.Load(context.Value(file), findings);
            RequirementFile? requirement = context.Value(mask) is { } path ? RequirementFile.Load(path, findings) : null;
            OtherTolerance? given = context.Value(others);
            Circuit? circuit = loaded?.Circuit is { } read && given is { } other ? ToleranceDefault.Apply(read, other.Tolerance) : loaded?.Circuit;
            ToleranceReading? reading = null;
            if (loaded?.Solver(findings, circuit) is { } solver && !findings.HasErrors)
            {
                if (requirement is not null && RequirementMask.Problem(requirement.Requirement, circuit!.ImpedanceOhm) is { } problem)
                {
                    int cut = problem.IndexOf("; ", StringComparison.Ordinal);
                    findings.Error(context.Value(mask)!, 0, 0, problem[..cut], problem[(cut + 2)..]);
                }
                else
                {
                    MaskLine[] lines = requirement is null ? [] : [.. RequirementMask.Lines(requirement.Requirement)];
                    CircuitTwoPort network = new(solver);
                    double[] frequencies = context.Format == "html" ? BenchReport.Frequencies(network, circuit!.Name, lines, asked ?? []) : asked ?? Frequencies(network, lines);
                    TemperatureRange range = context.Value(temperature) ?? new(ToleranceRequest.ReferenceC, ToleranceRequest.ReferenceC);
                    ToleranceRequest request = new()
                    {
                        Samples = context.Value(samples) ?? DefaultSamples,
                        Seed = context.Value(seed) ?? 1,
                        FrequenciesHz = frequencies,
                        Mask = lines,
                        LowestC = range.LowestC,
                        HighestC = range.HighestC,
                    };
                    string[] without = [.. loaded.Circuit.Parts.Where(p => p.Tolerance is null && circuit!.Parts.Any(q => q.Name == p.Name && q.Tolerance is not null)).Select(static p => p.Name)];
                    reading = Run(context, loaded, solver, request, requirement, given is null ? null : (given.Value.Text, without), findings, cancel);
                }
            }

            int status = context.Tell(findings.InOrder());
            if (reading is null || status != ExitStatus.Done)
            {
                return Task.FromResult(status);
            }

            return Task.FromResult(context.Format == "html"
                ? BenchSheets.Write(context, new BenchSheetInput
                {
                    Circuit = circuit!,
                    Network = new CircuitTwoPort(CircuitSolver.Create(circuit!)),
                    Tolerance = reading,
                    Inputs = [.. loaded!.Inputs, .. requirement is null ? Array.Empty<InputFile>() : [requirement.Input]],
                })
                : Write(context, reading));
        });
        return tolerance;
    }

    private static ToleranceReading? Run(
        CommandContext context, CircuitFile file, CircuitSolver solver, ToleranceRequest request, RequirementFile? requirement, (string Text, string[] Parts)? others, DiagnosticBag findings, CancellationToken cancel)
    {
        long points = request.FrequenciesHz.Count + request.Mask.Sum(static m => (long)m.Frequencies().Count());
        if (points * request.Samples > MostValues)
        {
            throw new UsageException(string.Create(
                CultureInfo.InvariantCulture, $"{request.Samples} samples at {points} frequencies are more than fit in memory; ask for {Math.Max(20, MostValues / points)} samples, or for fewer points"));
        }

        ToleranceResult? result;
        TuningFinding? tuning;
        CircuitFault? fault;
        using (ProgressLine line = context.Progress("drawing specimens"))
        {
            result = ToleranceAnalysis.TryRun(solver, request, out fault, line, cancel);
            tuning = result is null ? null : TuningStudy.TryRun(solver, result, cancel);
        }

        if (fault is not null)
        {
            file.Report(fault, findings);
        }

        return result is null ? null : new ToleranceReading
        {
            Name = file.Circuit.Name,
            Result = result,
            Tuning = tuning,
            Sensitivity = result.Main is { } main ? SensitivityAnalysis.TryRun(solver, [main.FrequencyHz], out _) : null,
            Requirement = requirement?.Requirement.Name,
            Mask = MaskCheck.Run(new CircuitTwoPort(solver), request.Mask),
            Assumptions = ToleranceReading.Assumed(result, others?.Text, others?.Parts),
        };
    }

    private static int Write(CommandContext context, ToleranceReading reading) => context.Format switch
    {
        "json" => context.WriteBytes(to => ToleranceWriter.WriteJson(reading, to)),
        "csv" => context.Write(to => ToleranceWriter.WriteCsv(reading, to)),
        _ => context.Write(to => ToleranceWriter.WriteText(reading, to, context.Ink)),
    };

    private static double[] Frequencies(CircuitTwoPort network, MaskLine[] mask)
    {
        double[] shown = ResponseCalculator.DefaultFrequencies(network);
        double low = mask.Select(static m => m.FromHz).Append(shown[0]).Min(), high = mask.Select(static m => m.ToHz).Append(shown[^1]).Max();
        double[] grid = low < high ? FrequencyGrid.Logarithmic(Math.Max(low, network.LowestHz), Math.Min(high, network.HighestHz), DefaultPoints) : shown;

        // What must pass is looked at itself, and not beside.
        IEnumerable<double> pass = mask.Where(static m => m.MostLossDb is not null).SelectMany(static m => new[] { m.FromHz, (m.FromHz + m.ToHz) / 2, m.ToHz });
        return [.. grid.Concat(pass).Distinct().Order()];
    }

    private static bool TrySamples(string text, out int value, out string problem)
    {
        problem = $"'{text.Trim()}' is no number of samples; write 20 to 10000000";
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value is >= 20 and <= 10_000_000;
    }

    private static bool TrySeed(string text, out ulong value, out string problem)
    {
        problem = $"'{text.Trim()}' is no seed; write a whole number of 0 or more";
        return ulong.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);
    }
}
