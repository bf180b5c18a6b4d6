using System.CommandLine;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Text;
using Spurless.Sites.Sources;
using Spurless.Terminals;

namespace Spurless.CommandLine;

/// <summary>What a command has at hand while it runs.</summary>
/// <param name="terminal">Where it writes.</param>
/// <param name="parsed">Its command line.</param>
/// <param name="options">Its options for output.</param>
internal sealed class CommandContext(ITerminal terminal, ParseResult parsed, OutputOptions options)
{
    private int _inputTaken;

    /// <summary>Where it writes.</summary>
    public ITerminal Terminal => terminal;

    /// <summary>The value of <c>--format</c>.</summary>
    public string Format => options.Formats.Count > 1 ? parsed.GetValue(options.Format)! : options.Formats[0];

    /// <summary>The value of <c>--out</c>, or null for standard output.</summary>
    public string? Out => parsed.GetValue(options.Out);

    /// <summary>Whether remarks and progress are unwanted.</summary>
    public bool Quiet => parsed.GetValue(options.Quiet);

    /// <summary>Colours, where a person reads the result and has not asked for none (NO_COLOR).</summary>
    public TextInk Ink =>
        Out is null && terminal.OutputIsTerminal && terminal.Variable("NO_COLOR") is null && terminal.Variable("TERM") != "dumb"
        ? TextInk.Terminal
        : TextInk.None;

    /// <summary>What a report says of its own making: now, and by this version.</summary>
    public static ReportContext Made => ReportContext.Now(TimeProvider.System, ProgramVersion.Text);

    /// <summary>
    /// Reads a file that the command line names; <c>-</c> is standard input, and files it names lie in the folder one is in.
    /// </summary>
    /// <param name="path">As the user gave it.</param>
    /// <param name="wanted">What it is read as.</param>
    /// <param name="findings">Takes what is wrong.</param>
    /// <param name="cancel">Stops before it is opened.</param>
    public Task<SourceFile?> SourceAsync(string path, FileKind wanted, DiagnosticBag findings, CancellationToken cancel) => path == "-"
        ? Task.Run(() => SourceFile.Read(Input(), path, wanted, findings), cancel).WaitAsync(cancel)
        : SourceFile.ReadAsync(path, wanted, findings, cancel);

    /// <summary>Standard input as a file of its own; null where it is not asked for.</summary>
    public SpooledInput? Spooled(bool asked) => asked ? SpooledInput.Of(Input()) : null;

    /// <summary>Standard input, which can be read once.</summary>
    public Stream Input()
    {
        if (Interlocked.Exchange(ref _inputTaken, 1) == 1)
        {
            throw new UsageException("'-' stands for standard input, which can be read once; name a file in one of the places");
        }

        return terminal.InputStream;
    }

    /// <summary>The value of an option or a default.</summary>
    public T? Value<T>(Option<T> option) => parsed.GetValue(option);

    /// <summary>Whether an option stands on the command line, not only its default.</summary>
    public bool IsGiven(Option option) => parsed.GetResult(option) is { Implicit: false };

    /// <summary>The value of a required argument.</summary>
    public T Value<T>(Argument<T> argument) => parsed.GetValue(argument)!;

    /// <summary>Writes the result as text in UTF-8, to standard output or whole to the file of <c>--out</c>.</summary>
    /// <param name="write">Writes it; lines end in <c>\n</c>.</param>
    /// <returns><see cref="ExitStatus.Done"/>.</returns>
    public int Write(Action<TextWriter> write) => WriteBytes(stream => WriteText(stream, write));

    /// <summary>Writes text in UTF-8 to a stream.</summary>
    /// <param name="to">Where to; it stays open.</param>
    /// <param name="write">Writes it; lines end in <c>\n</c>.</param>
    public static void WriteText(Stream to, Action<TextWriter> write)
    {
        using StreamWriter text = new(to, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 16 * 1024, leaveOpen: true)
        {
            NewLine = "\n",
        };
        write(text);
    }

    /// <summary>Writes the result as bytes, to standard output or whole to the file of <c>--out</c>.</summary>
    /// <param name="write">Writes it.</param>
    /// <returns><see cref="ExitStatus.Done"/>.</returns>
    public int WriteBytes(Action<Stream> write)
    {
        if (Out is { } path)
        {
            if (OutputFile.ClearAway(path, TimeProvider.System.GetUtcNow()) is > 0 and var left)
            {
                string files = left == 1 ? "file" : "files";
                Remark(string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"{left} half-written {files} of a run that was ended while it wrote {path} cleared away"));
            }

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
