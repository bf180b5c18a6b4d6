using Microsoft.Data.Sqlite;
using Spurless.Files.Diagnostics;

namespace Spurless.Register.Storage;

/// <summary>What the database's own errors mean to the person who has them, and what to do.</summary>
internal static class DatabaseTrouble
{
    // Primary result codes of SQLite (sqlite.org/rescode.html, from memory).
    private const int Perm = 3;
    private const int Busy = 5;
    private const int Locked = 6;
    private const int ReadOnly = 8;
    private const int IoError = 10;
    private const int Corrupt = 11;
    private const int Full = 13;
    private const int CantOpen = 14;
    private const int NotADatabase = 26;

    // A full disk as .NET tells of it: the number of ENOSPC on Linux and macOS, ERROR_DISK_FULL and ERROR_HANDLE_DISK_FULL on Windows
    // (errno.h and winerror.h, from memory).
    private static readonly int[] DiskFull = [28, unchecked((int)0x80070070), unchecked((int)0x80070027)];

    private static readonly (string What, string Remedy) NoRoom = (
        "the disk is full", "make room, then run the same command again: it goes on where it was, and what was visible before still is");

    public static Diagnostic Of(SqliteException e, string path)
    {
        (string what, string remedy) = e.SqliteErrorCode switch
        {
            Busy or Locked => ("another program is writing into the register", "wait until it has ended, then try again; nothing was lost"),
            Full => NoRoom,
            ReadOnly or Perm => ("the register may not be written to", "check who may write to the file and its folder"),
            CantOpen => ("the register cannot be opened", "check that the folder is there and that you may write to it"),
            NotADatabase => ("the file is no register database, and it isn't overwritten", "name another file"),
            Corrupt => ("the register is damaged", "keep the file if you want to know why; import the files anew into another database"),
            IoError => ("the register cannot be read or written (" + e.Message + ")", "check the disk, then run the same command again"),
            _ => ("the register's database reports: " + e.Message,
                "run the command again; if it stays, import the files anew into another database"),
        };
        return new Diagnostic(Severity.Error, path, 0, 0, what, remedy);
    }

    /// <summary>What an error of the file system means: the reject file fills a disk as well as the database does.</summary>
    public static Diagnostic Of(IOException e, string path)
    {
        (string what, string remedy) = DiskFull.Contains(e.HResult)
            ? NoRoom
            : ("reading or writing failed (" + e.Message + ")",
                "check the disk and the files, then run the same command again: it goes on where it was");
        return new Diagnostic(Severity.Error, path, 0, 0, what, remedy);
    }
}
