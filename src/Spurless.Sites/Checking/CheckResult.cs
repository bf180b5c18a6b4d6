using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Checking;

/// <summary>What came of checking a file.</summary>
/// <param name="File">Its name as the user gave it.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Findings">All that is wrong with it, and with the files that it names.</param>
/// <param name="Holds">What it holds, in a few words; empty where it cannot be read.</param>
public sealed record CheckResult(string File, FileKind Kind, IReadOnlyList<Diagnostic> Findings, string Holds)
{
    /// <summary>Number of errors.</summary>
    public int Errors => Findings.Count(static d => d.Severity == Severity.Error);

    /// <summary>Number of warnings.</summary>
    public int Warnings => Findings.Count - Errors;
}
