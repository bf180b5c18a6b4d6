using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Newcomers;
using Spurless.Sites;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>newcomer SITE NEW</c>: whom a newcomer's transmitters would hurt, and who would hurt the newcomer.</summary>
internal static class NewcomerCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.File("SITE", "the site file of those who are there");
        Argument<string> newcomer = OptionKinds.File(
            "NEW", "the newcomer's site file; it may lack receivers or emitters, and name SITE's in its maps");
        Verb verb = new("newcomer", "says what a newcomer would do to those who are there, they to the newcomer, on what conditions")
        {
            Details =
                "Studies both together and apart: only what is not there without the newcomer counts. The search limits, the place and the "
                    + "elevation files are SITE's; a plain level in NEW counts at every receiver. For each receiver that does not pass it "
                    + "gives the least isolation or attenuation that makes it pass. --format html is a sheet for the site's owner to sign.",
            Examples =
            [
                new("newcomer demo/quernmoss-cured.site.yaml demo/newcomer-dale-link.site.yaml",
                    "The invented demo, cured, and an invented newcomer whose two transmitters mix in each other."),
                new("newcomer demo/quernmoss-cured.site.yaml demo/newcomer-dale-link.site.yaml --format html --out sheet.html",
                    "The sheet for the site's owner, on one page."),
            ],
        };
        verb.Add(site);
        verb.Add(newcomer);
        verb.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, cancel) =>
            AskAsync(context, context.Value(site), context.Value(newcomer), cancel));
        return verb;
    }

    private static async Task<int> AskAsync(CommandContext context, string site, string newcomer, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        SourceFile? here = await context.SourceAsync(site, FileKind.Site, findings, cancel).ConfigureAwait(false);
        SourceFile? comes = await context.SourceAsync(newcomer, FileKind.Site, findings, cancel).ConfigureAwait(false);
        NewcomerSites? sites = here is null || comes is null ? null : NewcomerReader.Read(here, comes, findings);
        context.Tell(findings.InOrder());
        if (sites is null)
        {
            return ExitStatus.Input;
        }

        Outcome<NewcomerAnswer> outcome;
        using (ProgressLine line = context.Progress("searching"))
        {
            outcome = NewcomerService.Ask(new NewcomerQuestion { Sites = sites }, new SearchProgressLine(line), cancel);
        }

        if (outcome.Answer is not { } answer)
        {
            context.Terminal.Error.WriteLine($"{newcomer}:0:0: {outcome.Problem}");
            return ExitStatus.Input;
        }

        string? sheet = context.Format == "html"
            ? await NewcomerReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false)
            : null;
        return context.Format switch
        {
            "json" => context.WriteBytes(to => NewcomerWriter.WriteJson(answer, to)),
            "csv" => context.Write(to => NewcomerWriter.WriteCsv(answer, to)),
            "html" => context.Write(to => to.Write(sheet)),
            _ => context.Write(to => NewcomerText.Write(answer, to, context.Ink)),
        };
    }
}
