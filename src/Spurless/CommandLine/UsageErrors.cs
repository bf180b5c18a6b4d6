using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;
using System.Globalization;
using Spurless.Files;
using Spurless.Reports.Text;

namespace Spurless.CommandLine;

/// <summary>What is said of a command line that cannot be read.</summary>
internal static class UsageErrors
{
    // A '*' that a shell made ten thousand names of would bury the first one.
    private const int Most = 20;

    /// <summary>Writes every fault on a line of its own, the first twenty of many, then where help is.</summary>
    public static void Write(ParseResult parsed, TextWriter error)
    {
        Command command = parsed.CommandResult.Command;
        string[] faults = [.. Faults(parsed, command).Distinct(StringComparer.Ordinal)];
        foreach (string fault in faults.Take(Most))
        {
            error.WriteLine("spurless: " + TextFlow.Printable(fault));
        }

        if (faults.Length > Most)
        {
            error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"spurless: and {faults.Length - Most} more"));
        }

        error.WriteLine(command is RootCommand
            ? "  'spurless --help' lists the commands."
            : $"  {HelpText.Usage(command)}\n  'spurless {HelpText.Path(command)} --help' explains it, with an example.");
    }

    private static IEnumerable<string> Faults(ParseResult parsed, Command command)
    {
        IReadOnlyList<string> unmatched = parsed.UnmatchedTokens; // made anew at every call

        // What follows a command that is none cannot be judged, nor the value of an option that stands where none is read.
        bool value = false;
        foreach (string word in command is RootCommand ? unmatched.Take(1) : unmatched)
        {
            Option? own = command.Options.FirstOrDefault(o => o.Name == word && o is not HelpOption);
            if (!value || own is not null || IsOption(word))
            {
                yield return own is null ? Unknown(word, command) : Misplaced(own, command);
            }

            value = own?.Arity.MaximumNumberOfValues > 0;
        }

        if (command is RootCommand && unmatched.Count == 0)
        {
            yield return "no command; write one after 'spurless'";
        }

        foreach (ParseError fault in parsed.Errors)
        {
            switch (fault.SymbolResult)
            {
                case CommandResult:
                    if (unmatched.Count == 0 && command is not RootCommand)
                    {
                        yield return Plain(fault.Message);
                    }

                    break;
                case ArgumentResult { Tokens.Count: 0, Argument: { } argument } result:
                    yield return $"{command.Name} needs {argument.HelpName ?? argument.Name}; {result.Argument.Description}";
                    break;
                case OptionResult { Tokens.Count: 0, Option: { } option }:
                    yield return $"{option.Name} needs {option.HelpName}; {option.Description}";
                    break;
                case OptionResult { Tokens.Count: > 1, Option: { } option } when option.Arity.MaximumNumberOfValues == 1:
                    yield return $"{option.Name} is given more than once; write it once";
                    break;
                default:
                    yield return Plain(fault.Message);
                    break;
            }
        }
    }

    private static bool IsOption(string word) => word.StartsWith('-') && word.Length > 1 && !char.IsAsciiDigit(word[1]);

    private static string Misplaced(Option own, Command command) => $"{own.Name} stands where no option is read; write it after "
        + $"'spurless {HelpText.Path(command)}'" + (own.Arity.MaximumNumberOfValues > 0 ? ", its value behind it" : "");

    private static string Unknown(string word, Command command)
    {
        bool isOption = IsOption(word);
        string[] known = isOption
            ? [.. command.Options.Where(static o => o is not HelpOption).Select(static o => o.Name), "--help"]
            : [.. command.Subcommands.Select(static c => c.Name)];
        string? near = Nearest.Find(word, known);
        return (isOption, command) switch
        {
            (true, RootCommand) => $"'{word}' is not known{Offer(near, "write a command first")}",
            (true, _) => $"'{word}' is not an option of {command.Name}"
                + Offer(near, $"'spurless {HelpText.Path(command)} --help' lists them"),
            (false, RootCommand) => $"'{word}' is not a command{Offer(near, "'spurless --help' lists them")}",
            _ => $"'{word}' is one word too many; put a value with spaces in quotation marks",
        };
    }

    private static string Offer(string? near, string otherwise) => near is null ? $"; {otherwise}" : $"; did you mean {near}?";

    private static string Plain(string message) => message.TrimEnd('.');
}
