using System.CommandLine;
using System.CommandLine.Help;
using Spurless.Reports.Text;

namespace Spurless.CommandLine;

/// <summary>What <c>--help</c> prints: purpose, how to type it, its words, worked examples; in 80 columns.</summary>
internal static class HelpText
{
    /// <summary>Writes the help of a command, or of the program as a whole.</summary>
    public static void Write(Command command, TextWriter to)
    {
        Paragraphs(to, Sentence(command.Description ?? ""));
        if (command is Verb { Details.Length: > 0 } detailed)
        {
            to.Write('\n');
            Paragraphs(to, detailed.Details);
        }

        to.Write("\nUsage\n");
        Paragraphs(to, Usage(command), indent: 2, hanging: 4);

        if (command.Subcommands.Count > 0)
        {
            Section(to, "Commands", command.Subcommands.Select(static c => (c.Name, c.Description ?? "")));
        }

        Section(to, "Arguments", command.Arguments.Select(static a => (a.HelpName ?? a.Name, a.Description ?? "")));
        Section(to, "Options", command.Options.Select(static o => ($"{o.Name} {o.HelpName}".TrimEnd(), Purpose(o)))
            .Concat(command is RootCommand ? [] : [("--help", "this text")]));

        if (command is Verb verb)
        {
            to.Write(verb.Examples.Count == 1 ? "\nExample\n" : "\nExamples\n");
            foreach (Example example in verb.Examples)
            {
                // Never broken, so that it can be pasted.
                to.Write($"  spurless {example.Line}\n");
                Paragraphs(to, example.Says, indent: 6);
            }
        }
        else
        {
            to.Write('\n');
            Paragraphs(to, "'spurless COMMAND --help' explains a command, with an example.");
        }
    }

    /// <summary>How a command is typed: <c>spurless study SITE [options]</c>.</summary>
    public static string Usage(Command command) => command is RootCommand
        ? "spurless COMMAND [options]"
        : command is not Verb
        ? $"spurless {command.Name} {string.Join('|', command.Subcommands.Select(static c => c.Name))} [options]"
        : string.Join(' ', ["spurless", Path(command), .. command.Arguments.Select(static a => a.HelpName ?? a.Name),
            .. command.Options.Where(static o => o.Required).Select(static o => $"{o.Name} {o.HelpName}"), "[options]"]);

    /// <summary>What is typed to come to a command: <c>register near</c>.</summary>
    public static string Path(Command command) => string.Join(
        ' ', [.. command.Parents.OfType<Command>().Where(static p => p is not RootCommand).Select(static p => p.Name), command.Name]);

    private static string Purpose(Option option) => option is HelpOption ? "this text" : option.Description ?? "";

    private static void Section(TextWriter to, string title, IEnumerable<(string Name, string Purpose)> rows)
    {
        (string Name, string Purpose)[] all = [.. rows];
        if (all.Length == 0)
        {
            return;
        }

        to.Write($"\n{title}\n");
        int column = Math.Min(30, all.Max(static r => r.Name.Length) + 4);
        foreach ((string name, string purpose) in all)
        {
            IReadOnlyList<string> lines = TextFlow.Wrap(purpose, TextFlow.DefaultWidth, column);
            bool fits = name.Length + 4 <= column;
            to.Write(fits ? "  " + name.PadRight(column - 2) + lines[0].TrimStart() + '\n' : $"  {name}\n{lines[0]}\n");
            foreach (string line in lines.Skip(1))
            {
                to.Write(line + '\n');
            }
        }
    }

    private static void Paragraphs(TextWriter to, string text, int indent = 0, int hanging = 0)
    {
        foreach (string line in TextFlow.Wrap(text, TextFlow.DefaultWidth, indent, hanging))
        {
            to.Write(line + '\n');
        }
    }

    private static string Sentence(string purpose) =>
        purpose.Length == 0 ? "" : char.ToUpperInvariant(purpose[0]) + purpose[1..].TrimEnd('.') + ".";
}
