using System.Globalization;
using System.Reflection;
using Microsoft.Data.Sqlite;
using Spurless.Files.Diagnostics;

namespace Spurless.Register.Storage;

/// <summary>
/// The database of licence records: SQLite in write-ahead mode. The one place where connections are made. Forward-only numbered scripts
/// make
/// and renew the tables; <c>user_version</c> holds the number of the last one.
/// </summary>
internal static class RegisterDatabase
{
    /// <summary>Marks a database as ours in its header: <c>SPLR</c>.</summary>
    public const int ApplicationId = 0x53504C52;

    private static readonly string[] Scripts =
    [
        .. Assembly.GetExecutingAssembly().GetManifestResourceNames().Where(static n => n.EndsWith(".sql", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The version of the tables that this program makes.</summary>
    public static int Version => Scripts.Length;

    /// <summary>Opens a database for reading. Null, and a finding, where that cannot be.</summary>
    public static SqliteConnection? OpenToRead(string path, DiagnosticBag diagnostics)
    {
        if (!File.Exists(path))
        {
            diagnostics.Error(path, 0, 0, "there is no such register database", "make one with 'spurless register import FILES --into "
                + path + "'");
            return null;
        }

        return Open(path, SqliteOpenMode.ReadWrite, create: false, diagnostics);
    }

    /// <summary>Opens a database to import into; makes it where there is none. Null, and a finding, where that cannot be.</summary>
    public static SqliteConnection? OpenToWrite(string path, DiagnosticBag diagnostics)
    {
        bool isNew = !File.Exists(path);
        if (!isNew && new FileInfo(path).Length is > 0 and < 512)
        {
            diagnostics.Error(path, 0, 0, "the file is no register database, and it isn't overwritten", "name another file after --into");
            return null;
        }

        return Open(path, SqliteOpenMode.ReadWriteCreate, create: true, diagnostics);
    }

    /// <summary>Runs a statement.</summary>
    public static int Execute(SqliteConnection connection, string sql, params (string Name, object? Value)[] parameters)
    {
        using SqliteCommand command = Command(connection, sql, parameters);
        return command.ExecuteNonQuery();
    }

    /// <summary>Runs a query for one value; null where there is none.</summary>
    public static object? Scalar(SqliteConnection connection, string sql, params (string Name, object? Value)[] parameters)
    {
        using SqliteCommand command = Command(connection, sql, parameters);
        object? value = command.ExecuteScalar();
        return value is DBNull ? null : value;
    }

    /// <summary>A command with its parameters.</summary>
    public static SqliteCommand Command(SqliteConnection connection, string sql, params (string Name, object? Value)[] parameters)
    {
        SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Every text comes from this room; what a user gives is a parameter.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach ((string name, object? value) in parameters)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        return command;
    }

    private static SqliteConnection? Open(string path, SqliteOpenMode mode, bool create, DiagnosticBag diagnostics)
    {
        SqliteConnection? connection = null;
        try
        {
            string text = new SqliteConnectionStringBuilder
            {
                DataSource = path,
                Mode = mode,
                Pooling = false,
                DefaultTimeout =
                5
            }.ToString();
            connection = new SqliteConnection(text);
            connection.Open();
            Execute(connection, "PRAGMA busy_timeout = 5000; PRAGMA foreign_keys = ON; PRAGMA cache_size = -98304; PRAGMA temp_store = " +
                "FILE;");
            long version = (long)Scalar(connection, "PRAGMA user_version")!;
            long application = (long)Scalar(connection, "PRAGMA application_id")!;
            long tables = (long)Scalar(connection, "SELECT count(*) FROM sqlite_master")!;
            if (tables > 0 && application != ApplicationId)
            {
                diagnostics.Error(path, 0, 0, "the file is a database, but no register of this program", "name another file");
            }
            else if (version > Version)
            {
                diagnostics.Error(
                    path,
                    0,
                    0,
                    string.Create(CultureInfo.InvariantCulture,
                        $"the register has tables of version {version}; this program knows up to {Version}"),
                    "use the newer program that made it, or import the files anew into another database");
            }
            else if (tables == 0 && !create)
            {
                diagnostics.Error(path, 0, 0, "the register is empty", "import files into it first");
            }
            else
            {
                Renew(connection, version);
                return connection;
            }
        }
        catch (SqliteException e)
        {
            diagnostics.Add(DatabaseTrouble.Of(e, path));
        }

        connection?.Dispose();
        return null;
    }

    private static void Renew(SqliteConnection connection, long from)
    {
        if (from == Version)
        {
            return;
        }

        Execute(connection, "PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL;");
        for (int number = (int)from; number < Scripts.Length; number++)
        {
            using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(Scripts[number])!;
            using StreamReader reader = new(stream);
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            // Another process may have been first.
            if ((long)Scalar(connection, "PRAGMA user_version")! == number)
            {
                string next = (number + 1).ToString(CultureInfo.InvariantCulture);
                Execute(connection, reader.ReadToEnd() + "PRAGMA user_version = " + next + "; PRAGMA application_id = "
                    + ApplicationId.ToString(CultureInfo.InvariantCulture) + ";");
            }

            transaction.Commit();
        }
    }
}
