namespace Spurless.Workbench.Folders;

/// <summary>Steps that can be taken back, the last one first: so many, and so much text, at most; the oldest are forgotten.</summary>
internal sealed class StepList
{
    /// <summary>The most steps kept.</summary>
    public const int MostSteps = 1_000;

    /// <summary>The most text kept, in UTF-16 units: a step keeps what it changed, not the file.</summary>
    public const int MostText = 16 * 1024 * 1024;

    private readonly LinkedList<FolderStep> _steps = [];

    /// <summary>The last step; null where there is none.</summary>
    public FolderStep? Last => _steps.Last?.Value;

    /// <summary>How much text is kept.</summary>
    public long Text { get; private set; }

    /// <summary>Adds a step; the last one is kept however large it is.</summary>
    public void Add(FolderStep step)
    {
        _steps.AddLast(step);
        Text += step.Size;
        while (_steps.Count > 1 && (_steps.Count > MostSteps || Text > MostText))
        {
            Text -= _steps.First!.Value.Size;
            _steps.RemoveFirst();
        }
    }

    /// <summary>Takes the last step off.</summary>
    public void RemoveLast()
    {
        Text -= _steps.Last!.Value.Size;
        _steps.RemoveLast();
    }

    /// <summary>Forgets all.</summary>
    public void Clear()
    {
        _steps.Clear();
        Text = 0;
    }
}
