using Spurless.Files.Diagnostics;
using Spurless.Register.Reading;

namespace Spurless.Register.Layouts;

/// <summary>What all readers of an import share: the day, the limits, findings, cancelling.</summary>
/// <param name="AsOf">The day on which licences must be in force.</param>
/// <param name="Limits">What is read at most.</param>
/// <param name="Diagnostics">Takes findings.</param>
/// <param name="Cancel">Stops the import.</param>
internal sealed record ImportWatch(DateOnly AsOf, ImportLimits Limits, DiagnosticBag Diagnostics, CancellationToken Cancel)
{
    private static readonly string[] Ended =
    [
        "cancelled", "canceled", "expired", "terminated", "revoked", "suspended", "surrendered", "withdrawn", "inactive", "ceased",
            "lapsed", "not in force", "deleted", "decommissioned", "archived", "superseded",
    ];

    private static readonly string[] InForce =
        ["live", "granted", "active", "in force", "current", "renewed", "valid", "a", "l", "authorized", "authorised", "licensed",
        "issued", "operational"];

    /// <summary>What a status in words means: in force, ended, or null where the word is not known.</summary>
    public static bool? IsInForce(string? status)
    {
        if (string.IsNullOrWhiteSpace(status))
        {
            return true;
        }

        string word = status.Trim().ToLowerInvariant();
        return InForce.Contains(word) ? true : Ended.Contains(word) || Ended.Any(e => word.StartsWith(e, StringComparison.Ordinal))
            ? false : null;
    }

    /// <summary>Reads a whole table, a row at a time; looks at the token now and then.</summary>
    public void ForEach(RegisterFile file, RecordShape shape, Action<RecordReader> row)
    {
        using Stream stream = file.Open(Limits);
        RecordReader reader = new(stream, shape);
        for (int i = 0; reader.TryRead(); i++)
        {
            if ((i & 0xFFF) == 0)
            {
                Cancel.ThrowIfCancellationRequested();
            }

            if (reader.IsWhole && reader.IsBegun)
            {
                row(reader);
            }
        }
    }
}
