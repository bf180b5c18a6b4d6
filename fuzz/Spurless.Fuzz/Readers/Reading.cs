using Spurless.Files.Diagnostics;

namespace Spurless.Fuzz.Readers;

/// <summary>What holds for every reader: the rules of the house, checked after each input.</summary>
internal static class Reading
{
    private const int LongestFinding = 4000;

    /// <summary>All readers, in the order of their names.</summary>
    public static IReadOnlyList<IFuzzedReader> All { get; } = [.. typeof(Reading).Assembly.GetTypes()
        .Where(static t => t.IsClass && typeof(IFuzzedReader).IsAssignableFrom(t))
        .Select(static t => (IFuzzedReader)Activator.CreateInstance(t, nonPublic: true)!)
        .OrderBy(static r => r.Name, StringComparer.Ordinal)];

    /// <summary>An example of the repository.</summary>
    public static byte[] Example(params string[] path) => File.ReadAllBytes(Places.Of(path));

    /// <summary>The examples of a reader, its own and those of its corpus.</summary>
    public static IReadOnlyList<byte[]> Examples(IFuzzedReader reader)
    {
        string corpus = Places.Of("fuzz", "corpus", reader.Name);
        IEnumerable<byte[]> found = Directory.Exists(corpus)
            ? Directory.GetFiles(corpus).Order(StringComparer.Ordinal).Select(File.ReadAllBytes) : [];
        return [.. reader.Examples, .. found];
    }

    /// <summary>
    /// Findings say what and what instead, at a place, in bounded length and number; something was read or there is an error.
    /// </summary>
    /// <param name="findings">What the reader found.</param>
    /// <param name="read">Whether it gave a result.</param>
    public static void Hold(DiagnosticBag findings, bool read)
    {
        IReadOnlyList<Diagnostic> all = findings.InOrder();
        if (read == findings.HasErrors)
        {
            throw new Violation(read ? "a result in spite of an error: " + all.First(static d => d.Severity == Severity.Error)
                : "no result, and no error that says why");
        }

        Hold(all);
    }

    /// <summary>The same of findings alone.</summary>
    public static void Hold(IReadOnlyList<Diagnostic> all)
    {
        foreach (IGrouping<string, Diagnostic> file in all.GroupBy(static d => d.File, StringComparer.Ordinal))
        {
            if (file.Count() > DiagnosticBag.MostOfAFile + 1)
            {
                throw new Violation($"{file.Count()} findings of one file");
            }
        }

        foreach (Diagnostic finding in all)
        {
            if (finding.What.Length == 0 || finding.Remedy.Length == 0 || finding.Line < -1 || finding.Column < -1)
            {
                throw new Violation("a finding without words or place: " + finding);
            }

            if (finding.What.Length + finding.Remedy.Length > LongestFinding)
            {
                throw new Violation(
                    $"a finding of {finding.What.Length + finding.Remedy.Length} characters: {Spurless.Files.Quote.Short(finding.What)}");
            }
        }
    }
}
