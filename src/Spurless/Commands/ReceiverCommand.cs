using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Receivers;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>receiver MEASUREMENTS</c>: a receiver's own measurements into noise, intercepts and selectivity.</summary>
internal static class ReceiverCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> measurements = OptionKinds.File("MEASUREMENTS", "the file of measurements, *.receiver.yaml");
        Option<string?> add = OptionKinds.Text(
            "--add", "SITE", "write the figures into the receiver of this site file; comments and order stay, what stood there is told");
        Option<string?> receiver = OptionKinds.Text("--receiver", "NAME", "with --add: which receiver of the site was measured");
        Verb command = new("receiver", "makes noise, intercepts and selectivity of a receiver's own measurements")
        {
            Details =
                "Sensitivity, pairs of tones, responses and blocking as they are read on the bench, and mixtures that were identified at a "
                    + "site. --format html ends in a sheet for the bench: set-up, levels, traps. Never key a transmitter into a generator, "
                    + "and never put two-tone levels into a connector that may transmit: switch the transmitter off first.",
            Examples =
            [
                new("receiver demo/quernmoss.receiver.yaml", "The demo's invented measurements: what they say, and what is still unknown."),
                new("receiver demo/quernmoss.receiver.yaml --format html --out receiver.html", "With the sheet for the bench."),
            ],
        };
        command.Add(measurements);
        command.Add(add);
        command.Add(receiver);
        command.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, cancel) =>
        {
            if (context.Value(add) is null != context.Value(receiver) is null)
            {
                throw new UsageException("--add and --receiver belong together; give both");
            }

            return RunAsync(context, context.Value(measurements), context.Value(add), context.Value(receiver), cancel);
        });
        return command;
    }

    private static async Task<int> RunAsync(CommandContext context, string path, string? site, string? receiver, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        SourceFile? source = await context.SourceAsync(path, FileKind.Receiver, findings, cancel).ConfigureAwait(false);
        LoadedMeasurements? loaded = source is null ? null : SourceReader.Measurements(source, findings);
        ReceiverAnswer? answer = loaded is null
            ? null
            : ReceiverService.Ask(new ReceiverQuestion { Measurements = loaded }, cancel);
        IReadOnlyList<SiteFigure> written = [];
        if (answer is not null && site is not null)
        {
            SourceFile? target = await SourceFile.ReadAsync(site, FileKind.Site, findings, cancel).ConfigureAwait(false);
            SiteWithFigures? edited = target is null ? null : SiteFigures.Write(answer, target, receiver!, findings);
            if (edited is null)
            {
                answer = null;
            }
            else
            {
                written = edited.Figures;
                Save(context, target!, edited);
            }
        }

        int status = context.Tell(findings.InOrder());
        if (answer is null)
        {
            return Math.Max(status, ExitStatus.Input);
        }

        string? page = context.Format == "html"
            ? await ReceiverReport.RenderAsync(answer, written, CommandContext.Made).ConfigureAwait(false)
            : null;
        return context.Format switch
        {
            "json" => context.WriteBytes(to => ReceiverWriter.WriteJson(answer, written, to)),
            "csv" => context.Write(to => ReceiverWriter.WriteCsv(answer, to)),
            "html" => context.Write(to => to.Write(page)),
            _ => context.Write(to => ReceiverWriter.WriteText(answer, written, to, context.Ink)),
        };
    }

    private static void Save(CommandContext context, SourceFile target, SiteWithFigures edited)
    {
        if (edited.Text == target.Text)
        {
            context.Remark($"{target.Path} says all of it already; nothing was written");
            return;
        }

        OutputFile.WriteChanged(target.Path, target, edited.Text);
        foreach (SiteFigure figure in edited.Figures)
        {
            context.Remark($"{target.Path}: {ReceiverWriter.Written(figure)}");
        }
    }
}
