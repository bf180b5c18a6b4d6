using Spurless.Files.Diagnostics;
using Spurless.Register.Layouts;
using Spurless.Register.Reading;

namespace Spurless.Register.Importing;

/// <summary>What to import, and into what.</summary>
public sealed record ImportQuestion
{
    /// <summary>Files, folders and zip files of one or more registers; what they are is seen from their names and heads.</summary>
    public required IReadOnlyList<string> Files { get; init; }

    /// <summary>The register that the files must be of; null for any. Tables with a mapping file are taken in any case.</summary>
    public KnownLayout? Layout { get; init; }

    /// <summary>The database; made where there is none.</summary>
    public required string Database { get; init; }

    /// <summary>The day on which licences must be in force.</summary>
    public required DateOnly AsOf { get; init; }

    /// <summary>Where rejected rows are kept; null for a file beside the database.</summary>
    public string? Rejects { get; init; }

    /// <summary>What is read at most.</summary>
    public ImportLimits Limits { get; init; } = new();

    /// <summary>Rows between two commits: what a kill costs at most.</summary>
    public int RowsPerCommit { get; init; } = 50_000;
}

/// <summary>How far an import has come.</summary>
/// <param name="Fraction">0 to 1.</param>
/// <param name="Rows">Frequency rows read so far.</param>
public readonly record struct ImportProgress(double Fraction, long Rows);

/// <summary>What an import did.</summary>
public sealed record ImportAnswer
{
    /// <summary>The registers that were recognised, in order.</summary>
    public required IReadOnlyList<string> Registers { get; init; }

    /// <summary>Frequency records read.</summary>
    public required long Read { get; init; }

    /// <summary>Those that became records.</summary>
    public required long Accepted { get; init; }

    /// <summary>Those that did not, by reason; reasons that did not occur are left out.</summary>
    public required IReadOnlyList<(RejectReason Reason, long Count)> Rejected { get; init; }

    /// <summary>Records of earlier imports that these replaced.</summary>
    public long Replaced { get; init; }

    /// <summary>Records of earlier imports that are no longer in force and were taken out.</summary>
    public long Withdrawn { get; init; }

    /// <summary>The file of rejected rows, or null where none was rejected.</summary>
    public string? Rejects { get; init; }

    /// <summary>Rows that an import which was cut short had already done.</summary>
    public long Resumed { get; init; }
}

/// <summary>An import's answer, or why there is none.</summary>
/// <param name="Answer">Null where it failed.</param>
/// <param name="Diagnostics">All findings.</param>
public sealed record ImportOutcome(ImportAnswer? Answer, IReadOnlyList<Diagnostic> Diagnostics);
