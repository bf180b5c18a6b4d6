namespace Spurless.Mixing.Search.Fast;

/// <summary>Between the workers and the sink: one thread at a time, and the word that the search is to end.</summary>
internal sealed class Gate(IProductSink sink)
{
    private readonly Lock _lock = new();
    private long _found;
    private volatile bool _stopped;

    /// <summary>Whether the sink has had enough, or a worker failed.</summary>
    public bool Stopped => _stopped;

    /// <summary>Whether the sink ended the search.</summary>
    public bool StoppedBySink { get; private set; }

    public long Found => Volatile.Read(ref _found);

    public void Stop() => _stopped = true;

    public void Give(ReadOnlySpan<ProductRecord> products)
    {
        lock (_lock)
        {
            foreach (ref readonly ProductRecord product in products)
            {
                if (_stopped)
                {
                    return;
                }

                _found++;
                if (!sink.Add(in product))
                {
                    StoppedBySink = true;
                    _stopped = true;
                }
            }
        }
    }
}
