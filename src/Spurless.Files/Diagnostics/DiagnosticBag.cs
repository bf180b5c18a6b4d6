using System.Globalization;

namespace Spurless.Files.Diagnostics;

/// <summary>
/// Gathers the findings of a reading, so that all of a file's problems are reported at once: up to <see cref="MostOfAFile"/> of one file,
/// errors before warnings, then how many more there are. A file that is wrong throughout costs no more than one that is wrong in part.
/// Not safe for use by several threads.
/// </summary>
public sealed class DiagnosticBag
{
    /// <summary>The most findings of one file that are kept.</summary>
    public const int MostOfAFile = 100;

    private readonly List<OneFile> _files = [];
    private readonly Dictionary<string, OneFile> _byName = new(StringComparer.Ordinal);

    /// <summary>Whether any finding is an error.</summary>
    public bool HasErrors { get; private set; }

    /// <summary>All findings by file in order of first appearance, then by line and column.</summary>
    public IReadOnlyList<Diagnostic> InOrder() => [.. _files.SelectMany(static f => f.InOrder())];

    /// <summary>Adds a finding; one that is there already is not added again.</summary>
    public void Add(Diagnostic diagnostic)
    {
        ArgumentNullException.ThrowIfNull(diagnostic);
        HasErrors |= diagnostic.Severity == Severity.Error;
        if (!_byName.TryGetValue(diagnostic.File, out OneFile? file))
        {
            file = new OneFile();
            _byName.Add(diagnostic.File, file);
            _files.Add(file);
        }

        file.Add(diagnostic);
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

    private sealed class OneFile
    {
        private readonly List<Diagnostic> _kept = [];
        private readonly HashSet<Diagnostic> _seen = [];

        // Of what is not kept only a mark each, so that the same finding is not counted twice; two that share a mark count as one, which
        // is why the number is 'at least'.
        private readonly HashSet<int> _counted = [];
        private int _more;
        private bool _moreErrors;

        public void Add(Diagnostic diagnostic)
        {
            if (diagnostic.More > 0)
            {
                _more += diagnostic.More;
                _moreErrors |= diagnostic.Severity == Severity.Error;
            }
            else if (_seen.Contains(diagnostic))
            {
                return;
            }
            else if (_kept.Count < MostOfAFile)
            {
                _seen.Add(diagnostic);
                _kept.Add(diagnostic);
            }
            else if (diagnostic.Severity == Severity.Error
                && _kept.FindLastIndex(static d => d.Severity == Severity.Warning) is >= 0 and int weaker)
            {
                Count(_kept[weaker]);
                _seen.Remove(_kept[weaker]);
                _kept.RemoveAt(weaker);
                _seen.Add(diagnostic);
                _kept.Add(diagnostic);
            }
            else
            {
                Count(diagnostic);
            }
        }

        public IEnumerable<Diagnostic> InOrder()
        {
            Diagnostic[] ordered = [.. _kept.OrderBy(static d => d.Line).ThenBy(static d => d.Column)];
            int more = _more + _counted.Count;
            if (more == 0)
            {
                return ordered;
            }

            Diagnostic last = ordered.Length > 0 ? ordered[^1] : new Diagnostic(Severity.Warning, "", 0, 0, "", "");
            return ordered.Append(last with
            {
                Severity = _moreErrors ? Severity.Error : Severity.Warning,
                What = string.Create(CultureInfo.InvariantCulture, $"and at least {more:#,0} more of this file"),
                Remedy = "mend these first, then check it again",
                More = more,
            });
        }

        private void Count(Diagnostic diagnostic)
        {
            _counted.Add(diagnostic.GetHashCode());
            _moreErrors |= diagnostic.Severity == Severity.Error;
        }
    }
}
