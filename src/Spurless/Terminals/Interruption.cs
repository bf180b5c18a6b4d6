using System.Runtime.InteropServices;

namespace Spurless.Terminals;

/// <summary>Ctrl-C and a request to end, as a token: the first asks the work to stop, a second ends the process at once.</summary>
internal sealed class Interruption : IDisposable
{
    private readonly CancellationTokenSource _source = new();
    private readonly PosixSignalRegistration _interrupt;
    private readonly PosixSignalRegistration _terminate;

    public Interruption()
    {
        _interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        _terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
    }

    /// <summary>Cancelled on the first request.</summary>
    public CancellationToken Token => _source.Token;

    public void Dispose()
    {
        _interrupt.Dispose();
        _terminate.Dispose();
        _source.Dispose();
    }

    private void Stop(PosixSignalContext context)
    {
        if (!_source.IsCancellationRequested)
        {
            context.Cancel = true;
            _source.Cancel();
        }
    }
}
