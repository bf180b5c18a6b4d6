using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Studies;
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
            "--floor", "DBM", "leave out what arrives in the channel under this level, like -150; 'none' leaves nothing out; default 20 dB under the noise", Floor);
        Option<int?> top = OptionKinds.Parsed<int>("--top", "N", "only the N strongest mixtures of each receiver", Count);
        Option<double?> harmful = OptionKinds.Parsed<double>("--harmful-from", "DB", "harmful from so many dB over the noise; default 0", Ratio);
        Option<double?> marginal = OptionKinds.Parsed<double>("--marginal-from", "DB", "marginal from so many dB over the noise; default -10", Ratio);
        Option<OrderRange?> orders = SearchOptions.Orders();
        Option<int?> signals = SearchOptions.Signals();
        Option<string?> against = OptionKinds.Text("--against", "SITE", "compare with another site file: what appeared, went and changed");

        Verb study = new("study", "finds every mixture that lands on the receivers of a site, how strong it is and what it does")
        {
            Details = "Reads the site file with the circuits and sweeps it names. What is not known is said under 'Assumed'; JSON and CSV list every mixture down to the floor.",
            Examples =
            [
                new("study demo/quernmoss.site.yaml", "The invented demo: six mixtures are harmful, the worst by 43.5 dB, made in a transmitter."),
                new("study demo/quernmoss-filtered.site.yaml", "The same with a filter in line: before and after."),
                new("study demo/quernmoss-filtered.site.yaml --format html --out report.html", "The report: one page with pictures, to print and hand over."),
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
        study.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, cancel) =>
        {
            OrderRange? range = context.Value(orders);
            StudyOptions options = new()
            {
                FloorDbm = context.Value(floor),
                Top = context.Value(top),
                HarmfulFromDb = context.Value(harmful) ?? 0,
                MarginalFromDb = context.Value(marginal) ?? Math.Min(-10, context.Value(harmful) ?? 0),
                Orders = range is { } r ? (r.Lowest, r.Highest) : null,
                Signals = context.Value(signals),
            };
            if (options.MarginalFromDb > options.HarmfulFromDb)
            {
                throw new UsageException("--marginal-from is above --harmful-from; write a smaller --marginal-from");
            }

            try
            {
                return Task.FromResult(Run(context, context.Value(site), context.Value(against), options, cancel));
            }
            catch (TooManyProductsException e)
            {
                context.Terminal.Error.WriteLine($"{context.Value(site)}:0:0: {e.Message}");
                return Task.FromResult(ExitStatus.Input);
            }
        });
        return study;
    }

    private static int Run(CommandContext context, string path, string? against, StudyOptions options, CancellationToken cancel)
    {
        LoadedSite? site = Load(context, path);
        LoadedSite? other = against is null ? null : Load(context, against);
        if (site is null || (against is not null && other is null))
        {
            return ExitStatus.Input;
        }

        StudyResult result;
        StudyResult? before = null;
        using (ProgressLine line = context.Progress("searching"))
        {
            // One after the other on the calling thread, before the line of progress first shows.
            options = options with { LongLists = new Told(context, path) };
            result = StudyService.Run(site, options, new SearchProgressLine(line), cancel);
            if (other is not null)
            {
                before = StudyService.Run(other, options, new SearchProgressLine(line), cancel);
            }
        }

        if (before is not null)
        {
            StudyComparison comparison = StudyComparison.Of(before, result);
            return context.Format switch
            {
                "json" => context.WriteBytes(to => ComparisonJson.Write(comparison, to)),
                "csv" => throw new UsageException("--against has no CSV; write --format text or --format json"),
                "html" => throw new UsageException("--against has no page; write --format text or --format json"),
                _ => context.Write(to => ComparisonText.Write(comparison, to, context.Ink)),
            };
        }

        return context.Format switch
        {
            "json" => context.WriteBytes(to => StudyJson.Write(result, to)),
            "csv" => context.Write(to => StudyCsv.Write(result, to)),
            "html" => context.Write(to => to.Write(Page(result))),
            _ => context.Write(to => StudyText.Write(result, to, context.Ink)),
        };
    }

    /// <summary>Says on standard error what is coming.</summary>
    private sealed class Told(CommandContext context, string path) : IProgress<LongList>
    {
        public void Report(LongList value) => context.Terminal.Error.WriteLine($"{path}: {value.Says}");
    }

    private static string Page(StudyResult result)
    {
        string version = typeof(StudyCommand).Assembly.GetName().Version!.ToString(3);
        return StudyReport.RenderAsync(result, ReportContext.Now(TimeProvider.System, version)).GetAwaiter().GetResult();
    }

    private static LoadedSite? Load(CommandContext context, string path)
    {
        LoadedSite? site = SiteLoader.Load(path, out IReadOnlyList<Diagnostic> findings);
        context.Tell(findings);
        return site;
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

    private static bool Ratio(string text, out double value, out string problem) => Number(text, "dB", -1000, 1000, "a number of dB like -10", out value, out problem);

    private static bool Number(string text, string unit, double low, double high, string wanted, out double value, out string problem)
    {
        string bare = text.Trim().Replace('\u2212', '-');
        bare = bare.EndsWith(unit, StringComparison.OrdinalIgnoreCase) ? bare[..^unit.Length].TrimEnd() : bare;
        if (double.TryParse(bare, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && value >= low && value <= high)
        {
            problem = "";
            return true;
        }

        problem = $"'{text.Trim()}' is not {wanted}; write {wanted}";
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
