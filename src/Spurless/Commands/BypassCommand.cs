using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bypasses;
using Spurless.Sites;
using Spurless.Sites.Bypasses;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>bypass BYPASS</c>: does the relay that the radio frequency switches protect the filter?</summary>
internal static class BypassCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> bypass = OptionKinds.File("BYPASS", "the relay's file, *.bypass.yaml");
        Verb command = new("bypass", "says whether a relay that the radio frequency switches protects the filter it bypasses")
        {
            Details =
                "Least operating power, attack and hang, margins, what the filter takes until the contacts are over, chatter on speech "
                    + "and keying, and what stands in the way when something fails. It fails towards harm: try it into a dummy load, "
                    + "at low power first, and nobody touches filter or line while it is keyed.",
            Examples =
            [
                new("bypass demo/quernmoss.bypass.yaml", "The demo's invented relay: what it does, and what it does not."),
                new("bypass demo/quernmoss.bypass.yaml --format html --out bypass.html", "With the picture of one press of the key."),
            ],
        };
        command.Add(bypass);
        command.Does(
            terminal, new OutputOptions("text", "json", "csv", "html"),
            (context, cancel) => RunAsync(context, context.Value(bypass), cancel));
        return command;
    }

    private static async Task<int> RunAsync(CommandContext context, string path, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        SourceFile? source = await context.SourceAsync(path, FileKind.Bypass, findings, cancel).ConfigureAwait(false);
        LoadedBypass? loaded = source is null ? null : SourceReader.Bypass(source, findings);
        Outcome<BypassAnswer>? outcome = loaded is null
            ? null
            : BypassService.Ask(new BypassQuestion { Bypass = loaded }, null, cancel);
        if (outcome is { Answer: null })
        {
            findings.Error(path, 0, 0, outcome.Refusal?.What ?? outcome.Faults[0].ToString(),
                outcome.Refusal?.Remedy ?? "correct the filter");
        }

        int status = context.Tell(findings.InOrder());
        if (outcome?.Answer is not { } answer)
        {
            return Math.Max(status, ExitStatus.Input);
        }

        string? page = context.Format == "html" ? await BypassReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false) : null;
        return context.Format switch
        {
            "json" => context.WriteBytes(to => BypassWriter.WriteJson(answer, to)),
            "csv" => context.Write(to => BypassWriter.WriteCsv(answer, to)),
            "html" => context.Write(to => to.Write(page)),
            _ => context.Write(to => BypassWriter.WriteText(answer, to, context.Ink)),
        };
    }
}
