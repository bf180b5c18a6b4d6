using System.Diagnostics.CodeAnalysis;
using System.Text;
using Spurless.Terminals;

namespace Spurless.Acceptance.Running;

/// <summary>A terminal that keeps what is written to it, for commands run within the test's own process.</summary>
[SuppressMessage("Design", "CA1001", Justification = "what is kept in memory holds nothing to give back")]
internal sealed class CapturedTerminal : ITerminal
{
    private readonly MemoryStream _output = new();
    private readonly StringWriter _error = new() { NewLine = "\n" };

    public Stream InputStream { get; init; } = Stream.Null;

    public Stream OutputStream => _output;

    public TextWriter Error => _error;

    public bool OutputIsTerminal { get; init; }

    public bool ErrorIsTerminal { get; init; }

    public Dictionary<string, string> Variables { get; } = [];

    public string OutputText => Encoding.UTF8.GetString(_output.ToArray());

    public string ErrorText => _error.ToString();

    public string? Variable(string name) => Variables.GetValueOrDefault(name);

    /// <summary>Runs one command line with something on standard input.</summary>
    public static Task<(int Status, string Output, string Error)> RunWithInputAsync(string input, params string[] args) =>
        RunWithInputAsync(Encoding.UTF8.GetBytes(input), args);

    /// <summary>The same with octets as they are.</summary>
    public static async Task<(int Status, string Output, string Error)> RunWithInputAsync(byte[] input, params string[] args)
    {
        CapturedTerminal terminal = new() { InputStream = new MemoryStream(input) };
        int status = await CommandFront.RunAsync(args, terminal, CancellationToken.None);
        return (status, terminal.OutputText, terminal.ErrorText);
    }

    /// <summary>Runs one command line on a new terminal.</summary>
    public static async Task<(int Status, string Output, string Error)> RunAsync(params string[] args)
    {
        CapturedTerminal terminal = new();
        int status = await CommandFront.RunAsync(args, terminal, CancellationToken.None);
        return (status, terminal.OutputText, terminal.ErrorText);
    }
}
