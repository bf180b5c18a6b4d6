using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Evidence;
using Spurless.Reports.Locating;
using Spurless.Sites;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>locate SITE</c>: weighs the evidence, which mixture it is and where it is made.</summary>
internal static class LocateCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.File("SITE", "the site file, with what was observed under 'evidence'");
        Option<string> prior = OptionKinds.Choice(
            "--prior", "how possibilities are weighed before any evidence: alike, or by their predicted chance to be heard", "equal",
                "level");
        Verb locate = new("locate", "weighs what was observed: which mixture it is, where it is made, and what to look at next")
        {
            Details =
                "Attenuator and filter tests, emitters off or reduced, offsets and logs stand under 'evidence' in the site file. A receive "
                    + "filter cures only what is made in the receiver: know it before you buy, climb or accuse. --format html ends in a "
                    + "sheet to take along.",
            Examples =
            [
                new("locate demo/quernmoss-heard.site.yaml",
                    "The invented demo with its evidence: it is made in the telemetry transmitter, not in the receiver."),
                new("locate demo/quernmoss-heard.site.yaml --format html --out evidence.html", "With pictures, and a sheet to take along."),
            ],
        };
        locate.Add(site);
        locate.Add(prior);
        locate.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, cancel) =>
            LocateAsync(context, context.Value(site), context.Value(prior) == "level" ? PriorKind.Level : PriorKind.Equal, cancel));
        return locate;
    }

    private static async Task<int> LocateAsync(CommandContext context, string path, PriorKind prior, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        SourceFile? source = await context.SourceAsync(path, FileKind.Site, findings, cancel).ConfigureAwait(false);
        LoadedSite? loaded = source is null ? null : SourceReader.Site(source, findings);
        context.Tell(findings.InOrder());
        if (loaded is null)
        {
            return ExitStatus.Input;
        }

        Outcome<LocateAnswer> outcome;
        using (ProgressLine line = context.Progress("searching"))
        {
            LocateQuestion question = new()
            {
                Site = loaded,
                Prior = prior,
                Filters = FiltersAtHand.Beside(path, loaded),
            };
            outcome = LocateService.Ask(question, new SearchProgressLine(line), cancel);
        }

        if (outcome.Answer is not { } answer)
        {
            context.Terminal.Error.WriteLine($"{path}:0:0: {outcome.Problem}");
            return ExitStatus.Input;
        }

        string? page = context.Format == "html"
            ? await LocateReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false)
            : null;
        return context.Format switch
        {
            "json" => context.WriteBytes(to => LocateWriter.WriteJson(answer, to)),
            "csv" => context.Write(to => LocateWriter.WriteCsv(answer, to)),
            "html" => context.Write(to => to.Write(page)),
            _ => context.Write(to => LocateWriter.WriteText(answer, to, context.Ink)),
        };
    }
}
