using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Cures;
using Spurless.Sites;
using Spurless.Sites.Cures;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>cure SITE</c>: what would make it quiet, the study run again for every way out.</summary>
internal static class CureCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.File("SITE", "the site file");
        Option<string?> receiver = OptionKinds.Text("--receiver", "NAME", "only this receiver");
        Option<int?> apply = OptionKinds.Parsed<int>(
            "--apply", "N", "write way N of the list into the site file, or with --out into a copy beside it", TryRank);
        Verb cure = new("cure", "what would make it quiet: every way out put into the site and studied again, the best first")
        {
            Details =
                "Tried are pads, filters of usual kinds and those in the site's folder, traps, the preamplifier's place, a better "
                    + "receiver, isolators, cavities and antenna distance at each transmitter that makes a harmful mixture, less power, "
                    + "another channel, and pairs and triples of these where none alone ends it. --apply changes the site file, and what "
                    + "you wrote in it stays; with --out a copy is written and the site file left alone. Filters of usual kinds get a "
                    + "circuit file in the folder 'ways'.",
            Examples =
            [
                new("cure demo/quernmoss.site.yaml", "The invented demo: no filter alone ends it, a filter and an isolator do."),
                new("cure demo/quernmoss.site.yaml --apply 1 --out demo/quiet.site.yaml", "The first way, written into a copy."),
            ],
        };
        cure.Add(site);
        cure.Add(receiver);
        cure.Add(apply);
        OutputOptions output = new("text", "json", "csv", "html");
        output.Out.Description += "; with --apply the copy of the site file, and the result goes to standard output";
        cure.Does(terminal, output, (context, cancel) => CureAsync(
            context, context.Value(site), context.Value(receiver), context.Value(apply), cancel));
        return cure;
    }

    private static async Task<int> CureAsync(
        CommandContext context, string path, string? receiver, int? apply, CancellationToken cancel)
    {
        if (apply is not null && path == "-" && context.Out is null)
        {
            throw new UsageException("--apply writes into the site file, and standard input is none; name the file, or give --out");
        }

        DiagnosticBag findings = new();
        SourceFile? source = await context.SourceAsync(path, FileKind.Site, findings, cancel).ConfigureAwait(false);
        LoadedSite? loaded = source is null ? null : SourceReader.Site(source, findings);
        context.Tell(findings.InOrder());
        if (loaded is null)
        {
            return ExitStatus.Input;
        }

        Outcome<CureAnswer> outcome;
        using (ProgressLine line = context.Progress("studying ways out"))
        {
            outcome = CureService.Ask(
                new CureQuestion
                {
                    Site = loaded,
                    Source = source!,
                    Receiver = receiver,
                    Filters = FiltersAtHand.Beside(path, loaded),
                },
                new CureProgressLine(line),
                cancel);
        }

        if (outcome.Answer is not { } answer)
        {
            context.Terminal.Error.WriteLine($"{path}:0:0: {outcome.Problem}");
            return ExitStatus.Input;
        }

        if (apply is { } rank)
        {
            DiagnosticBag said = new();
            CureFiles.Apply(source!, answer, rank, context.Out, said);
            if (context.Tell(said.InOrder()) is var status and not ExitStatus.Done)
            {
                return status;
            }
        }

        string? page = context.Format == "html"
            ? await CureReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false)
            : null;
        void Write(Stream to)
        {
            switch (context.Format)
            {
                case "json":
                    CureWriter.WriteJson(answer, to);
                    break;
                case "csv":
                    CommandContext.WriteText(to, text => CureWriter.WriteCsv(answer, text));
                    break;
                case "html":
                    CommandContext.WriteText(to, text => text.Write(page));
                    break;
                default:
                    CommandContext.WriteText(to, text => CureWriter.WriteText(answer, text, context.Ink));
                    break;
            }
        }

        if (apply is null)
        {
            return context.WriteBytes(Write);
        }

        Write(context.Terminal.OutputStream);
        return ExitStatus.Done;
    }

    private static bool TryRank(string text, out int value, out string problem)
    {
        problem = $"'{text.Trim()}' is no rank of the list; write a number from 1 on";
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value >= 1;
    }
}
