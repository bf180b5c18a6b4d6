using System.CommandLine;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Text;
using Spurless.Terminals;

namespace Spurless.CommandLine;

/// <summary>What a command has at hand while it runs.</summary>
/// <param name="terminal">Where it writes.</param>
/// <param name="parsed">Its command line.</param>
/// <param name="options">Its options for output.</param>
internal sealed class CommandContext(ITerminal terminal, ParseResult parsed, OutputOptions options)
{
    /// <summary>Where it writes.</summary>
    public ITerminal Terminal => terminal;

    /// <summary>The value of <c>--format</c>.</summary>
    public string Format => options.Formats.Count > 1 ? parsed.GetValue(options.Format)! : options.Formats[0];

    /// <summary>The value of <c>--out</c>, or null for standard output.</summary>
    public string? Out => parsed.GetValue(options.Out);

    /// <summary>Whether remarks and progress are unwanted.</summary>
    public bool Quiet => parsed.GetValue(options.Quiet);

    /// <summary>Colours, where a person reads the result and has not asked for none (NO_COLOR).</summary>
    public TextInk Ink => Out is null && terminal.OutputIsTerminal && terminal.Variable("NO_COLOR") is null && terminal.Variable("TERM") != "dumb"
        ? TextInk.Terminal
        : TextInk.None;

    /// <summary>The value of an option or a default.</summary>
    public T? Value<T>(Option<T> option) => parsed.GetValue(option);

    /// <summary>The value of a required argument.</summary>
    public T Value<T>(Argument<T> argument) => parsed.GetValue(argument)!;

    /// <summary>Writes the result as text in UTF-8, to standard output or whole to the file of <c>--out</c>.</summary>
    /// <param name="write">Writes it; lines end in <c>\n</c>.</param>
    /// <returns><see cref="ExitStatus.Done"/>.</returns>
    public int Write(Action<TextWriter> write) => WriteBytes(stream =>
    {
        using StreamWriter text = new(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 16 * 1024, leaveOpen: true) { NewLine = "\n" };
        write(text);
    });

    /// <summary>Writes the result as bytes, to standard output or whole to the file of <c>--out</c>.</summary>
    /// <param name="write">Writes it.</param>
    /// <returns><see cref="ExitStatus.Done"/>.</returns>
    public int WriteBytes(Action<Stream> write)
    {
        if (Out is { } path)
        {
            OutputFile.Write(path, write);
        }
        else
        {
            write(terminal.OutputStream);
        }

        return ExitStatus.Done;
    }

    /// <summary>Tells findings on standard error.</summary>
    /// <param name="findings">What a reading found.</param>
    /// <returns><see cref="ExitStatus.Input"/> where one of them is an error, else <see cref="ExitStatus.Done"/>.</returns>
    public int Tell(IReadOnlyList<Diagnostic> findings)
    {
        bool bad = false;
        foreach (Diagnostic finding in findings)
        {
            bool error = finding.Severity == Severity.Error;
            bad |= error;
            if (error || !Quiet)
            {
                terminal.Error.WriteLine(TextFlow.Printable(finding.ToString()));
            }
        }

        return bad ? ExitStatus.Input : ExitStatus.Done;
    }

    /// <summary>Tells a remark on standard error, unless <c>--quiet</c>.</summary>
    public void Remark(string words)
    {
        if (!Quiet)
        {
            terminal.Error.WriteLine(TextFlow.Printable(words));
        }
    }

    /// <summary>A line of progress: on a terminal, and unless <c>--quiet</c>; else it shows nothing.</summary>
    /// <param name="what">What is being done.</param>
    public ProgressLine Progress(string what) => new(terminal.ErrorIsTerminal && !Quiet ? terminal.Error : null, what, TimeProvider.System);
}
