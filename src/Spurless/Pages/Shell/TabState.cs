namespace Spurless.Pages.Shell;

/// <summary>
/// What one tab remembers while it is open: which files its pages were about, so that the words of the head lead to the same ones.
/// </summary>
internal sealed class TabState
{
    private ControlSteps? _steps;

    /// <summary>Told when there is another step to take back.</summary>
    public event Action? Changed;

    /// <summary>The site file shown last; null where none was.</summary>
    public string? Site { get; set; }

    /// <summary>The circuit or sweep shown last; null where none was.</summary>
    public string? Circuit { get; set; }

    /// <summary>The requirement or site that was designed for last; null where none was.</summary>
    public string? Design { get; set; }

    /// <summary>How wide the place of each page's pictures was when it was shown last.</summary>
    public Dictionary<string, double> Widths { get; } = new(StringComparer.Ordinal);

    /// <summary>What was moved on the page shown and is in no file yet; null where a page moves nothing.</summary>
    public ControlSteps? Steps
    {
        get => _steps;
        set
        {
            _steps = value;
            Tell();
        }
    }

    /// <summary>Tells the head.</summary>
    public void Tell() => Changed?.Invoke();
}
