using System.CommandLine;
using System.Text;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Registers;
using Spurless.Sites.Registers;
using Spurless.Sites.Terrain;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>register screen DB</c>: many receivers against all transmitters of a register.</summary>
internal static class RegisterScreen
{
    public static Verb Create(ITerminal terminal)
    {
        Argument<string> database = OptionKinds.File("DB", "a register's database, or its files as a folder or zip file");
        Option<string?> receivers = OptionKinds.Text(
            "--receivers",
            "FILE.csv",
            "receivers: heads name,latitude,longitude (ground too) and the keys of a receiver; default those of the register");
        Option<OrderSet?> orders = OptionKinds.Parsed<OrderSet>(
            "--orders", "N,N,...", "orders of mixtures; default 2,3,5", OrderSet.TryParse);
        Option<Length?> within = OptionKinds.Parsed<Length>(
            "--within",
            "DISTANCE",
            "leave out transmitters further away, like \"100 km\"; default none is left out",
            RegisterNear.TryRadius);
        Option<TileRange?> tiles = OptionKinds.Parsed<TileRange>(
            "--tiles", "FIRST-LAST", "only these tiles of 500 receivers, for sharing the work out over machines", TileRange.TryParse);
        Option<string?> terrain = OptionKinds.Text(
            "--terrain", "FOLDER", "elevation files: levels over the ground between where they cover it");
        Verb screen = new("screen", "holds many receivers against all transmitters of a register")
        {
            Details =
                "One row a receiver in --out FILE: harmful and marginal mixtures made in the receiver, "
                    + "and the worst. FILE ends in .csv, .geojson or .html. A screening that was cut short goes on when it " +
                "is started again. Every transmitter of the register counts, whatever its distance, unless --within is given. "
                + "With --terrain a path costs some ten thousand times what it does without: give --within too where the list is long.",
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
        screen.Add(terrain);
        screen.Does(terminal, new OutputOptions("text"), (context, cancel) => RunAsync(
            context,
            new Asked(
                context.Value(database), context.Value(receivers), context.Value(orders)?.Orders ?? [2, 3, 5], context.Value(within),
                context.Value(tiles), context.Value(terrain)),
            cancel));
        return screen;
    }

    private static async Task<int> RunAsync(CommandContext context, Asked asked, CancellationToken cancel)
    {
        string file = context.Out ?? throw new UsageException("give the file of the result: --out FILE.csv, FILE.geojson or FILE.html");
        DiagnosticBag findings = new();
        ScreenAnswer? answer = null;
        SiteTerrain? ground = asked.Terrain is { } folder ? SiteTerrain.Of(folder, findings) : null;
        using RegisterPath? register = findings.HasErrors ? null : RegisterPath.Open(asked.Database, findings, cancel);
        using SpooledInput? spooled = context.Spooled(asked.Receivers == "-");
        using (ProgressLine line = context.Progress("screening"))
        {
            answer = register is null ? null : await ScreenService.RunAsync(
                new ScreenQuestion
                {
                    Database = register.Database,
                    Receivers = spooled?.Path ?? asked.Receivers,
                    Orders = asked.Orders,
                    Out = file,
                    WithinM = asked.Within?.Metres,
                    Terrain = ground,
                    Tiles = asked.Tiles is { } range ? (range.First, range.Last) : null,
                },
                ScreenWriter.Head,
                ScreenWriter.Row,
                Converter(file),
                findings,
                new ScreenLine(line),
                cancel).ConfigureAwait(false);
        }

        int status = context.Tell(findings.InOrder());
        if (answer is null)
        {
            return Math.Max(status, ExitStatus.Input);
        }

        // The rows are in the file of --out; what is said of them goes to standard output.
        using StreamWriter text = new(context.Terminal.OutputStream, new UTF8Encoding(false), 1024, leaveOpen: true) { NewLine = "\n" };
        ScreenWriter.WriteText(answer, file, text);
        if (asked.Within is { } cut)
        {
            text.Write($"Transmitters further than {cut} were left out.\n");
        }

        return ExitStatus.Done;
    }

    /// <summary>What makes the kind of file of its ending of the lines; null for the lines themselves.</summary>
    private static Func<TextWriter, IEnumerable<string>, Task>? Converter(string file) =>
        file.EndsWith(".geojson", StringComparison.OrdinalIgnoreCase)
            ? static (to, lines) =>
            {
                ScreenWriter.WriteGeoJson(to, lines);
                return Task.CompletedTask;
            }
    : file.EndsWith(".html", StringComparison.OrdinalIgnoreCase)
                ? static (to, lines) => ScreenReport.WriteAsync(to, lines, CommandContext.Made)
            : null;

    private sealed record Asked(
        string Database, string? Receivers, IReadOnlyList<int> Orders, Length? Within, TileRange? Tiles, string? Terrain);

    private sealed class ScreenLine(ProgressLine line) : IProgress<ScreenProgress>
    {
        public void Report(ScreenProgress value) => line.Report(value.Fraction, value.Doing);
    }
}
