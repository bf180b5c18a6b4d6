using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using Spurless.Sites.Studies;

namespace Spurless.Workbench.Desk;

/// <summary>
/// The memories of a desk's studies, as many as there are processors. A study beside as many others waits for the first that ends: with
/// its memory it takes a fraction of the time that it would take with an empty one at once. Safe for use by several threads.
/// </summary>
[SuppressMessage("Design", "CA1001", Justification = "a semaphore whose wait handle nobody asks for holds nothing to give back")]
internal sealed class DeskMemories
{
    private readonly StudyMemory _first = new();
    private readonly ConcurrentStack<StudyMemory> _free = new();
    private readonly SemaphoreSlim _turns = new(Environment.ProcessorCount);

    /// <summary>A memory that nobody else has, as soon as there is one.</summary>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public async Task<StudyMemory> TakeAsync(CancellationToken cancellationToken)
    {
        await _turns.WaitAsync(cancellationToken).ConfigureAwait(false);
        return _free.TryPop(out StudyMemory? memory) ? memory : _first.Beside();
    }

    /// <summary>Gives it back for the next study.</summary>
    public void GiveBack(StudyMemory memory)
    {
        _free.Push(memory);
        _ = _turns.Release();
    }
}
