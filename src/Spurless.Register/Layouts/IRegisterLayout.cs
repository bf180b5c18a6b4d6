using Spurless.Register.Reading;

namespace Spurless.Register.Layouts;

/// <summary>One register's files: its tables read into memory, its rows read one by one.</summary>
internal interface IRegisterLayout
{
    /// <summary>The register's name.</summary>
    string Register { get; }

    /// <summary>The files whose rows become records, in order.</summary>
    IReadOnlyList<RegisterFile> Rows { get; }

    /// <summary>All files that are read, for progress.</summary>
    IReadOnlyList<RegisterFile> Files { get; }

    /// <summary>What every row begins with, where the files have no heads; else null.</summary>
    string? RowBegins => null;

    /// <summary>Reads the tables that the rows refer to.</summary>
    void LoadTables(ImportWatch watch);

    /// <summary>Opens a file of rows: reads its head where it has one. Null, and a finding in the watch, where it does not fit.</summary>
    IRowReader? Open(RegisterFile file, ImportWatch watch);
}

/// <summary>The rows of one file.</summary>
internal interface IRowReader : IDisposable
{
    /// <summary>The line in which the row begins.</summary>
    long Line { get; }

    /// <summary>How many bytes of the file are read.</summary>
    long BytesRead { get; }

    /// <summary>Goes to the next row; false behind the last.</summary>
    bool TryRead();

    /// <summary>Makes a record of the row, or says why there is none.</summary>
    RejectReason Parse(ParsedRecord to);

    /// <summary>The row for the reject file, without names and addresses of persons.</summary>
    string RejectText();
}
