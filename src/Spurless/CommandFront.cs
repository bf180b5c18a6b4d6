using System.CommandLine;
using System.CommandLine.Help;
using System.Text;
using Spurless.CommandLine;
using Spurless.Commands;
using Spurless.Reports.Text;
using Spurless.Terminals;

namespace Spurless;

/// <summary>From a command line to an exit status. No failure leaves here as an exception.</summary>
internal static class CommandFront
{
    /// <summary>Runs one command line.</summary>
    /// <param name="args">The words after the program's name.</param>
    /// <param name="terminal">Where it writes.</param>
    /// <param name="cancel">Cancelled when the user stops it.</param>
    /// <returns>One of <see cref="ExitStatus"/>.</returns>
    public static async Task<int> RunAsync(string[] args, ITerminal terminal, CancellationToken cancel)
    {
        int status;
        try
        {
            status = args is ["--version"] ? Version(terminal) : await InvokeAsync(args, terminal, cancel).ConfigureAwait(false);
            terminal.OutputStream.Flush();
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            terminal.Error.WriteLine("spurless: stopped");
            status = ExitStatus.Cancelled;
        }
        catch (UsageException e)
        {
            foreach (string finding in e.Findings)
            {
                terminal.Error.WriteLine("spurless: " + TextFlow.Printable(finding));
            }

            status = ExitStatus.Usage;
        }
        catch (Exception e)
        {
            status = Failed(e, terminal);
        }

        return status;
    }

    // Before anything of the parser is loaded: what scripts ask for most must be there at once.
    private static int Version(ITerminal terminal)
    {
        terminal.OutputStream.Write(Encoding.UTF8.GetBytes($"spurless {ProgramVersion.Text}\n"));
        return ExitStatus.Done;
    }

    private static async Task<int> InvokeAsync(string[] args, ITerminal terminal, CancellationToken cancel)
    {
        RootCommand root = CommandTree.Create(terminal);
        // Neither '-abc' for '-a -b -c' nor '@file' for its words: a level may begin with '-', a name with '@'.
        ParseResult parsed = root.Parse(args, new ParserConfiguration { EnablePosixBundling = false, ResponseFileTokenReplacer = null });
        Command command = parsed.CommandResult.Command;

        if (args.Length == 0)
        {
            HelpText.Write(root, terminal.Error);
            return ExitStatus.Usage;
        }

        bool wantsHelp = root.Options.OfType<HelpOption>().Any(o => parsed.GetResult(o) is { Implicit: false });
        if (wantsHelp && (command is Verb || parsed.UnmatchedTokens.Count == 0))
        {
            using StreamWriter help = new(terminal.OutputStream, leaveOpen: true);
            HelpText.Write(command, help);
            return ExitStatus.Done;
        }

        if (parsed.Errors.Count > 0 || command is not Verb)
        {
            UsageErrors.Write(parsed, terminal.Error);
            return ExitStatus.Usage;
        }

        InvocationConfiguration invocation = new()
        {
            Output = TextWriter.Null, // commands write by themselves
            Error = terminal.Error,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = null,
        };
        return await parsed.InvokeAsync(invocation, cancel).ConfigureAwait(false);
    }

    private static int Failed(Exception e, ITerminal terminal)
    {
        try
        {
            string message = TextFlow.Printable(e.Message.ReplaceLineEndings(" "));
            string kind = e is IOException or OutOfMemoryException ? "" : $"this is a fault of the program ({e.GetType().Name}): ";
            terminal.Error.WriteLine($"spurless: {kind}{message}");
            if (terminal.Variable("SPURLESS_TRACE") is not null)
            {
                terminal.Error.WriteLine(e.ToString());
            }
        }
        catch (IOException)
        {
            // Nobody reads standard error: the status says it.
        }

        return ExitStatus.Failed;
    }
}
