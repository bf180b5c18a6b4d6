using System.Text;
using Spurless.CommandLine;
using Spurless.Terminals;

namespace Spurless.Acceptance.Running;

/// <summary>A terminal that keeps what is written to it, for commands run within the test's own process.</summary>
internal sealed class CapturedTerminal : ITerminal
{
    private readonly MemoryStream _output = new();
    private readonly StringWriter _error = new() { NewLine = "\n" };

    public Stream OutputStream => _output;

    public TextWriter Error => _error;

    public bool OutputIsTerminal { get; init; }

    public bool ErrorIsTerminal { get; init; }

    public Dictionary<string, string> Variables { get; } = [];

    public string OutputText => Encoding.UTF8.GetString(_output.ToArray());

    public string ErrorText => _error.ToString();

    public string? Variable(string name) => Variables.GetValueOrDefault(name);

    /// <summary>Runs one command line on a new terminal.</summary>
    public static async Task<(int Status, string Output, string Error)> RunAsync(params string[] args)
    {
        CapturedTerminal terminal = new();
        int status = await CommandFront.RunAsync(args, terminal, CancellationToken.None);
        return (status, terminal.OutputText, terminal.ErrorText);
    }
}
