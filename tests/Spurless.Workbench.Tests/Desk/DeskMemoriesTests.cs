using Spurless.Sites.Studies;
using Spurless.Workbench.Desk;

namespace Spurless.Workbench.Tests.Desk;

/// <summary>As many studies at once as there are processors, each with a memory that nobody else has; the others wait their turn.</summary>
public sealed class DeskMemoriesTests
{
    private static readonly int _most = Environment.ProcessorCount;

    [Fact]
    public async Task Take_gives_as_many_as_processors_all_different_and_no_more()
    {
        DeskMemories memories = new();
        StudyMemory[] taken = [.. await Task.WhenAll(Enumerable.Range(0, _most).Select(_ => memories.TakeAsync(CancellationToken.None)))];
        Assert.Equal(_most, taken.Distinct().Count());
        Task<StudyMemory> waits = memories.TakeAsync(CancellationToken.None);
        Assert.False(waits.IsCompleted);

        // Who waits gets the one that comes back, warm as it is.
        memories.GiveBack(taken[^1]);
        Assert.Same(taken[^1], await waits);
    }

    [Fact]
    public async Task Take_after_all_came_back_makes_no_new_one()
    {
        DeskMemories memories = new();
        HashSet<StudyMemory> seen = [];
        for (int round = 0; round < 10; round++)
        {
            StudyMemory[] taken =
                [.. await Task.WhenAll(Enumerable.Range(0, _most).Select(_ => memories.TakeAsync(CancellationToken.None)))];
            seen.UnionWith(taken);
            foreach (StudyMemory memory in taken)
            {
                memories.GiveBack(memory);
            }
        }

        Assert.Equal(_most, seen.Count);
    }

    [Fact]
    public async Task Who_no_longer_waits_costs_nobody_a_turn()
    {
        DeskMemories memories = new();
        StudyMemory[] taken =
            [.. await Task.WhenAll(Enumerable.Range(0, _most).Select(_ => memories.TakeAsync(CancellationToken.None)))];
        using CancellationTokenSource gone = new();
        Task<StudyMemory> left = memories.TakeAsync(gone.Token);
        await gone.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => left);
        foreach (StudyMemory memory in taken)
        {
            memories.GiveBack(memory);
        }

        Assert.Equal(
            _most, (await Task.WhenAll(Enumerable.Range(0, _most).Select(_ => memories.TakeAsync(CancellationToken.None)))).Length);
    }
}
