using System.CommandLine;
using System.Text;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Recordings;
using Spurless.Signals.Listening;
using Spurless.Signals.Recordings;
using Spurless.Sites.Recordings;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>listen RECORDING</c>: what kind of transmission is on a recording, and when.</summary>
internal static class ListenCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File(
            "RECORDING", "a WAV of audio, a WAV of a band (with --centre), or a SigMF recording (*.sigmf-meta)");
        Option<Frequency?> centre = OptionKinds.Parsed<Frequency>(
            "--centre", "FREQUENCY",
            "where the receiver of a recorded band stood, like \"145.05 MHz\"; left is in-phase, right quadrature",
                Frequency.TryParsePositive);
        Option<WavUse?> channel = OptionKinds.Parsed<WavUse>(
            "--channel-of", "left|right", "which channel of a stereo WAV is listened to; default left", TrySide);
        Option<string?> site = OptionKinds.Text("--site", "SITE", "hold what was heard against the mixtures of this site file");
        Option<string?> receiver = OptionKinds.Text(
            "--receiver", "NAME", "the site's receiver on whose channel it was heard; default the first");
        Option<string?> log = OptionKinds.Text("--log", "OUT.log.csv", "write when what was on as the log that 'locate' takes");

        Verb listen = new("listen", "says what kind of transmission is on a recording, and when it was on the air")
        {
            Details =
                "Recognises paging, packet, squelch tones and codes, dialling and calling tones, Morse, voice, carriers, keying, hum, "
                + "combs and impulse noise, by what their standards define. Says what kind it is and when, never what it says or for whom: "
                + "many countries forbid to disclose or use what is not addressed to you.",
            Examples =
            [
                new("listen demo/recordings/warble.wav --site demo/quernmoss.site.yaml",
                    "The demo's invented recording of the repeater input: what is on it, and which mixture of the site it fits."),
            ],
        };
        listen.Add(file);
        foreach (Option option in (Option[])[centre, channel, site, receiver, log])
        {
            listen.Add(option);
        }

        listen.Does(terminal, new OutputOptions("text", "json", "csv", "html"), async (context, cancel) =>
        {
            using SpooledInput? spooled = context.Spooled(context.Value(file) == "-");
            using FileStream? input = spooled is null ? null : new FileStream(spooled.Path, FileMode.Open, FileAccess.Read);
            ListenQuestion question = new()
            {
                Path = context.Value(file),
                Input = input,
                CentreHz = context.Value(centre)?.Hertz,
                Channel = context.Value(channel) ?? WavUse.Audio,
                Receiver = context.Value(receiver),
            };
            if (context.Value(site) is { } path)
            {
                if (await SiteAsync(context, path, question.Receiver, cancel).ConfigureAwait(false) is not { } loaded)
                {
                    return ExitStatus.Input;
                }

                question = question with { Site = loaded };
            }
            else if (question.Receiver is not null)
            {
                throw new UsageException("--receiver names a receiver of a site; give --site too, or leave it out");
            }

            DiagnosticBag findings = new();
            ListenAnswer? answer;
            using (ProgressLine line = context.Progress("listening"))
            {
                answer = ListenService.Run(question, findings, new ListenProgressLine(line), cancel);
            }

            int status = context.Tell(findings.InOrder());
            if (answer is null || status != ExitStatus.Done)
            {
                return Math.Max(status, ExitStatus.Input);
            }

            if (context.Value(log) is { } to)
            {
                OutputFile.Write(to, stream =>
                {
                    using StreamWriter text = new(stream, new UTF8Encoding(false), 16 * 1024, leaveOpen: true) { NewLine = "\n" };
                    ListenWriter.WriteLog(answer, text);
                });
            }

            return await WriteAsync(context, answer).ConfigureAwait(false);
        });
        return listen;
    }

    private static async Task<LoadedSite?> SiteAsync(CommandContext context, string path, string? receiver, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        SourceFile? source = await context.SourceAsync(path, FileKind.Site, findings, cancel).ConfigureAwait(false);
        LoadedSite? site = source is null ? null : SourceReader.Site(source, findings);
        context.Tell(findings.InOrder());
        if (site is not null && receiver is not null && !site.Document.Receivers.Any(r => r.Name == receiver))
        {
            throw new UsageException(
                $"the site has no receiver '{receiver}'; write one of "
                    + $"{string.Join(", ", site.Document.Receivers.Select(static r => r.Name))}");
        }

        return site;
    }

    private static async Task<int> WriteAsync(CommandContext context, ListenAnswer answer)
    {
        string? page = context.Format == "html"
            ? await ListenReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false)
            : null;
        return context.Format switch
        {
            "html" => context.Write(to => to.Write(page)),
            "json" => context.WriteBytes(to => ListenWriter.WriteJson(answer, to)),
            "csv" => context.Write(to => ListenWriter.WriteCsv(answer, to)),
            _ => context.Write(to => ListenWriter.WriteText(answer, to, context.Ink)),
        };
    }

    private static bool TrySide(string text, out WavUse value, out string problem)
    {
        value = text == "right" ? WavUse.Right : WavUse.Left;
        problem = $"'{text}' is no channel; write left or right";
        return text is "left" or "right";
    }

    private sealed class ListenProgressLine(ProgressLine line) : IProgress<ListenProgress>
    {
        public void Report(ListenProgress value) => line.Report(value.OfS > 0 ? value.DoneS / value.OfS : 0);
    }
}
