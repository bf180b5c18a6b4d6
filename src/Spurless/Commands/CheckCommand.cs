using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Reports.Checks;
using Spurless.Sites.Checking;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>check FILE</c>: what is wrong with a file.</summary>
internal static class CheckCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("FILE", "a site, circuit, requirement or Touchstone file, a table of emitters or an observation log");
        Verb check = new("check", "reads a file and says all that is wrong with it, each time with what to write instead")
        {
            Details = "The kind of file is told by its name (*.site.yaml, *.circuit.yaml, *.requirement.yaml, *.s1p, *.s2p, *.log.csv, *.csv), else by its first lines. " +
                "Findings go to standard error as file:line:column: what was found; what to write instead.",
            Examples = [new("check demo/quernmoss.site.yaml", "Reads the invented demo site and every file it names.")],
        };
        check.Add(file);
        check.Does(terminal, new OutputOptions("text", "json"), (context, _) =>
        {
            CheckResult result = FileCheck.Run(context.Value(file));
            int status = context.Tell(result.Findings);
            if (context.Format == "json")
            {
                context.WriteBytes(to => CheckWriter.WriteJson(result, to));
            }
            else if (!context.Quiet)
            {
                context.Write(to => CheckWriter.WriteText(result, to));
            }

            return Task.FromResult(status);
        });
        return check;
    }
}
