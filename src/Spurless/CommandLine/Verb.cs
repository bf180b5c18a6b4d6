using System.CommandLine;
using Spurless.Terminals;

namespace Spurless.CommandLine;

/// <summary>One of the program's commands, with what its help needs beyond the parser's own.</summary>
/// <param name="name">What one types.</param>
/// <param name="purpose">What it does, in a line without a full stop.</param>
internal sealed class Verb(string name, string purpose) : Command(name, purpose)
{
    /// <summary>Further paragraphs of its help; may be empty.</summary>
    public string Details { get; init; } = "";

    /// <summary>At least one worked example.</summary>
    public required IReadOnlyList<Example> Examples { get; init; }

    /// <summary>Sets what the command does and gives it its <c>--format</c>, <c>--out</c> and <c>--quiet</c>.</summary>
    /// <param name="terminal">Where it writes.</param>
    /// <param name="output">The formats it knows.</param>
    /// <param name="run">The work; returns an exit status.</param>
    public void Does(ITerminal terminal, OutputOptions output, Func<CommandContext, CancellationToken, Task<int>> run)
    {
        output.AddTo(this);
        SetAction((parsed, cancel) => run(new CommandContext(terminal, parsed, output), cancel));
    }
}
