using System.CommandLine;
using System.Globalization;
using System.Text;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Register.Importing;
using Spurless.Reports.Registers;
using Spurless.Sites.Documents;
using Spurless.Sites.Registers;
using Spurless.Sites.Sources;
using Spurless.Sites.Terrain;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>register import|near|screen</c>: licence registers.</summary>
internal static class RegisterCommand
{
    public static Command Create(ITerminal terminal)
    {
        Command register = new(
            "register", "licence registers: who transmits near a site, or what a whole country's transmitters do to a list of receivers");
        register.Add(Import(terminal));
        register.Add(Near(terminal));
        register.Add(Screen(terminal));
        return register;
    }

    private static Verb Import(ITerminal terminal)
    {
        Argument<string[]> files = new("FILES")
        {
            Description = "files, folders or zip files of a register; what they are is seen from their names and heads",
            HelpName = "FILES",
            Arity = ArgumentArity.OneOrMore,
        };
        Option<string?> into = OptionKinds.Text("--into", "DB", "the database; made where there is none");
        into.Required = true;
        Option<string?> rejects = OptionKinds.Text("--rejects", "FILE", "where rejected rows are kept; default DB.rejects.csv");
        Option<DateOnly?> asOf = OptionKinds.Parsed<DateOnly>(
            "--as-of", "DATE", "the day on which licences must be in force, like 2031-03-04; default today", TryDate);
        Verb import = new("import", "reads a licence register into a database")
        {
            Details =
                "Read are the open bulk files of FCC ULS (HD, LO, AN, FR, EM), ISED TAFL, "
                    + "ACMA RRL and Ofcom WTR, and any table beside a mapping file (*.columns.yaml). " +
                "The same files again replace themselves; an import that was cut short goes on when it is "
                    + "started again. Names and addresses of persons are not kept.",
            Examples =
            [
                new(
                    "register import demo/register --into quernmoss.db",
                    "The demo's invented extract: how many records were taken, and why the others were not."),
            ],
        };
        import.Add(files);
        import.Add(into);
        import.Add(rejects);
        import.Add(asOf);
        import.Does(terminal, new OutputOptions("text", "json"), (context, cancel) =>
        {
            ImportOutcome outcome;
            using SpooledInput? spooled = context.Spooled(context.Value(files).Contains("-"));
            using (ProgressLine line = context.Progress("importing"))
            {
                DateOnly today = DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().Date);
                outcome = RegisterImport.Run(
                    new ImportQuestion
                    {
                        Files = [.. context.Value(files).Select(f => f == "-" ? spooled!.Path : f)],
                        Database = context.Value(into)!,
                        AsOf = context.Value(asOf) ?? today,
                        Rejects = context.Value(rejects),
                    },
                    new ImportLine(line),
                    cancel);
            }

            int status = context.Tell(outcome.Diagnostics);
            return Task.FromResult(outcome.Answer is not { } answer ? Math.Max(status, ExitStatus.Input)
                : context.Format == "json" ? context.WriteBytes(to => ImportWriter.WriteJson(answer, to))
                : context.Write(to => ImportWriter.WriteText(answer, context.Value(into)!, to, context.Ink)));
        });
        return import;
    }

    private static Verb Near(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.File("SITE", "a site file with its 'place:'");
        Option<string?> from = OptionKinds.Text(
            "--from", "DB", "the register's database; or the register's files as a folder or zip file, imported for this call only");
        from.Required = true;
        Option<Length?> radius = OptionKinds.Parsed<Length>(
            "--radius", "DISTANCE", "how far to look, like \"25 km\"; default 10 km", TryRadius);
        Option<bool> add = OptionKinds.Switch("--add", "write those that the site file does not have into it; comments and order stay");
        Verb near = new("near", "says which licensed transmitters stand round a site, and how strong they should be")
        {
            Details =
                "Levels are predicted at the antenna connector of the site's first receiver: "
                    + "plane earth where both antennas' heights and both grounds are known, else free space, the most that it " +
                "can be. A level measured at the site beats any of them.",
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
        near.Does(terminal, new OutputOptions("text", "json", "csv"), async (context, cancel) =>
        {
            string path = context.Value(site);
            DiagnosticBag findings = new();
            if (path == "-" && context.Value(add))
            {
                throw new UsageException("--add writes into the site file, and '-' is none; name the file");
            }

            SourceFile? source = await context.SourceAsync(path, FileKind.Site, findings, cancel).ConfigureAwait(false);
            SiteDocument? document = source is null ? null : SourceReader.SiteAlone(source, findings);
            using RegisterPath? register = document is null ? null : RegisterPath.Open(context.Value(from)!, findings, cancel);
            NearQuestion question = new()
            {
                Database = register?.Database ?? "",
                RadiusM = context.Value(radius)?.Metres ?? NearQuestion.DefaultRadiusM,
            };
            question = document is not null && !findings.HasErrors
                ? question with
                {
                    Terrain = SiteTerrain.Of(document, source!.Folder, findings),
                    Networks = SiteLoader.LoadNetworks(
                        document, source.Folder, document.Receivers[0].Antenna?.Response?.TwoPort is { } file ? [file.Path] : []),
                }
                : question;
            NearAnswer? answer = document is not null && register is not null
                ? NearService.Run(document, question, findings, cancel)
                : null;
            IReadOnlyList<string> added = [];
            if (answer is not null
                && context.Value(add)
                && !Add(source!, document!, [.. answer.Emitters.Select(NearService.Addition)], findings, out added))
            {
                answer = null;
            }

            int status = context.Tell(findings.InOrder());
            if (answer is null)
            {
                return Math.Max(status, ExitStatus.Input);
            }

            if (context.Value(add))
            {
                context.Remark(string.Create(CultureInfo.InvariantCulture, $"{added.Count} emitters were written into {path}"));
            }

            return context.Format switch
            {
                "json" => context.WriteBytes(to => NearWriter.WriteJson(answer, added, to)),
                "csv" => context.Write(to => NearWriter.WriteCsv(answer, to)),
                _ => context.Write(to => NearWriter.WriteText(answer, to, context.Ink)),
            };
        });
        return near;
    }

    /// <summary>Writes emitters into a site file on the disk.</summary>
    internal static bool Add(
        SourceFile source,
        SiteDocument site,
        IReadOnlyList<SiteAddition> additions,
        DiagnosticBag findings,
        out IReadOnlyList<string> added)
    {
        if (!SiteAdditions.TryAdd(source.Text, source.Path, site, additions, out string? edited, out added, findings))
        {
            return false;
        }

        if (added.Count > 0)
        {
            OutputFile.WriteChanged(source.Path, source, edited);
        }

        return true;
    }

    private static Verb Screen(ITerminal terminal)
    {
        Argument<string> database = OptionKinds.File("DB", "a register's database, or its files as a folder or zip file");
        Option<string?> receivers = OptionKinds.Text(
            "--receivers",
            "FILE.csv",
            "receivers: heads name,latitude,longitude (ground too) and the keys of a receiver; default those of the register");
        Option<OrderSet?> orders = OptionKinds.Parsed<OrderSet>(
            "--orders", "N,N,...", "orders of mixtures; default 2,3,5", OrderSet.TryParse);
        Option<Length?> within = OptionKinds.Parsed<Length>(
            "--within", "DISTANCE", "leave out transmitters further away, like \"100 km\"; default none is left out", TryRadius);
        Option<TileRange?> tiles = OptionKinds.Parsed<TileRange>(
            "--tiles", "FIRST-LAST", "only these tiles of 500 receivers, for sharing the work out over machines", TileRange.TryParse);
        Verb screen = new("screen", "holds many receivers against all transmitters of a register")
        {
            Details =
                "One row a receiver in --out FILE: harmful and marginal mixtures made in the receiver, "
                    + "and the worst. FILE ends in .csv or .geojson. A screening that was cut short goes on when it " +
                "is started again. Every transmitter of the register counts, whatever its distance, unless --within is given.",
            Examples =
            [
                new(
                    "register screen demo/register --receivers demo/receivers.csv --out screen.csv",
                    "The demo's three receivers against its register."),
            ],
        };
        screen.Add(database);
        screen.Add(receivers);
        screen.Add(orders);
        screen.Add(within);
        screen.Add(tiles);
        screen.Does(terminal, new OutputOptions("text"), (context, cancel) =>
        {
            string file = context.Out ?? throw new UsageException("give the file of the result: --out FILE.csv, or FILE.geojson");
            bool geo = file.EndsWith(".geojson", StringComparison.OrdinalIgnoreCase);
            DiagnosticBag findings = new();
            ScreenAnswer? answer = null;
            using RegisterPath? register = RegisterPath.Open(context.Value(database), findings, cancel);
            using SpooledInput? spooled = context.Spooled(context.Value(receivers) == "-");
            using (ProgressLine line = context.Progress("screening"))
            {
                answer = register is null ? null : ScreenService.Run(
                    new ScreenQuestion
                    {
                        Database = register.Database,
                        Receivers = spooled?.Path ?? context.Value(receivers),
                        Orders = context.Value(orders)?.Orders ?? [2, 3, 5],
                        Out = file,
                        WithinM = context.Value(within)?.Metres,
                        Tiles = context.Value(tiles) is { } range ? (range.First, range.Last) : null,
                    },
                    ScreenWriter.Head,
                    ScreenWriter.Row,
                    geo ? ScreenWriter.WriteGeoJson : null,
                    findings,
                    new ScreenLine(line),
                    cancel);
            }

            int status = context.Tell(findings.InOrder());
            if (answer is null)
            {
                return Task.FromResult(Math.Max(status, ExitStatus.Input));
            }

            // The rows are in the file of --out; what is said of them goes to standard output.
            using StreamWriter text = new(context.Terminal.OutputStream, new UTF8Encoding(false), 1024, leaveOpen: true) { NewLine = "\n" };
            ScreenWriter.WriteText(answer, file, text);
            if (context.Value(within) is { } cut)
            {
                text.Write($"Transmitters further than {cut} were left out.\n");
            }

            return Task.FromResult(ExitStatus.Done);
        });
        return screen;
    }

    private static bool TryRadius(string text, out Length value, out string problem)
    {
        if (!Length.TryParse(text, out value, out problem))
        {
            return false;
        }

        problem = $"'{text.Trim()}' is no distance to look round; write more than 0 and at most 20000 km, like \"25 km\"";
        return value.Metres is > 0 and <= 20_000_000;
    }

    private static bool TryDate(string text, out DateOnly value, out string problem)
    {
        problem = $"'{text.Trim()}' is no date; write it like 2031-03-04";
        return DateOnly.TryParseExact(text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out value);
    }

    private sealed class ImportLine(ProgressLine line) : IProgress<ImportProgress>
    {
        private readonly long _begin = TimeProvider.System.GetTimestamp();

        public void Report(ImportProgress value) =>
            line.Report(value.Fraction, ImportWriter.Rate(value.Rows, TimeProvider.System.GetElapsedTime(_begin)));
    }

    private sealed class ScreenLine(ProgressLine line) : IProgress<ScreenProgress>
    {
        public void Report(ScreenProgress value) => line.Report(value.Fraction, value.Doing);
    }
}
