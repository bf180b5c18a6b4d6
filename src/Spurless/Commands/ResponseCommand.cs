using System.CommandLine;
using Spurless.Circuits.Response;
using Spurless.Circuits.Touchstone;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Responses;
using Spurless.Sites.Networks;
using Spurless.Sites.Studies;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>response FILE</c>: S-parameters and pass-band figures.</summary>
internal static class ResponseCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("FILE", "a circuit file, or a measured one- or two-port (*.s1p, *.s2p)");
        SweepOptions sweep = new();
        Option<string?> site = OptionKinds.Text("--with", "SITE", "add what it takes from each carrier of a site file");

        Verb response = new("response", "gives S-parameters and pass-band figures of a circuit or a measured network")
        {
            Details = "Without frequencies: a measured file's own points, of a circuit 401 round its pass-band. S2p writes a Touchstone file.",
            Examples =
            [
                new("response demo/filters/three-tank.circuit.yaml --at \"145.05 MHz,160.525 MHz\"", "The demo's filter: 2.92 dB of loss on the channel."),
                new("response demo/filters/three-tank.circuit.yaml --with demo/quernmoss.site.yaml --format html --out response.html", "The report, with schematic, plots and the losses at the site's carriers."),
                new("response demo/filters/three-tank.circuit.yaml --from \"100 MHz\" --to \"500 MHz\" --format s2p --out filter.s2p", "The same as a sweep for other programs."),
            ],
        };
        response.Add(file);
        sweep.AddTo(response);
        response.Add(site);
        response.Does(terminal, new OutputOptions("text", "json", "csv", "s2p", "html"), (context, cancel) =>
        {
            double[]? frequencies = sweep.Frequencies(context);
            DiagnosticBag findings = new();
            NetworkFile? network = NetworkFile.Load(context.Value(file), findings);
            ResponseResult? result = network?.Response(frequencies, findings, cancel);
            LoadedSite? loaded = null;
            if (context.Value(site) is { } path)
            {
                loaded = SiteLoader.Load(path, out IReadOnlyList<Diagnostic> ofSite);
                findings.AddRange(ofSite);
            }

            int status = context.Tell(findings.InOrder());
            if (result is null || status != ExitStatus.Done)
            {
                return Task.FromResult(status);
            }

            return Task.FromResult(context.Format == "html" ? WritePage(context, network!, result, loaded, cancel) : Write(context, network!, result, loaded));
        });
        return response;
    }

    private static int Write(CommandContext context, NetworkFile network, ResponseResult result, LoadedSite? site)
    {
        IReadOnlyList<CarrierLoss> carriers = Losses(network, site);
        switch (context.Format)
        {
            case "json":
                return context.WriteBytes(to => ResponseWriter.WriteJson(result, carriers, to));
            case "csv":
                return context.Write(to => ResponseWriter.WriteCsv(result, to));
            case "s2p":
                return TouchstoneWriter.TryWrite(result.ToTouchstone(), null, out string text, out string problem)
                    ? context.Write(to => to.Write(text))
                    : throw new UsageException("--format s2p: " + problem);
            default:
                return context.Write(to => ResponseWriter.WriteText(result, carriers, to, context.Ink));
        }
    }

    private static int WritePage(CommandContext context, NetworkFile network, ResponseResult result, LoadedSite? site, CancellationToken cancel)
    {
        StudyResult? study = site is null ? null : StudyService.Run(site, new StudyOptions { Top = 1 }, null, cancel);
        ResponseReportInput input = new()
        {
            Result = result,
            Network = network.Network,
            Circuit = network.Circuit,
            Receiver = study?.Receivers.FirstOrDefault(),
            Losses = Losses(network, site),
            Inputs = [new InputFile(network.File, network.Sha256), .. study?.Inputs ?? []],
        };
        string version = typeof(ResponseCommand).Assembly.GetName().Version!.ToString(3);
        string page = ResponseReport.RenderAsync(input, ReportContext.Now(TimeProvider.System, version)).GetAwaiter().GetResult();
        return context.Write(to => to.Write(page));
    }

    private static IReadOnlyList<CarrierLoss> Losses(NetworkFile network, LoadedSite? site) => site is null
        ? []
        : [.. site.Document.Emitters.Select(e => new CarrierLoss(e.Name, e.Frequency.Hertz, network.RejectionAt(e.Frequency.Hertz, site.Document)))];
}
