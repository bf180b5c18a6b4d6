using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Register.Importing;
using Spurless.Register.Layouts;
using Spurless.Reports.Registers;
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
        register.Add(RegisterNear.Create(terminal));
        register.Add(RegisterScreen.Create(terminal));
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
        Option<KnownLayout?> layout = OptionKinds.Parsed<KnownLayout>(
            "--layout",
            "NAME",
            "the register that the files must be of: fcc-uls, ised-tafl, acma-rrl or ofcom-wtr; default as it is seen from their heads",
            KnownLayouts.TryParse);
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
        import.Add(layout);
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
                        Layout = context.Value(layout),
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
}
