using Microsoft.Extensions.Logging.Abstractions;
using Spurless.Reports.Text;
using Spurless.Terminals;

namespace Spurless.Pages.Shell;

/// <summary>
/// Faults of the pages, told on standard error as those of the commands are: one line, the trace only where it is asked for.
/// </summary>
internal sealed class TerminalLog(ITerminal terminal) : ILoggerProvider
{
    // The keys are made anew with every run, so that a browser that was there before brings a token that nobody can read: it gets another
    // one, and nothing is amiss.
    private static readonly string[] Quiet = ["Microsoft.AspNetCore.DataProtection", "Microsoft.AspNetCore.Antiforgery", Starting];

    // That the server cannot start (a port that is taken) is an answer to the command, which says it in its own words.
    private const string Starting = "Microsoft.Extensions.Hosting.Internal.Host";

    public ILogger CreateLogger(string categoryName) =>
        Quiet.Any(q => categoryName.StartsWith(q, StringComparison.Ordinal)) ? NullLogger.Instance : new Teller(terminal);

    public void Dispose()
    {
    }

    private sealed class Teller(ITerminal terminal) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Error;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            if (!IsEnabled(logLevel))
            {
                return;
            }

            string message = exception is null
                ? formatter(state, exception)
                : $"this is a fault of the program ({exception.GetType().Name}): {exception.Message}";
            terminal.Error.WriteLine("spurless: " + TextFlow.Printable(message.ReplaceLineEndings(" ")));
            if (exception is not null && terminal.Variable("SPURLESS_TRACE") is not null)
            {
                terminal.Error.WriteLine(exception.ToString());
            }
        }
    }
}
