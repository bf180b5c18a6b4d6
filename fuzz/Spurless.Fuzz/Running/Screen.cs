using System.Diagnostics.CodeAnalysis;
using System.Text;
using Spurless.Terminals;

namespace Spurless.Fuzz.Running;

/// <summary>A terminal that keeps what is written to it.</summary>
[SuppressMessage("Design", "CA1001", Justification = "what is kept in memory holds nothing to give back")]
internal sealed class Screen : ITerminal
{
    private readonly MemoryStream _output = new();
    private readonly StringWriter _error = new() { NewLine = "\n" };

    public Stream InputStream => Stream.Null;

    public Stream OutputStream => _output;

    public TextWriter Error => _error;

    public bool OutputIsTerminal => false;

    public bool ErrorIsTerminal => false;

    /// <summary>What was written to standard output.</summary>
    public string OutputText => Encoding.UTF8.GetString(_output.GetBuffer(), 0, (int)_output.Length);

    /// <summary>What was written to standard error.</summary>
    public string ErrorText => _error.ToString();

    public string? Variable(string name) => null;
}
