using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Responses;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>response FILE</c>: S-parameters and pass-band figures.</summary>
internal static class ResponseCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("FILE", "a circuit file, or a measured one- or two-port (*.s1p, *.s2p)");
        SweepOptions sweep = new();
        Option<Frequency?> near = OptionKinds.Parsed<Frequency>(
            "--near", "F", "the channel whose pass-band is meant, like \"145 MHz\"; default: that of --with, else where least is lost",
                Frequency.TryParsePositive);
        Option<string?> site = OptionKinds.Text("--with", "SITE", "add what it takes from each carrier of a site file");

        Verb response = new("response", "gives S-parameters and pass-band figures of a circuit or a measured network")
        {
            Details =
                "Without frequencies: a measured file's own points, of a circuit 401 round its pass-band. S2p writes a Touchstone file.",
            Examples =
            [
                new("response demo/filters/three-tank.circuit.yaml --at \"145.05 MHz,160.525 MHz\"",
                    "The demo's filter: 2.92 dB of loss on the channel."),
                new("response demo/filters/duplexer-high.s2p --near \"145.05 MHz\"",
                    "A measured file: the pass-band nearest to the channel, and the notches."),
                new("response demo/filters/three-tank.circuit.yaml --with demo/quernmoss.site.yaml --format html --out response.html",
                    "The report, with schematic, plots and the losses at the site's carriers."),
                new("response demo/filters/three-tank.circuit.yaml --from \"100 MHz\" --to \"500 MHz\" --format s2p --out filter.s2p",
                    "The same as a sweep for other programs."),
            ],
        };
        response.Add(file);
        sweep.AddTo(response);
        response.Add(near);
        response.Add(site);
        response.Does(terminal, new OutputOptions("text", "json", "csv", "s2p", "html"), async (context, cancel) =>
        {
            FrequencyChoice? frequencies = sweep.Frequencies(context);
            DiagnosticBag findings = new(), ofSite = new();
            SourceFile? source = await context.SourceAsync(context.Value(file), FileKind.Touchstone, findings, cancel)
                .ConfigureAwait(false);
            SourceFile? with = context.Value(site) is { } path
                ? await context.SourceAsync(path, FileKind.Site, ofSite, cancel).ConfigureAwait(false) : null;
            LoadedSite? loaded = with is null ? null : SourceReader.Site(with, ofSite);
            ResponseAnswer? answer = null;
            if (source is not null && SourceReader.Network(source, findings) is { } network)
            {
                ResponseQuestion question = new()
                {
                    Network = network,
                    Frequencies = frequencies,
                    NearHz = context.Value(near)?.Hertz,
                    Site = loaded,
                    StudiesReceiver = context.Format == "html",
                };
                answer = ResponseService.Ask(question, null, cancel).Told(findings, network.Circuit, source.Path);
            }

            findings.AddRange(ofSite.InOrder());
            int status = context.Tell(findings.InOrder());
            if (answer is null || status != ExitStatus.Done)
            {
                return status;
            }

            string? page = context.Format == "html" ? await ResponseReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false)
                : null;
            return context.Format switch
            {
                "json" => context.WriteBytes(to => ResponseWriter.WriteJson(answer, to)),
                "csv" => context.Write(to => ResponseWriter.WriteCsv(answer, to)),
                "s2p" => Touchstone(context, answer),
                "html" => context.Write(to => to.Write(page)),
                _ => context.Write(to => ResponseWriter.WriteText(answer, to, context.Ink)),
            };
        });
        return response;
    }

    private static int Touchstone(CommandContext context, ResponseAnswer answer) =>
        ResponseWriter.Touchstone(answer, out string text) is { } refusal
        ? throw new UsageException($"--format s2p: {refusal}")
        : context.Write(to => to.Write(text));
}
