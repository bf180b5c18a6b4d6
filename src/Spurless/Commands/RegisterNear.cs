using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Registers;
using Spurless.Sites.Documents;
using Spurless.Sites.Matching;
using Spurless.Sites.Registers;
using Spurless.Sites.Sources;
using Spurless.Sites.Terrain;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>register near SITE</c>: licensed transmitters round a site, and which of them was measured.</summary>
internal static class RegisterNear
{
    public static Verb Create(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.File("SITE", "a site file with its 'place:'");
        Option<string?> from = OptionKinds.Text(
            "--from", "DB", "the register's database; or the register's files as a folder or zip file, imported for this call only");
        from.Required = true;
        Option<Length?> radius = OptionKinds.Parsed<Length>(
            "--radius", "DISTANCE", "how far to look, like \"25 km\"; default 10 km", TryRadius);
        Option<bool> add = OptionKinds.Switch("--add", "write those that the site file does not have into it; comments and order stay");
        Option<string?> match = OptionKinds.Text(
            "--match",
            "FILE",
            "join measured emitters with the licences: FILE is a survey's JSON, or a site file (SITE again for its own measured levels)");
        Verb near = new("near", "says which licensed transmitters stand round a site, and how strong they should be")
        {
            Details =
                "Levels are predicted at the antenna connector of the site's first receiver: "
                    + "plane earth where both antennas' heights and both grounds are known, else free space, the most that it " +
                "can be; over the ground where the site names elevation files. A level measured at the site beats any of them. "
                + "With --match each measured emitter is joined with a licence by frequency, direction and level, or listed as ambiguous; "
                + "--add then writes every transmitter once, with its measured level.",
            Examples =
            [
                new(
                    "register near demo/unlisted.site.yaml --from demo/register --radius \"25 km\"",
                    "What is licensed round the demo's hill, strongest first."),
            ],
        };
        near.Add(site);
        near.Add(from);
        near.Add(radius);
        near.Add(add);
        near.Add(match);
        near.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, cancel) => RunAsync(
            context,
            new Asked(
                context.Value(site),
                context.Value(from)!,
                context.Value(radius)?.Metres ?? NearQuestion.DefaultRadiusM,
                context.Value(add),
                context.Value(match)),
            cancel));
        return near;
    }

    private static async Task<int> RunAsync(CommandContext context, Asked asked, CancellationToken cancel)
    {
        DiagnosticBag findings = new();
        if (asked is { Site: "-", Add: true })
        {
            throw new UsageException("--add writes into the site file, and '-' is none; name the file");
        }

        SourceFile? source = await context.SourceAsync(asked.Site, FileKind.Site, findings, cancel).ConfigureAwait(false);
        SiteDocument? document = source is null ? null : SourceReader.SiteAlone(source, findings);
        Measurements? measured = document is null || asked.Match is null
            ? null
            : await MeasuredAsync(context, asked, document, findings, cancel).ConfigureAwait(false);
        if (document is null || (asked.Match is not null && measured is null))
        {
            return Math.Max(context.Tell(findings.InOrder()), ExitStatus.Input);
        }

        using RegisterPath? register = RegisterPath.Open(asked.From, findings, cancel);
        NearAnswer? answer = register is null || findings.HasErrors
            ? null
            : NearService.Run(document, Question(source!, document, register.Database, asked.RadiusM, findings), findings, cancel);
        MatchAnswer? match = answer is not null && measured is not null ? MatchService.Run(measured.Emitters, answer, cancel) : null;
        IReadOnlyList<string> added = [];
        if (answer is not null && asked.Add)
        {
            IReadOnlyList<SiteAddition> additions = match is not null
                ? MatchAdditions.Of(document, answer, match, measured!.ResolutionHz)
                : [.. answer.Emitters.Select(NearService.Addition)];
            answer = Add(source!, document, additions, findings, out added) ? answer : null;
        }

        int status = context.Tell(findings.InOrder());
        if (answer is null)
        {
            return Math.Max(status, ExitStatus.Input);
        }

        if (asked.Add)
        {
            context.Remark(Written(added.Count, asked.Site));
        }

        return await WriteAsync(context, answer, match, added).ConfigureAwait(false);
    }

    /// <summary>How many emitters <c>--add</c> wrote, and where.</summary>
    internal static string Written(int count, string file) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? "emitter was" : "emitters were")} written into {file}");

    private static NearQuestion Question(
        SourceFile source, SiteDocument document, string database, double radiusM, DiagnosticBag findings) => new()
        {
            Database = database,
            RadiusM = radiusM,
            Terrain = SiteTerrain.Of(document, source.Folder, findings),
            Networks = SiteLoader.LoadNetworks(
                document, source.Folder, document.Receivers[0].Antenna?.Response?.TwoPort is { } file ? [file.Path] : []),
        };

    /// <summary>What was measured: the emitters of a site file that have a level, or a survey's.</summary>
    private static async Task<Measurements?> MeasuredAsync(
        CommandContext context, Asked asked, SiteDocument document, DiagnosticBag findings, CancellationToken cancel)
    {
        string file = asked.Match!;
        if (file == asked.Site)
        {
            return new Measurements(MatchService.OfSite(document), 0);
        }

        if (file.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || file.EndsWith(".yml", StringComparison.OrdinalIgnoreCase))
        {
            SourceFile? other = await context.SourceAsync(file, FileKind.Site, findings, cancel).ConfigureAwait(false);
            return other is not null && SourceReader.SiteAlone(other, findings) is { } site
                ? new Measurements(MatchService.OfSite(site), 0)
                : null;
        }

        return SurveyFile.Read(file, findings) is { } survey
            ? new Measurements(MatchService.OfSurvey(survey.Emitters), survey.ResolutionHz)
            : null;
    }

    private static async Task<int> WriteAsync(
        CommandContext context, NearAnswer answer, MatchAnswer? match, IReadOnlyList<string> added)
    {
        string? page = context.Format == "html"
            ? await NearReport.RenderAsync(answer, match is null ? [] : [MatchWriter.Table(match)], CommandContext.Made)
                .ConfigureAwait(false)
            : null;
        return context.Format switch
        {
            "json" => context.WriteBytes(to => NearWriter.WriteJson(answer, added, to, match)),
            "csv" => context.Write(to => NearWriter.WriteCsv(answer, to)),
            "html" => context.Write(to => to.Write(page)),
            _ => context.Write(to =>
            {
                NearWriter.WriteText(answer, to, context.Ink);
                if (match is not null)
                {
                    MatchWriter.WriteText(match, to, context.Ink);
                }
            }),
        };
    }

    /// <summary>Writes emitters into a site file on the disk.</summary>
    internal static bool Add(
        SourceFile source,
        SiteDocument site,
        IReadOnlyList<SiteAddition> additions,
        DiagnosticBag findings,
        out IReadOnlyList<string> added)
    {
        if (!SiteAdditions.TryAdd(source.Text, source.Path, site, additions, AdditionWords.Of, out string? edited, out added, findings))
        {
            return false;
        }

        if (added.Count > 0)
        {
            OutputFile.WriteChanged(source.Path, source, edited);
        }

        return true;
    }

    internal static bool TryRadius(string text, out Length value, out string problem)
    {
        if (!Length.TryParse(text, out value, out problem))
        {
            return false;
        }

        problem = $"'{text.Trim()}' is no distance to look round; write more than 0 and at most 20000 km, like \"25 km\"";
        return value.Metres is > 0 and <= 20_000_000;
    }

    private sealed record Asked(string Site, string From, double RadiusM, bool Add, string? Match);

    private sealed record Measurements(IReadOnlyList<MeasuredEmitter> Emitters, double ResolutionHz);
}
