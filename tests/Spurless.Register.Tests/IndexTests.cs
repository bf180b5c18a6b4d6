using Microsoft.Data.Sqlite;
using Spurless.Files.Diagnostics;
using Spurless.Register.Importing;
using Spurless.Register.Storage;

namespace Spurless.Register.Tests;

/// <summary>The indexes that questions need are built when the first import becomes visible, whole or not at all.</summary>
public sealed class IndexTests
{
    private static readonly string[] Wanted = ["record_by_frequency", "record_by_key", "record_by_name", "record_by_place"];

    [Fact]
    public void Import_builds_the_indexes_when_it_becomes_visible_and_a_stopped_one_has_none_yet()
    {
        using Scratch scratch = new();
        new RowMaker(3).Uls(scratch, 600);
        ImportQuestion question =
            new() { Files = [scratch.Input], Database = scratch.Database, AsOf = Scratch.Today, RowsPerCommit = 100 };
        using CancellationTokenSource stop = new();

        Assert.ThrowsAny<OperationCanceledException>(() => RegisterImport.Run(question, new Stopper(stop, 300), stop.Token));

        Assert.Equal(["record_by_key"], Indexes(scratch.Database));
        using (RegisterStore store = scratch.Open())
        {
            Assert.Equal(0, store.Count);
        }

        ImportAnswer answer = RegisterImport.Run(question).Answer!;

        Assert.True(answer.Resumed > 0);
        Assert.Equal(Wanted, Indexes(scratch.Database));
    }

    /// <summary>Where something is visible it stays quick to ask: an import on top of it takes no index away, stopped or not.</summary>
    [Fact]
    public void Import_on_top_of_another_keeps_the_indexes()
    {
        using Scratch scratch = new();
        new RowMaker(3).Uls(scratch, 600);
        Assert.NotNull(scratch.Import().Answer);
        ImportQuestion later = new()
        {
            Files = [scratch.Input],
            Database = scratch.Database,
            AsOf = Scratch.Today.AddDays(1),
            RowsPerCommit = 100,
        };
        using CancellationTokenSource stop = new();

        Assert.ThrowsAny<OperationCanceledException>(() => RegisterImport.Run(later, new Stopper(stop, 300), stop.Token));
        Assert.Equal(Wanted, Indexes(scratch.Database));
        Assert.NotNull(RegisterImport.Run(later).Answer);
        Assert.Equal(Wanted, Indexes(scratch.Database));
    }

    /// <summary>By the database's own look at every index and its rows (PRAGMA integrity_check).</summary>
    private static List<string> Indexes(string database)
    {
        using SqliteConnection connection = RegisterDatabase.OpenToRead(database, new DiagnosticBag())!;
        Assert.Equal("ok", RegisterDatabase.Scalar(connection, "PRAGMA integrity_check"));
        using SqliteCommand command = RegisterDatabase.Command(
            connection, "SELECT name FROM sqlite_master WHERE type = 'index' AND name LIKE 'record%' ORDER BY name");
        using SqliteDataReader reader = command.ExecuteReader();
        List<string> names = [];
        while (reader.Read())
        {
            names.Add(reader.GetString(0));
        }

        return names;
    }

    private sealed class Stopper(CancellationTokenSource stop, long rows) : IProgress<ImportProgress>
    {
        public void Report(ImportProgress value)
        {
            if (value.Rows >= rows)
            {
                stop.Cancel();
            }
        }
    }
}
