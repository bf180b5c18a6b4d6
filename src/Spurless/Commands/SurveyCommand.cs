using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Surveys;
using Spurless.Signals.Spectra;
using Spurless.Sites.Documents;
using Spurless.Sites.Registers;
using Spurless.Sites.Sources;
using Spurless.Sites.Surveys;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>survey SWEEP</c>: the emitters that a spectrum shows.</summary>
internal static class SurveyCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string[]> sweeps = new("SWEEP")
        {
            Description = "sweeps of a spectrum, each band in a file of its own, or SigMF recordings of a band",
            HelpName = "SWEEP",
            Arity = ArgumentArity.OneOrMore,
        };
        Option<string?> padded = OptionKinds.Text(
            "--padded", "SWEEP2", "the first band again behind a pad: tells what the instrument itself made");
        Option<Decibels?> pad = OptionKinds.Parsed<Decibels>("--pad", "DB", "that pad, like \"10 dB\"", TryPad);
        Option<Frequency?> resolution = OptionKinds.Parsed<Frequency>(
            "--resolution",
            "WIDTH",
            "equivalent noise bandwidth of the bins, like \"10 kHz\"; default their spacing",
            Frequency.TryParsePositive);
        Option<Columns?> columns = OptionKinds.Parsed<Columns>(
            "--columns", "HEADS", "columns of any other table, like \"frequency=Freq [MHz], level=Ampl [dBm]\"", Columns.TryParse);
        Option<GainOverFrequency?> gain = OptionKinds.Parsed<GainOverFrequency>(
            "--gain",
            "GAIN",
            "from the antenna connector to the instrument, like \"-3 dB\" for a cable, or \"12 dB at 100 MHz, 9 dB at 500 MHz\"",
            GainOverFrequency.TryParse);
        Option<string?> chain = OptionKinds.Text(
            "--chain",
            "PARTS",
            "the parts between them, like \"antenna factor af.csv; cable 3 dB; pad 10 dB; preamplifier amp.s2p\"");
        Option<Level?> fullScale = OptionKinds.Parsed<Level>(
            "--full-scale",
            "LEVEL",
            "of recordings: the level at the receiver's input that just reaches full scale, like \"-20 dBm\"; "
                + "without it levels are not known",
            Level.TryParse);
        Option<Level?> intercept = OptionKinds.Parsed<Level>(
            "--intercept",
            "LEVEL",
            "the instrument's third-order intercept, like \"10 dBm\": what it would make itself is marked doubtful; "
                + "without it the lines themselves may tell it",
            Level.TryParse);
        Option<bool> held = OptionKinds.Switch("--maximum-held", "the trace is the maximum of many sweeps");
        Option<string?> add = OptionKinds.Text(
            "--add", "SITE", "write each emitter that the site file does not have into it; comments and order stay");
        Verb survey = new("survey", "makes emitters with levels of a spectrum")
        {
            Details =
                "A sweep is a table with the heads frequency_hz,level_dbm, or with time and then a column a frequency, "
                    + "one row a sweep; a recording is SigMF, complex. Levels are mean powers while on; broadcast and other wide " +
                "signals are one emitter each. What falls by more than one and a half times the pad was made in the instrument.",
            Examples =
            [
                new(
                    "survey demo/sweeps/hill.sweep.csv --resolution \"2.5 kHz\" --padded demo/sweeps/hill-padded.sweep.csv --pad \"10 dB\"",
                    "The demo's invented sweep of the two-metre band."),
            ],
        };
        survey.Add(sweeps);
        foreach (Option option in (Option[])[padded, pad, resolution, columns, gain, chain, fullScale, intercept, held, add])
        {
            survey.Add(option);
        }

        survey.Does(terminal, new OutputOptions("text", "json", "csv", "html"), async (context, cancel) =>
        {
            if (context.Value(padded) is null != context.Value(pad) is null)
            {
                throw new UsageException("--padded and --pad belong together; give both");
            }

            DiagnosticBag findings = new();
            SurveyChain? parts = context.Value(chain) is { } written
                ? SurveyChain.Read(written, new SiteFolder("."), findings)
                : SurveyChain.None;
            SurveyQuestion question = new()
            {
                Sweeps = context.Value(sweeps),
                Padded = context.Value(padded),
                PadDb = context.Value(pad)?.Value ?? 0,
                Columns = context.Value(columns)?.Heads,
                ResolutionHz = context.Value(resolution)?.Hertz,
                Gain = context.Value(gain)?.Points ?? [],
                Chain = parts ?? SurveyChain.None,
                FullScaleDbm = context.Value(fullScale)?.Dbm,
                InstrumentInterceptDbm = context.Value(intercept)?.Dbm,
                MaximumHeld = context.Value(held),
            };
            return parts is null
                ? ChainFaults(context, findings)
                : await RunAsync(context, question, context.Value(add), findings, cancel).ConfigureAwait(false);
        });
        return survey;
    }

    // What is wrong with the option's own words is a fault of the command line, what is wrong with a file that it names one of the input.
    private static int ChainFaults(CommandContext context, DiagnosticBag findings)
    {
        ILookup<bool, Diagnostic> own = findings.InOrder().ToLookup(static f => f.File == "--chain");
        int status = context.Tell([.. own[false]]);
        return own[true].Any() ? throw new UsageException([.. own[true].Select(static f => $"--chain: {f.What}; {f.Remedy}")]) : status;
    }

    private static async Task<int> RunAsync(
        CommandContext context, SurveyQuestion question, string? site, DiagnosticBag findings, CancellationToken cancel)
    {
        string[] named = [.. question.Sweeps, .. question.Padded is { } second ? (string[])[second] : []];
        if (named.Count(static n => n == "-") > 1)
        {
            throw new UsageException("'-' stands for standard input, which can be read once; name a file in one of the places");
        }

        using StreamReader? input = named.Contains("-") ? new StreamReader(context.Input(), leaveOpen: true) : null;
        SurveyAnswer? answer = SurveyService.Run(question with { Input = input }, findings, cancel);
        IReadOnlyList<string> added = [];
        if (answer is not null && site is not null)
        {
            SourceFile? source = await SourceFile.ReadAsync(site, FileKind.Site, findings, cancel).ConfigureAwait(false);
            answer = source is not null && SourceReader.SiteAlone(source, findings) is { } document
                && Add(context, source, document, answer, findings, out added) ? answer : null;
        }

        int status = context.Tell(findings.InOrder());
        return answer is null ? Math.Max(status, ExitStatus.Input) : context.Format switch
        {
            "json" => context.WriteBytes(to => SurveyWriter.WriteJson(answer, added, to)),
            "csv" => context.Write(to => SurveyWriter.WriteCsv(answer, to)),
            "html" => await Html(context, answer).ConfigureAwait(false),
            _ => context.Write(to => SurveyWriter.WriteText(answer, to, context.Ink)),
        };
    }

    private static bool Add(
        CommandContext context,
        SourceFile source,
        SiteDocument site,
        SurveyAnswer answer,
        DiagnosticBag findings,
        out IReadOnlyList<string> added)
    {
        List<SiteAddition> additions = [];
        foreach (SurveyedEmitter emitter in answer.Emitters.Where(static e => e.Doubtful is null))
        {
            if (SurveyService.InSite(site, emitter) is not { } there)
            {
                additions.Add(SurveyService.Addition(emitter, answer.ResolutionHz.Max()));
                continue;
            }

            string old = there.Level is { } level ? $"the file says {level}" : "the file has no level";
            context.Remark(string.Create(
                CultureInfo.InvariantCulture,
                $"{there.Name}: measured {Measured(emitter)}; {old}"));
        }

        bool done = RegisterNear.Add(source, site, additions, findings, out added);
        if (done)
        {
            context.Remark(RegisterNear.Written(added.Count, source.Path));
        }

        return done;
    }

    private static async Task<int> Html(CommandContext context, SurveyAnswer answer)
    {
        string page = await SurveyReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false);
        return context.Write(to => to.Write(page));
    }

    private static string Measured(SurveyedEmitter emitter) => emitter.LevelDbm is { } dbm
        ? string.Create(CultureInfo.InvariantCulture, $"{dbm:0.0} dBm, give or take {emitter.Line.SigmaDb:0.0} dB")
        : string.Create(CultureInfo.InvariantCulture, $"{-emitter.Line.LevelDbm:0.0} dB under full scale, its level not known");

    private static bool TryPad(string text, out Decibels value, out string problem)
    {
        if (!Decibels.TryParse(text, out value, out problem))
        {
            return false;
        }

        problem = $"'{text.Trim()}' is no pad; write 1 dB to 60 dB";
        return value.Value is >= 1 and <= 60;
    }

    /// <summary>The columns of a table.</summary>
    private readonly record struct Columns(SweepColumns Heads)
    {
        public static bool TryParse(string text, out Columns value, out string problem)
        {
            bool good = SweepColumns.TryParse(text, out SweepColumns heads, out problem);
            value = new Columns(heads);
            return good;
        }
    }
}
