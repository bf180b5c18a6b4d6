namespace Spurless.Pages.Shell;

/// <summary>What one tab remembers while it is open: which files its pages were about, so that the words of the head lead to the same ones.</summary>
internal sealed class TabState
{
    /// <summary>The site file shown last; null where none was.</summary>
    public string? Site { get; set; }

    /// <summary>The circuit or sweep shown last; null where none was.</summary>
    public string? Circuit { get; set; }

    /// <summary>The file whose report was shown last; null where none was.</summary>
    public string? Report { get; set; }
}
