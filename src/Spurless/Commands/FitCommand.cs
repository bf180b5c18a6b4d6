using System.CommandLine;
using System.Globalization;
using System.Text;
using Spurless.Circuits.Fit;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bench;
using Spurless.Sites.Networks;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>fit CIRCUIT SWEEP</c>: the values of a traced circuit from a sweep.</summary>
internal static class FitCommand
{
    private const int MostStarts = 10_000;

    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("CIRCUIT", "a circuit file with values that are unknown or estimates");
        Argument<string> sweep = OptionKinds.File("SWEEP", "its sweep: *.s2p, *.s1p, or a table frequency_hz,s21_db[,s11_db]");
        Option<ulong?> seed = OptionKinds.Parsed<ulong>("--seed", "N", "another seed starts from other places; default 1", TrySeed);
        Option<int?> starts = OptionKinds.Parsed<int>("--starts", "N", "how many places to start from; default 32", TryStarts);
        Option<bool> profile = OptionKinds.Switch("--profile", "find every interval by holding its value and fitting all others anew; slower");
        OutputOptions output = new("text", "json", "csv", "html");
        output.Out.Description = "write the circuit file with the values found; the result itself goes to standard output";
        output.Out.HelpName = "FITTED";

        Verb fit = new("fit", "finds a traced circuit's values from a sweep, and says how sure each is")
        {
            Details = "Write a value as 'unknown' with its 'range:', or an estimate with 'about: 10 %'; a coil by geometry is an estimate. Gains and reference planes of the " +
                "instrument are found too. Says what the sweep cannot tell apart, what to measure next, and which other tracing would fit better. A one-port sweep is S11 with port 2 on its impedance.",
            Examples =
            [
                new("fit demo/filters/unmarked.circuit.yaml demo/filters/unmarked.s2p", "The demo's unlabelled filter: seven capacitors without marking."),
                new("fit demo/filters/unmarked.circuit.yaml demo/filters/unmarked.s2p --out fitted.circuit.yaml", "The same as a circuit file for the other commands."),
            ],
        };
        fit.Add(file);
        fit.Add(sweep);
        fit.Add(seed);
        fit.Add(starts);
        fit.Add(profile);
        fit.Does(terminal, output, (context, cancel) =>
        {
            DiagnosticBag findings = new();
            string sweepPath = context.Value(sweep);
            FitFiles? files = FitFiles.Load(context.Value(file), sweepPath, findings);
            FitResult? result = null;
            if (files is not null)
            {
                FitOptions options = new() { Seed = context.Value(seed) ?? 1, Starts = context.Value(starts) ?? 32, Profile = context.Value(profile) };
                string? problem;
                using (ProgressLine line = context.Progress("fitting"))
                {
                    result = CircuitFit.TryRun(files.Document.Circuit, files.Sweep, options, out problem, new FitProgressLine(line), cancel);
                }

                if (problem is not null)
                {
                    Error(findings, sweepPath, problem);
                }
                else if (result is { ExplainsNothing: true })
                {
                    Nothing(findings, sweepPath, result);
                }
            }

            int status = context.Tell(findings.InOrder());
            if (result is null || status != ExitStatus.Done)
            {
                return Task.FromResult(status);
            }

            WriteResult(context, files!, result);
            return Task.FromResult(Save(context, files!, result) ?? (result.IsComplete ? ExitStatus.Done : ExitStatus.Cancelled));
        });
        return fit;
    }

    private static void Nothing(DiagnosticBag findings, string path, FitResult result)
    {
        string other = result.Tracings.Length > 0 ? $"; the sweep fits far better {result.Tracings[0].Words}" : "";
        findings.Error(
            path,
            0,
            0,
            string.Create(CultureInfo.InvariantCulture, $"the circuit does not explain this sweep: {100 * result.Unexplained:0} % of its course is left over, so no value can be told{other}"),
            "look whether it is the sweep of this circuit, which port is which, and at the tracing");
    }

    private static void Error(DiagnosticBag findings, string path, string problem)
    {
        int cut = problem.IndexOf("; ", StringComparison.Ordinal);
        findings.Error(path, 0, 0, cut < 0 ? problem : problem[..cut], cut < 0 ? "look at both files" : problem[(cut + 2)..]);
    }

    // To standard output always: --out names the circuit file.
    private static void WriteResult(CommandContext context, FitFiles files, FitResult result)
    {
        if (context.Format == "json")
        {
            FitWriter.WriteJson(result, context.Terminal.OutputStream);
            return;
        }

        using StreamWriter text = new(context.Terminal.OutputStream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 16 * 1024, leaveOpen: true) { NewLine = "\n" };
        switch (context.Format)
        {
            case "csv":
                FitWriter.WriteCsv(result, text);
                break;
            case "html":
                text.Write(FitPageOf(files, result));
                break;
            default:
                FitWriter.WriteText(result, text, context.Out is null ? context.Ink : Reports.Text.TextInk.None);
                break;
        }
    }

    private static string FitPageOf(FitFiles files, FitResult result)
    {
        string version = typeof(FitCommand).Assembly.GetName().Version!.ToString(3);
        return Reports.Html.FitReport.RenderAsync(result, files.Inputs, Reports.Html.ReportContext.Now(TimeProvider.System, version)).GetAwaiter().GetResult();
    }

    private static int? Save(CommandContext context, FitFiles files, FitResult result)
    {
        if (context.Out is not { } path)
        {
            return null;
        }

        if (!FittedFile.TryWrite(files.Text, result, out string? edited, out string? problem))
        {
            DiagnosticBag findings = new();
            Error(findings, files.Document.File, problem);
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

    private static bool TryStarts(string text, out int value, out string problem)
    {
        problem = string.Create(CultureInfo.InvariantCulture, $"'{text.Trim()}' is no number of starts; write 1 to {MostStarts}");
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value is >= 1 and <= MostStarts;
    }
}
