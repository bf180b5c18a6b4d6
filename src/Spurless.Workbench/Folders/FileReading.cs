using Spurless.Circuits.Response;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Studies;

namespace Spurless.Workbench.Folders;

/// <summary>How far the reading of a file has come.</summary>
public enum ReadingStage
{
    /// <summary>It has not begun.</summary>
    Waiting,

    /// <summary>It is being read, or its study searched.</summary>
    Working,

    /// <summary>It is done.</summary>
    Done,

    /// <summary>The user stopped it.</summary>
    Stopped,
}

/// <summary>What is known of a file of an open folder; made in the background.</summary>
public sealed record FileReading
{
    /// <summary>The file.</summary>
    public required FolderFile File { get; init; }

    /// <summary>
    /// How far it has come. Until it is done, everything else is of the file before its last change, and <see cref="IsBefore"/> says so.
    /// </summary>
    public required ReadingStage Stage { get; init; }

    /// <summary>Fraction done, 0 to 1, while it works.</summary>
    public double Fraction { get; init; }

    /// <summary>How long it will still take; null where that cannot be told.</summary>
    public TimeSpan? Left { get; init; }

    /// <summary>Whether the results shown are those of an earlier state of the files.</summary>
    public bool IsBefore { get; init; }

    /// <summary>What it holds, in a few words; empty where it cannot be read.</summary>
    public string Holds { get; init; } = "";

    /// <summary>All that is wrong with it, and with the files that it names.</summary>
    public IReadOnlyList<Diagnostic> Findings { get; init; } = [];

    /// <summary>Of a site file: its study; null where it has errors.</summary>
    public StudyResult? Study { get; init; }

    /// <summary>Of a circuit or a sweep of two ports: its pass-band; null where it has none.</summary>
    public Passband? Passband { get; init; }

    /// <summary>Why there is no study though the file is without errors: 'what; what to do'. Null where there is no such thing.</summary>
    public string? Problem { get; init; }

    /// <summary>Number of errors.</summary>
    public int Errors => Findings.Count(static f => f.Severity == Severity.Error);
}
