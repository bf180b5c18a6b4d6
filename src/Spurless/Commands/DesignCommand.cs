using System.CommandLine;
using System.Globalization;
using System.Text;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Designs;
using Spurless.Sites.Designs;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>design REQUIREMENT</c>: circuits of real parts that meet it; <c>--tune</c>: what to turn on one that was built.</summary>
internal static class DesignCommand
{
    private const int MostCandidates = 18;

    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.OptionalFile("REQUIREMENT", "what the filter must do and of what parts", "");
        Option<string?> site = OptionKinds.Text("--from-site", "SITE", "take the requirement from what a site's receiver needs");
        Option<string?> receiver = OptionKinds.Text("--receiver", "NAME", "which receiver of SITE; default its first");
        Option<Decibels?> margin = OptionKinds.Parsed<Decibels>(
            "--margin", "RATIO", "added to what each culprit needs; default \"6 dB\"", Ratio);
        Option<Decibels?> loss = OptionKinds.Parsed<Decibels>(
            "--loss", "RATIO", "most loss on the channel, with --from-site; default \"3 dB\"", Above);
        Option<Power?> transmit = OptionKinds.Parsed<Power>(
            "--transmit", "POWER", "it must carry this power; with --from-site the receiver's own transmitter passes too", Power.TryParse);
        Option<Capacitance?> open = OptionKinds.Parsed<Capacitance>(
            "--bypass-open", "C", "capacitance of open bypass contacts round the filter, like \"0.8 pF\"", Capacitance.TryParse);
        Option<ulong?> seed = OptionKinds.Parsed<ulong>(
            "--seed", "N", "another seed draws other builds; default that of the requirement, 1", TrySeed);
        Option<int?> count = OptionKinds.Parsed<int>("--count", "N", "most candidates; default 8", TryCount);
        Option<int?> sheet = OptionKinds.Parsed<int>(
            "--sheet", "N", "which candidate the build sheet of --format html draws; default 1", TryCount);
        Option<string[]> tune = new("--tune")
        {
            Description = "no design: what to turn next on a built filter, given its circuit file and its sweep",
            HelpName = "CIRCUIT SWEEP",
            Arity = new ArgumentArity(2, 2),
            AllowMultipleArgumentsPerToken = true,
        };
        Option<string?> turn = OptionKinds.Text(
            "--turn", "PARTS", "with --tune: what can be turned, like C2,C5; default what the file's comments say");
        OutputOptions output = new("text", "json", "csv", "html");
        output.Out.Description =
            "write one circuit file a candidate into FOLDER (made where there is none); the result goes to standard output";
        output.Out.HelpName = "FOLDER";

        Verb design = new("design", "turns a requirement into filters of real parts, ranked, with windings, yield and tuning procedure")
        {
            Details =
                "Each family is synthesised, optimised with the losses of the parts, rounded to the series, wound, and held against the " +
                "requirement at 801 points of each span. 'Built' is the share of builds that meet "
                    + "it as built, 'tuned' once the named parts are " +
                "adjusted. If nothing meets it the nearest are shown, with what limits them. No file that is there is overwritten.",
            Examples =
            [
                new("design demo/filters/quiet-input.requirement.yaml --count 3", "Filters for the demo's input."),
                new(
                    "design --from-site demo/quernmoss.site.yaml --count 3 --out designed",
                    "What the demo's receiver needs, as circuit files."),
            ],
        };
        design.Add(file);
        foreach (Option option in (Option[])[site, receiver, margin, loss, transmit, open, seed, count, sheet, tune, turn])
        {
            design.Add(option);
        }

        design.Does(terminal, output, async (context, cancel) =>
        {
            string requirement = context.Value(file);
            DiagnosticBag findings = new();
            DesignOptions options = new()
            {
                Seed = context.Value(seed),
                MostCandidates = context.Value(count),
                TransmitW = context.Value(transmit)?.Watts,
                BypassOpenF = context.Value(open)?.Farads,
            };
            if (context.Value(tune) is { Length: 2 } built)
            {
                return await TuneAsync(context, requirement, built, context.Value(turn), options, findings, cancel).ConfigureAwait(false);
            }

            string? from = context.Value(site);
            if ((requirement.Length > 0) == (from is not null))
            {
                throw new UsageException(from is null
                    ? "design needs a requirement; write design REQUIREMENT, or design --from-site SITE"
                    : "a requirement and --from-site ask for two things; write one of them");
            }

            SiteDesignOptions wanted = new();
            wanted = wanted with
            {
                Receiver = context.Value(receiver),
                MarginDb = context.Value(margin)?.Value ?? wanted.MarginDb,
                LossDb = context.Value(loss)?.Value ?? wanted.LossDb,
            };
            DesignBrief? brief = await BriefAsync(context, requirement, from, wanted, options, findings, cancel).ConfigureAwait(false);
            return await DesignAsync(context, brief, findings, context.Value(sheet) ?? 1, cancel).ConfigureAwait(false);
        });
        return design;
    }

    private static async Task<DesignBrief?> BriefAsync(
        CommandContext context,
        string requirement,
        string? site,
        SiteDesignOptions wanted,
        DesignOptions options,
        DiagnosticBag findings,
        CancellationToken cancel)
    {
        if (site is not null)
        {
            SourceFile? ofSite = await context.SourceAsync(site, FileKind.Site, findings, cancel).ConfigureAwait(false);
            LoadedSite? loaded = ofSite is null ? null : SourceReader.Site(ofSite, findings);
            return loaded is null ? null : DesignBrief.Of(loaded, site, wanted, options, findings, cancel);
        }

        SourceFile? source = await context.SourceAsync(requirement, FileKind.Requirement, findings, cancel).ConfigureAwait(false);
        if (source is null
            || SourceReader.Requirement(source, findings) is not { } file
            || DesignBrief.Of(file, options, findings) is not { } brief)
        {
            return null;
        }

        return context.Out is { } folder
            ? brief with
            {
                RequirementPath = Path.GetRelativePath(Path.GetFullPath(folder), Path.GetFullPath(requirement)).Replace('\\', '/'),
            }
            : brief;
    }

    private static async Task<int> DesignAsync(
        CommandContext context, DesignBrief? brief, DiagnosticBag findings, int sheet, CancellationToken cancel)
    {
        int status = context.Tell(findings.InOrder());
        if (brief is null || status != ExitStatus.Done)
        {
            return brief is null ? ExitStatus.Input : status;
        }

        DesignReading reading;
        using (ProgressLine line = context.Progress("designing"))
        {
            reading = DesignService.Run(brief, new DesignProgressLine(line), cancel);
        }

        if (context.Out is { } folder)
        {
            reading = DesignFolder.Write(folder, reading);
        }

        string? page = context.Format == "html" && reading.Files.Count > 0
            ? await DesignSheet.RenderAsync(reading, sheet, CommandContext.Made).ConfigureAwait(false)
            : null;
        Standard(context, to => DesignWriter.WriteJson(reading, to), text =>
        {
            switch (context.Format)
            {
                case "csv":
                    DesignWriter.WriteCsv(reading, text);
                    break;
                case "html" when page is not null:
                    text.Write(page);
                    break;
                default:
                    DesignWriter.WriteText(reading, text, context.Out is null ? context.Ink : Reports.Text.TextInk.None);
                    break;
            }
        });
        return reading.Answer.IsComplete ? ExitStatus.Done : ExitStatus.Cancelled;
    }

    private static async Task<int> TuneAsync(
        CommandContext context,
        string requirement,
        string[] built,
        string? turn,
        DesignOptions options,
        DiagnosticBag findings,
        CancellationToken cancel)
    {
        string? mask = requirement.Length > 0 ? requirement : TuneFiles.RequirementOf(built[0]);
        if (mask is null)
        {
            throw new UsageException("the circuit file names no requirement; write design REQUIREMENT --tune CIRCUIT SWEEP");
        }

        TuneAnswer? answer = null;
        SourceFile? source = await context.SourceAsync(mask, FileKind.Requirement, findings, cancel).ConfigureAwait(false);
        if (source is not null
            && SourceReader.Requirement(source, findings) is { } file
            && DesignBrief.Of(file, options, findings) is { } brief
            && TuneFiles.Load(
                brief.Question,
                built[0],
                built[1],
                turn?.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries),
                findings)
                is { } question)
        {
            Refusal? refusal;
            using (ProgressLine line = context.Progress("fitting"))
            {
                answer = TuneService.TryRun(question, out refusal, new FitProgressLine(line), cancel);
            }

            if (refusal is not null)
            {
                findings.Error(built[1], 0, 0, refusal.What, refusal.Remedy);
            }
        }

        int status = context.Tell(findings.InOrder());
        if (answer is null || status != ExitStatus.Done)
        {
            return answer is null ? ExitStatus.Input : status;
        }

        if (context.Format is "csv" or "html")
        {
            throw new UsageException("--tune has no such format; write --format text or --format json");
        }

        Standard(context, to => TuneWriter.WriteJson(answer, to), text => TuneWriter.WriteText(answer, text, context.Ink));
        return ExitStatus.Done;
    }

    // To standard output always: --out names the folder of the circuits.
    private static void Standard(CommandContext context, Action<Stream> json, Action<TextWriter> text)
    {
        if (context.Format == "json")
        {
            json(context.Terminal.OutputStream);
            return;
        }

        using StreamWriter writer = new(
            context.Terminal.OutputStream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 16 * 1024, leaveOpen: true)
        { NewLine = "\n" };
        text(writer);
    }

    private static bool Ratio(string text, out Decibels value, out string problem) =>
        Decibels.TryParse(text, out value, out problem)
            && Not(value.Value >= 0, text, ref problem, "is negative; write a ratio such as 6 dB");

    private static bool Above(string text, out Decibels value, out string problem) =>
        Decibels.TryParse(text, out value, out problem)
            && Not(value.Value > 0, text, ref problem, "is not above 0; write a ratio such as 3 dB");

    private static bool Not(bool good, string text, ref string problem, string otherwise)
    {
        problem = good ? problem : $"'{text.Trim()}' {otherwise}";
        return good;
    }

    private static bool TrySeed(string text, out ulong value, out string problem)
    {
        problem = $"'{text.Trim()}' is no seed; write a whole number from 0";
        return ulong.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);
    }

    private static bool TryCount(string text, out int value, out string problem)
    {
        problem = string.Create(CultureInfo.InvariantCulture, $"'{text.Trim()}' is no number of candidates; write 1 to {MostCandidates}");
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value is >= 1 and <= MostCandidates;
    }
}
