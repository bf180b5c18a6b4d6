using Spurless.Workbench.Desk;

namespace Spurless.Pages.Shell;

/// <summary>
/// The controls that were moved on one page and are in no file yet, one step a let-go. They belong to what is seen: Undo takes the last of
/// them back before it touches a file.
/// </summary>
/// <param name="tab">The tab, whose head shows them.</param>
/// <param name="apply">Puts settings in force.</param>
internal sealed class ControlSteps(TabState tab, Func<DeskSettings, Task> apply)
{
    private readonly List<Step> _done = [];
    private readonly List<Step> _undone = [];

    /// <summary>What the next undo would take back, in words; null for nothing.</summary>
    public string? NextUndo => _done.Count > 0 ? _done[^1].What : null;

    /// <summary>What the next redo would bring back, in words; null for nothing.</summary>
    public string? NextRedo => _undone.Count > 0 ? _undone[^1].What : null;

    /// <summary>A control was let go.</summary>
    /// <param name="from">What was in force before.</param>
    /// <param name="to">What is now.</param>
    /// <param name="before">That in words, a phrase a control.</param>
    /// <param name="after">This in words.</param>
    public void Take(DeskSettings from, DeskSettings to, IReadOnlyList<string> before, IReadOnlyList<string> after)
    {
        if (from.Equals(to))
        {
            return;
        }

        string[] put = [.. after.Except(before, StringComparer.Ordinal)];
        string what = put.Length > 0
            ? string.Join(", ", put)
            : string.Join(", ", before.Except(after, StringComparer.Ordinal)) + " taken back";
        _done.Add(new Step(from, to, what));
        _undone.Clear();
        tab.Tell();
    }

    /// <summary>Forgets all: what was moved is in a file now, or another file is shown.</summary>
    public void Clear()
    {
        _done.Clear();
        _undone.Clear();
        tab.Tell();
    }

    /// <summary>Takes the last step back.</summary>
    public Task UndoAsync() => MoveAsync(_done, _undone, static s => s.From);

    /// <summary>Brings the last step that was taken back again.</summary>
    public Task RedoAsync() => MoveAsync(_undone, _done, static s => s.To);

    private async Task MoveAsync(List<Step> from, List<Step> to, Func<Step, DeskSettings> wanted)
    {
        if (from.Count == 0)
        {
            return;
        }

        Step step = from[^1];
        from.RemoveAt(from.Count - 1);
        to.Add(step);
        await apply(wanted(step));
        tab.Tell();
    }

    private sealed record Step(DeskSettings From, DeskSettings To, string What);
}
