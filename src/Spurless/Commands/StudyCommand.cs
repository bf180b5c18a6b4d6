using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Cures;
using Spurless.Reports.Studies;
using Spurless.Sites;
using Spurless.Sites.Comparisons;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>study SITE</c>: every mixture on every receiver of a site, with level and verdict.</summary>
internal static class StudyCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.File("SITE", "the site file");
        Option<double?> floor = OptionKinds.Parsed<double>(
            "--floor",
            "DBM",
            "leave out what arrives in the channel under this level, like -150; 'none' leaves nothing out; default 20 dB under the noise",
            Floor);
        Option<int?> top = OptionKinds.Parsed<int>("--top", "N", "only the N strongest mixtures of each receiver", Count);
        Option<double?> harmful =
            OptionKinds.Parsed<double>("--harmful-from", "DB", "harmful from so many dB over the noise; default 0", Ratio);
        Option<double?> marginal =
            OptionKinds.Parsed<double>("--marginal-from", "DB", "marginal from so many dB over the noise; default -10", Ratio);
        Option<OrderRange?> orders = SearchOptions.Orders();
        Option<int?> signals = SearchOptions.Signals();
        Option<string?> against = OptionKinds.Text("--against", "SITE", "compare with another site file: what appeared, went and changed");
        Option<bool> ways = OptionKinds.Switch(
            "--ways", "also the best ways out, each studied like 'cure' does it; in text and HTML, and takes as long as 'cure'");
        Option<WayChoice?> chosen = OptionKinds.Parsed<WayChoice>(
            "--chosen", "N", "with --ways: way N is the one chosen; NAME:N where the site has several receivers", WayChoice.TryParse);

        Verb study = new("study", "finds every mixture that lands on the receivers of a site, how strong it is and what it does")
        {
            Details =
                "Reads the site file with the circuits and sweeps it names. What is not known is said under "
                    + "'Assumed'; JSON and CSV list every mixture down to the floor.",
            Examples =
            [
                new("study demo/quernmoss.site.yaml",
                    "The invented demo: six mixtures are harmful, the worst by 43.5 dB, made in a transmitter."),
                new("study demo/quernmoss-filtered.site.yaml", "The same with a filter in line: before and after."),
                new("study demo/quernmoss-filtered.site.yaml --format html --out report.html",
                    "The report: one page with pictures, to print and hand over."),
                new("study demo/quernmoss.site.yaml --ways --chosen 1 --format html --out report.html",
                    "The report with the ways out, the first as the one chosen."),
                new("study demo/quernmoss-filtered.site.yaml --against demo/quernmoss.site.yaml", "What the filter changed."),
            ],
        };
        study.Add(site);
        study.Add(floor);
        study.Add(top);
        study.Add(harmful);
        study.Add(marginal);
        study.Add(orders);
        study.Add(signals);
        study.Add(against);
        study.Add(ways);
        study.Add(chosen);
        study.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, cancel) =>
        {
            StudyOptions usual = new();
            double harm = context.Value(harmful) ?? usual.HarmfulFromDb;
            StudyOptions options = usual with
            {
                FloorDbm = context.Value(floor),
                Top = context.Value(top),
                HarmfulFromDb = harm,
                MarginalFromDb = context.Value(marginal) ?? Math.Min(usual.MarginalFromDb, harm),
                Orders = context.Value(orders) is { } r ? (r.Lowest, r.Highest) : null,
                Signals = context.Value(signals),
                LongLists = new Told(context, context.Value(site)),
            };
            if (options.MarginalFromDb > options.HarmfulFromDb)
            {
                throw new UsageException("--marginal-from is above --harmful-from; write a smaller --marginal-from");
            }

            WaysOption asked = new(context.Value(ways), context.Value(chosen));
            asked.Check(context.Format, context.Value(against) is not null);
            return context.Value(against) is { } other
                ? CompareAsync(context, context.Value(site), other, options, cancel)
                : StudyAsync(context, context.Value(site), options, asked, cancel);
        });
        return study;
    }

    private static async Task<int> StudyAsync(
        CommandContext context, string path, StudyOptions options, WaysOption asked, CancellationToken cancel)
    {
        if (await LoadAsync(context, path, cancel).ConfigureAwait(false) is not var (source, site))
        {
            return ExitStatus.Input;
        }

        Outcome<StudyResult> outcome;
        using (ProgressLine line = context.Progress("searching"))
        {
            outcome = StudyService.Ask(new StudyQuestion { Site = site, Options = options }, new SearchProgressLine(line), cancel);
        }

        if (outcome.Answer is not { } result)
        {
            return Without(context, path, outcome.Problem);
        }

        LocateAnswer? located = site.Document.Evidence.Count > 0
            ? LocateService.WithStudy(site, result, FiltersAtHand.Beside(path, site), cancel)
            : null;
        ReportedWays? ways = asked.Of(context, path, source, site, options, cancel);
        string? page = context.Format == "html"
            ? await StudyReport.RenderAsync(result, CommandContext.Made, located, ways).ConfigureAwait(false)
            : null;
        return context.Format switch
        {
            "json" => context.WriteBytes(to => StudyJson.Write(result, to, located)),
            "csv" => context.Write(to => StudyCsv.Write(result, to, located)),
            "html" => context.Write(to => to.Write(page)),
            _ => context.Write(to => StudyText.Write(result, to, context.Ink, located, ways)),
        };
    }

    private static async Task<int> CompareAsync(
        CommandContext context, string path, string against, StudyOptions options, CancellationToken cancel)
    {
        LoadedSite? now = (await LoadAsync(context, path, cancel).ConfigureAwait(false))?.Site;
        LoadedSite? before = (await LoadAsync(context, against, cancel).ConfigureAwait(false))?.Site;
        if (now is null || before is null)
        {
            return ExitStatus.Input;
        }

        if (context.Format is "csv" or "html")
        {
            throw new UsageException(
                $"--against has no {(context.Format == "csv" ? "CSV" : "page")}; write --format text or --format json");
        }

        Outcome<StudyComparison> outcome;
        using (ProgressLine line = context.Progress("searching"))
        {
            ComparisonQuestion question = new() { Before = before, Now = now, Options = options };
            outcome = ComparisonService.Ask(question, new SearchProgressLine(line), cancel);
        }

        return outcome.Answer is not { } comparison
            ? Without(context, outcome.Refusal?.Subject == nameof(ComparisonQuestion.Before) ? against : path, outcome.Problem)
            : context.Format == "json" ? context.WriteBytes(to => ComparisonJson.Write(comparison, to))
            : context.Write(to => ComparisonText.Write(comparison, to, context.Ink));
    }

    private static int Without(CommandContext context, string path, string problem)
    {
        context.Terminal.Error.WriteLine($"{path}:0:0: {problem}");
        return ExitStatus.Input;
    }

    /// <summary>Says on standard error what is coming.</summary>
    private sealed class Told(CommandContext context, string path) : IProgress<LongList>
    {
        public void Report(LongList value) => context.Terminal.Error.WriteLine($"{path}: {LongListText.Says(value)}");
    }

    private static async Task<(SourceFile Source, LoadedSite Site)?> LoadAsync(
        CommandContext context, string path, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        SourceFile? source = await context.SourceAsync(path, FileKind.Site, findings, cancel).ConfigureAwait(false);
        LoadedSite? site = source is null ? null : SourceReader.Site(source, findings);
        context.Tell(findings.InOrder());
        return site is null ? null : (source!, site);
    }

    private static bool Floor(string text, out double value, out string problem)
    {
        if (text.Trim() == "none")
        {
            value = double.NegativeInfinity;
            problem = "";
            return true;
        }

        return Number(text, "dBm", -1000, 1000, "a level like -150, or none", out value, out problem);
    }

    private static bool Ratio(string text, out double value, out string problem) =>
        Number(text, "dB", -1000, 1000, "a number of dB like -10", out value, out problem);

    private static bool Number(string text, string unit, double low, double high, string wanted, out double value, out string problem)
    {
        string bare = text.Trim().Replace('\u2212', '-');
        bare = bare.EndsWith(unit, StringComparison.OrdinalIgnoreCase) ? bare[..^unit.Length].TrimEnd() : bare;
        if (double.TryParse(bare, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && value >= low && value <= high)
        {
            problem = "";
            return true;
        }

        problem = $"'{text.Trim()}' cannot be read, or is out of range; write {wanted}";
        return false;
    }

    private static bool Count(string text, out int value, out string problem)
    {
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value >= 1)
        {
            problem = "";
            return true;
        }

        problem = $"'{text.Trim()}' is no count; write a whole number above 0";
        return false;
    }
}
