#pragma warning disable RS0030 // This is the one place that knows the console.
using System.Text;

namespace Spurless.Terminals;

/// <summary>The process's own standard streams, in UTF-8 without a mark at its start, whatever the locale.</summary>
internal sealed class SystemTerminal : ITerminal
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private Stream? _input;
    private Stream? _output;
    private TextWriter? _error;

    public Stream InputStream => _input ??= Console.OpenStandardInput();

    public Stream OutputStream => _output ??= Console.OpenStandardOutput();

    public TextWriter Error => _error ??= new StreamWriter(Console.OpenStandardError(), Utf8, 1024) { NewLine = "\n", AutoFlush = true };

    public bool OutputIsTerminal => !Console.IsOutputRedirected;

    public bool ErrorIsTerminal => !Console.IsErrorRedirected;

    public string? Variable(string name) => Environment.GetEnvironmentVariable(name) is { Length: > 0 } value ? value : null;
}
