using Microsoft.Data.Sqlite;

namespace Spurless.Register.Storage;

/// <summary>
/// The indexes that questions to a register need and an import does not. Into a register of which nothing is visible yet rows are put
/// without them, and they are built in one go before the first import becomes visible: sorted once instead of searched at every row.
/// </summary>
internal static class RecordIndexes
{
    private static readonly (string Name, string On)[] All =
    [
        ("record_by_place", "record (place_id)"),
        ("record_by_frequency", "record (frequency_hz)"),
        ("record_by_name", "record (coalesce(call_sign, licence), frequency_hz)"),
    ];

    /// <summary>Takes them away. Only where nothing is visible: nobody asks then.</summary>
    public static void Drop(SqliteConnection connection)
    {
        foreach ((string name, _) in All)
        {
            RegisterDatabase.Execute(connection, $"DROP INDEX IF EXISTS {name}");
        }
    }

    /// <summary>Builds those that are not there.</summary>
    public static void Build(SqliteConnection connection)
    {
        foreach ((string name, string on) in All)
        {
            RegisterDatabase.Execute(connection, $"CREATE INDEX IF NOT EXISTS {name} ON {on}");
        }
    }
}
