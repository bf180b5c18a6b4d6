using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Checks;
using Spurless.Sites.Checking;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>check FILE</c>: what is wrong with a file.</summary>
internal static class CheckCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File(
            "FILE", "a site, circuit, requirement or Touchstone file, a recording, a table of emitters or an observation log");
        Verb check = new("check", "reads a file and says all that is wrong with it, each time with what to write instead")
        {
            Details =
                "The kind of file is told by its name (*.site.yaml, *.circuit.yaml, *.requirement.yaml, "
                    + "*.s1p, *.s2p, *.wav, *.log.csv, *.csv), else by its first lines. " +
                "Findings go to standard error as file:line:column: what was found; what to write instead.",
            Examples =
            [
                new("check demo/quernmoss.site.yaml", "Reads the invented demo site and every file it names."),
                new("check demo/newcomer-dale-link.site.yaml --newcomer-to demo/quernmoss-cured.site.yaml",
                    "A newcomer's file, which may name what stands at the site."),
            ],
        };
        Option<string?> site = OptionKinds.Text(
            "--newcomer-to", "SITE", "FILE is a newcomer's to this site, and may name what stands there");
        check.Add(file);
        check.Add(site);
        check.Does(terminal, new OutputOptions("text", "json"), async (context, cancel) =>
        {
            string path = context.Value(file);
            DiagnosticBag findings = new();
            CheckResult result = context.Value(site) is { } here
                ? await NewcomerAsync(context, here, path, findings, cancel).ConfigureAwait(false)
                : path != "-" ? await FileCheck.RunAsync(path, cancel).ConfigureAwait(false)
                : await context.SourceAsync(path, FileKind.Unknown, findings, cancel).ConfigureAwait(false) is { } source
                    ? FileCheck.Run(source)
                : new CheckResult(path, FileKind.Unknown, findings.InOrder(), "");
            int status = context.Tell(result.Findings);
            if (context.Format == "json")
            {
                context.WriteBytes(to => CheckWriter.WriteJson(result, to));
            }
            else if (!context.Quiet)
            {
                context.Write(to => CheckWriter.WriteText(result, to));
            }

            return status;
        });
        return check;
    }

    private static async Task<CheckResult> NewcomerAsync(
        CommandContext context, string site, string newcomer, DiagnosticBag findings, CancellationToken cancel)
    {
        SourceFile? here = await context.SourceAsync(site, FileKind.Site, findings, cancel).ConfigureAwait(false);
        SourceFile? comes = await context.SourceAsync(newcomer, FileKind.Site, findings, cancel).ConfigureAwait(false);
        return here is null || comes is null
            ? new CheckResult(newcomer, FileKind.Site, findings.InOrder(), "")
            : FileCheck.Newcomer(here, comes);
    }
}
