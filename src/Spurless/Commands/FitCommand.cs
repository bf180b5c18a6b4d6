using System.CommandLine;
using System.Globalization;
using System.Text;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Reports.Bench;
using Spurless.Reports.Text;
using Spurless.Sites;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Fits;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>fit CIRCUIT SWEEP</c>: the values of a traced circuit from a sweep.</summary>
internal static class FitCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("CIRCUIT", "a circuit file with values that are unknown or estimates");
        Argument<string> sweep = OptionKinds.File("SWEEP", "its sweep: *.s2p, *.s1p, or a table frequency_hz,s21_db[,s11_db]");
        Option<ulong?> seed = OptionKinds.Parsed<ulong>("--seed", "N", "another seed starts from other places; default 1", TrySeed);
        Option<int?> starts = OptionKinds.Parsed<int>("--starts", "N", "how many places to start from; default 32", TryStarts);
        Option<bool> profile =
            OptionKinds.Switch("--profile", "find every interval by holding its value and fitting all others anew; slower");
        Option<Calibration?> calibration = OptionKinds.Parsed<Calibration>(
            "--calibration", "HOW", "how well the analyser was calibrated: good, usual (default), poor or none", TryCalibration);
        OutputOptions output = new("text", "json", "csv", "html");
        output.Out.Description = "write the circuit file with the values found; the result itself goes to standard output";
        output.Out.HelpName = "FITTED";

        Verb fit = new("fit", "finds a traced circuit's values from a sweep, and says how sure each is")
        {
            Details =
                "Write a value as 'unknown' with its 'range:', or an estimate with 'about: 10 %'; "
                    + "a coil by geometry is an estimate. Gains, planes and residual errors of the "
                    + "instrument are found too, and inductance in series with capacitors that state none. "
                    + "Says what the sweep cannot tell apart, what to measure next, "
                    + "and which other tracing would fit better. A one-port sweep is S11 with port 2 on its impedance.",
            Examples =
            [
                new("fit demo/filters/unmarked.circuit.yaml demo/filters/unmarked.s2p",
                    "The demo's unlabelled filter: seven capacitors without marking."),
                new("fit demo/filters/unmarked.circuit.yaml demo/filters/unmarked.s2p --out fitted.circuit.yaml",
                    "The same as a circuit file for the other commands."),
            ],
        };
        fit.Add(file);
        fit.Add(sweep);
        fit.Add(seed);
        fit.Add(starts);
        fit.Add(profile);
        fit.Add(calibration);
        fit.Does(terminal, output, async (context, cancel) =>
        {
            DiagnosticBag findings = new();
            string sweepPath = context.Value(sweep);
            SourceFile? ofCircuit = await context.SourceAsync(context.Value(file), FileKind.Circuit, findings, cancel)
                .ConfigureAwait(false);
            SourceFile? ofSweep = await context.SourceAsync(sweepPath, FileKind.Touchstone, findings, cancel).ConfigureAwait(false);
            CircuitFile? traced = ofCircuit is null ? null : SourceReader.TracedCircuit(ofCircuit, findings);
            FitSweep? read = ofSweep is null ? null
                : SourceReader.Sweep(ofSweep, traced?.Circuit.ImpedanceOhm ?? SourceReader.UsualImpedanceOhm, findings);
            FitAnswer? answer = null;
            if (traced is not null && read is not null && !findings.HasErrors)
            {
                FitOptions usual = new();
                FitQuestion question = new()
                {
                    Circuit = traced.Circuit,
                    Sweep = read,
                    Options = usual with
                    {
                        Seed = context.Value(seed) ?? usual.Seed,
                        Starts = context.Value(starts) ?? usual.Starts,
                        Profile = context.Value(profile),
                        Calibration = context.Value(calibration) ?? usual.Calibration,
                    },
                    Inputs = [traced.Source.Input, ofSweep!.Input],
                };
                Outcome<FitAnswer> outcome;
                using (ProgressLine line = context.Progress("fitting"))
                {
                    outcome = FitService.Ask(question, new FitProgressLine(line), cancel);
                }

                // What is said of the circuit belongs to its file, everything else that is refused to the sweep's.
                answer = outcome.Told(findings, traced, outcome.Refusal == CircuitFit.NothingUnknown ? null : sweepPath);
                if (answer is not null && FitWriter.Refuse(answer) is { } refusal)
                {
                    findings.Error(sweepPath, 0, 0, refusal.What, refusal.Remedy);
                }
            }

            int status = context.Tell(findings.InOrder());
            if (answer is null || status != ExitStatus.Done)
            {
                return status;
            }

            string? page = context.Format == "html" ? await FitReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false) : null;
            WriteResult(context, answer, page);
            return Save(context, traced!, answer) ?? (answer.Result.IsComplete ? ExitStatus.Done : ExitStatus.Cancelled);
        });
        return fit;
    }

    // To standard output always: --out names the circuit file.
    private static void WriteResult(CommandContext context, FitAnswer answer, string? page)
    {
        if (context.Format == "json")
        {
            FitWriter.WriteJson(answer, context.Terminal.OutputStream);
            return;
        }

        using StreamWriter text = new(
            context.Terminal.OutputStream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 16 * 1024, leaveOpen: true)
        { NewLine = "\n" };
        switch (context.Format)
        {
            case "csv":
                FitWriter.WriteCsv(answer, text);
                break;
            case "html":
                text.Write(page);
                break;
            default:
                FitWriter.WriteText(answer, text, context.Out is null ? context.Ink : TextInk.None);
                break;
        }
    }

    private static int? Save(CommandContext context, CircuitFile traced, FitAnswer answer)
    {
        if (context.Out is not { } path)
        {
            return null;
        }

        if (!FittedFile.TryWrite(traced.Source.Text, answer.Result, out string? edited, out Refusal? refusal))
        {
            DiagnosticBag findings = new();
            findings.Error(traced.Source.Path, 0, 0, refusal.What, refusal.Remedy);
            return context.Tell(findings.InOrder());
        }

        OutputFile.Write(path, stream => stream.Write(Encoding.UTF8.GetBytes(edited)));
        return null;
    }

    private static bool TrySeed(string text, out ulong value, out string problem)
    {
        problem = $"'{text.Trim()}' is no seed; write a whole number from 0";
        return ulong.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);
    }

    private static bool TryCalibration(string text, out Calibration value, out string problem)
    {
        problem = $"'{text.Trim()}' is no calibration; write good, usual, poor or none";
        return Enum.TryParse(text.Trim(), ignoreCase: true, out value) && Enum.IsDefined(value) && char.IsAsciiLetter(text.Trim()[0]);
    }

    private static bool TryStarts(string text, out int value, out string problem)
    {
        problem = string.Create(
            CultureInfo.InvariantCulture, $"'{text.Trim()}' is no number of starts; write 1 to {FitQuestion.MostStarts}");
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value)
            && value is >= 1 and <= FitQuestion.MostStarts;
    }
}
