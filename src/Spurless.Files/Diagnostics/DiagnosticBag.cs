namespace Spurless.Files.Diagnostics;

/// <summary>
/// Gathers the findings of a reading, so that all of a file's problems are reported at once.
/// Not safe for use by several threads.
/// </summary>
public sealed class DiagnosticBag
{
    private readonly List<Diagnostic> _all = [];
    private readonly HashSet<Diagnostic> _seen = [];

    /// <summary>Whether any finding is an error.</summary>
    public bool HasErrors => _all.Exists(static d => d.Severity == Severity.Error);

    /// <summary>All findings by file in order of first appearance, then by line and column.</summary>
    public IReadOnlyList<Diagnostic> InOrder()
    {
        List<string> files = [.. _all.Select(static d => d.File).Distinct(StringComparer.Ordinal)];
        return [.. _all.OrderBy(d => files.IndexOf(d.File)).ThenBy(static d => d.Line).ThenBy(static d => d.Column)];
    }

    /// <summary>Adds a finding; one that is there already is not added again.</summary>
    public void Add(Diagnostic diagnostic)
    {
        if (_seen.Add(diagnostic))
        {
            _all.Add(diagnostic);
        }
    }

    /// <summary>Adds all findings of another reading.</summary>
    public void AddRange(IEnumerable<Diagnostic> diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        foreach (Diagnostic diagnostic in diagnostics)
        {
            Add(diagnostic);
        }
    }

    /// <summary>Adds an error.</summary>
    public void Error(string file, int line, int column, string what, string remedy) =>
        Add(new Diagnostic(Severity.Error, file, line, column, what, remedy));

    /// <summary>Adds a warning.</summary>
    public void Warning(string file, int line, int column, string what, string remedy) =>
        Add(new Diagnostic(Severity.Warning, file, line, column, what, remedy));
}
