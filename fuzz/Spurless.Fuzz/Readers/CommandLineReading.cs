using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text;
using Spurless.CommandLine;
using Spurless.Commands;
using Spurless.Fuzz.Inputs;
using Spurless.Fuzz.Running;

namespace Spurless.Fuzz.Readers;

/// <summary>
/// Command lines, a word a line: split into command, options and values, each value read, and what is wrong said. Nothing is carried out.
/// </summary>
internal sealed class CommandLineReading : IFuzzedReader
{
    // Made once: it keeps nothing of what it parses.
    private readonly RootCommand _root = CommandTree.Create(new Screen());

    public string Name => "command line";

    public Family Family => Family.Lines;

    public IEnumerable<byte[]> Examples => _root.Subcommands.SelectMany(Verbs)
        .SelectMany(static v => v.Examples)
        .Select(static e => Encoding.UTF8.GetBytes(string.Join('\n', CommandLineParser.SplitCommandLine(e.Line))));

    public void Read(byte[] input)
    {
        string[] words = Encoding.UTF8.GetString(input).Split('\n');
        ParserConfiguration way = new() { EnablePosixBundling = false, ResponseFileTokenReplacer = null };
        ParseResult parsed = _root.Parse(words, way);
        if (parsed.Errors.Count > 0 || parsed.CommandResult.Command is not Verb)
        {
            using StringWriter said = new();
            UsageErrors.Write(parsed, said);
            if (said.ToString().Length == 0)
            {
                throw new Violation("refused without a word");
            }

            return;
        }

        if (parsed.Action != parsed.CommandResult.Command.Action)
        {
            return; // '--help' among the words: nothing else of them is read
        }

        foreach (Option option in parsed.CommandResult.Command.Options)
        {
            _ = parsed.GetResult(option)?.GetValueOrDefault<object>();
        }
    }

    private static IEnumerable<Verb> Verbs(Command command) => command is Verb verb ? [verb] : command.Subcommands.SelectMany(Verbs);
}
