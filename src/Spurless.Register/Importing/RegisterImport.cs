using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using Spurless.Files.Diagnostics;
using Spurless.Register.Layouts;
using Spurless.Register.Reading;
using Spurless.Register.Storage;

namespace Spurless.Register.Importing;

/// <summary>
/// Imports register files. Rows are written in batches under an import that nobody sees; the last step makes them visible at once and
/// takes away what they
/// replace. An import that was cut short goes on behind its last batch when the same files are imported again on the same day.
/// </summary>
public static class RegisterImport
{
    /// <summary>Imports.</summary>
    /// <param name="question">What and where.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops it; what is committed stays and is gone on with later.</param>
    /// <returns>The answer, or findings that say why there is none.</returns>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static ImportOutcome Run(ImportQuestion question, IProgress<ImportProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        DiagnosticBag diagnostics = new();
        ImportAnswer? answer = null;
        try
        {
            answer = Run(question, new ImportWatch(question.AsOf, question.Limits, diagnostics, cancellationToken), progress);
        }
        catch (SqliteException e)
        {
            diagnostics.Add(DatabaseTrouble.Of(e, question.Database));
        }
        catch (UnpackedTooLargeException e)
        {
            diagnostics.Error(e.File, 0, 0,
                FormattableString.Invariant($"the file unpacks to more than {e.Most:N0} bytes, which no table of licences does"),
                "if it is what it claims to be, unpack it and give the file itself");
        }
        catch (InvalidDataException e)
        {
            diagnostics.Error(question.Files[0], 0, 0, "a zip file is damaged (" + e.Message + ")", "fetch it again");
        }
        catch (IOException e)
        {
            diagnostics.Add(DatabaseTrouble.Of(e, question.Database));
        }
        catch (UnauthorizedAccessException e)
        {
            diagnostics.Error(question.Database, 0, 0, "a file may not be read or written (" + e.Message + ")",
                "check who may use the files and their folder");
        }

        return new ImportOutcome(diagnostics.HasErrors ? null : answer, diagnostics.InOrder());
    }

    private static ImportAnswer? Run(ImportQuestion question, ImportWatch watch, IProgress<ImportProgress>? progress)
    {
        List<RegisterFile> files = [.. RegisterFile.All(question.Files, question.Limits, watch.Diagnostics)];
        List<IRegisterLayout> layouts = LayoutRecognition.Recognise(files, question.Layout, watch);
        if (layouts.Count == 0 && !watch.Diagnostics.HasErrors)
        {
            watch.Diagnostics.Error(
                question.Files.Count > 0 ? question.Files[0] : "",
                0,
                0,
                question.Layout is { } asked ? $"nothing here has the layout of {asked.Title()}"
                    : "nothing here has the layout of a register that is read: FCC ULS, ISED TAFL, ACMA RRL, Ofcom WTR",
                question.Layout is { } wanted ? $"give {wanted.FileNames()}, or leave --layout out"
                    : "give one of these, or any table together with a mapping file *.columns.yaml");
        }

        if (watch.Diagnostics.HasErrors)
        {
            return null;
        }

        foreach (RegisterFile left in files)
        {
            watch.Diagnostics.Warning(left.Shown, 0, 0, "the file fits no layout and was left out",
                "give a mapping file for it, if it holds licences");
        }

        string lockPath = question.Database + ".lock";
        FileStream guard;
        try
        {
            guard = new FileStream(lockPath, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (IOException) when (File.Exists(lockPath))
        {
            watch.Diagnostics.Error(question.Database, 0, 0, "another import into this register is running",
                "wait until it has ended, then try again");
            return null;
        }

        using (guard)
        {
            using SqliteConnection? connection = RegisterDatabase.OpenToWrite(question.Database, watch.Diagnostics);
            if (connection is not null && question.Limits.MostPages is { } pages)
            {
                RegisterDatabase.Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA max_page_count = {pages}"));
            }

            return connection is null ? null : new Session(question, watch, layouts, connection, progress).Run();
        }
    }

    /// <summary>One import.</summary>
    private sealed class Session(
        ImportQuestion question, ImportWatch watch, IReadOnlyList<IRegisterLayout> layouts, SqliteConnection connection,
            IProgress<ImportProgress>? progress)
    {
        private readonly long[] _counts = new long[RejectReasons.All.Count + 1];
        private readonly ParsedRecord _record = new();
        private readonly string _rejectsPath = question.Rejects ?? question.Database + ".rejects.csv";
        private long _import;
        private long _rows;
        private long _done;
        private long _bytesDone;
        private long _bytesAll = 1;

        public ImportAnswer? Run()
        {
            (long rejectsBytes, _done) = Begin();
            _bytesAll = Math.Max(1, layouts.Sum(static l => l.Files.Sum(static f => f.Bytes)));
            using RejectFile rejects = new(_rejectsPath, rejectsBytes);
            using (RecordWriter writer = new(connection, _import))
            {
                foreach (IRegisterLayout layout in layouts)
                {
                    progress?.Report(new ImportProgress(Fraction(0), _rows));
                    layout.LoadTables(watch);
                    _bytesDone += layout.Files.Except(layout.Rows).Sum(static f => f.Bytes);
                    foreach (RegisterFile file in layout.Rows)
                    {
                        if (layout.Open(file, watch) is { } reader)
                        {
                            using (reader)
                            {
                                long before = _rows;
                                ReadRows(file, reader, writer, rejects);
                                SayIfNoneBegins(layout, file, _rows - before);
                            }
                        }

                        _bytesDone += file.Bytes;
                    }
                }
            }

            if (watch.Diagnostics.HasErrors)
            {
                return null;
            }

            rejects.Finish();
            progress?.Report(new ImportProgress(0.999, _rows));
            (long replaced, long withdrawn) = Publish();
            long rejected = _counts.Skip(1).Sum();
            return new ImportAnswer
            {
                Registers = [.. layouts.Select(static l => l.Register)],
                Read = _rows,
                Accepted = _counts[0],
                Rejected = [.. RejectReasons.All.Where(r => _counts[(int)r] > 0).Select(r => (r, _counts[(int)r]))],
                Replaced = replaced,
                Withdrawn = withdrawn,
                Rejects = rejected > 0 ? _rejectsPath : null,
                Resumed = _done,
            };
        }

        /// <summary>A file under a register's name in which no line is a row of it is another file.</summary>
        private void SayIfNoneBegins(IRegisterLayout layout, RegisterFile file, long read)
        {
            if (layout.RowBegins is { } begin && file.Bytes > 0 && read == 0)
            {
                watch.Diagnostics.Error(file.Shown, 0, 0, $"no line of it begins with {begin}, as every row of {layout.Register} does",
                    "give the file that the name says, or call it what it is");
            }
        }

        private void ReadRows(RegisterFile file, IRowReader reader, RecordWriter writer, RejectFile rejects)
        {
            SqliteTransaction transaction = connection.BeginTransaction();
            writer.Begin(transaction);
            try
            {
                long begun = _rows;
                while (reader.TryRead())
                {
                    _rows++;
                    if (_rows <= _done)
                    {
                        continue;
                    }

                    Take(file, reader, writer, rejects);
                    if ((_rows - begun) % question.RowsPerCommit == 0)
                    {
                        watch.Cancel.ThrowIfCancellationRequested();
                        Checkpoint(transaction, rejects);
                        transaction.Dispose();
                        transaction = connection.BeginTransaction();
                        writer.Begin(transaction);
                        progress?.Report(new ImportProgress(Fraction(reader.BytesRead), _rows));
                    }
                }

                if (_rows > _done)
                {
                    Checkpoint(transaction, rejects);
                }
            }
            finally
            {
                transaction.Dispose();
            }
        }

        private void Take(RegisterFile file, IRowReader reader, RecordWriter writer, RejectFile rejects)
        {
            RejectReason reason = reader.Parse(_record);
            if (reason == RejectReason.None && !IsPlace(_record))
            {
                reason = RejectReason.NoPosition;
            }

            if (reason == RejectReason.None && !writer.Add(_record, _rows))
            {
                reason = RejectReason.Duplicate;
            }

            if (reason == RejectReason.NotInForce)
            {
                writer.Withdraw(_record);
            }

            _counts[(int)reason]++;
            if (reason != RejectReason.None)
            {
                rejects.Add(file.Shown, reader.Line, reason, reader.RejectText());
            }
        }

        /// <summary>Whether there can be such a place. Exactly 0 N 0 E is a form left empty, in the sea.</summary>
        private static bool IsPlace(ParsedRecord record) =>
            record is { LatitudeDegrees: >= -90 and <= 90, LongitudeDegrees: >= -180 and <= 180 }
                && (record.LatitudeDegrees != 0 || record.LongitudeDegrees != 0);

        private double Fraction(long inFile) => Math.Min(0.998, (double)(_bytesDone + inFile) / _bytesAll);

        /// <summary>Finds the import to go on with, or begins one; gives how long the reject file was and how many rows were
        /// done.</summary>
        private (long RejectsBytes, long Rows) Begin()
        {
            string fingerprint = Fingerprint();
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            long rejectsBytes = 0;
            long rows = 0;
            _import = 0;
            using (SqliteCommand find = RegisterDatabase.Command(
                connection, "SELECT id, rows_read, counts, rejects_bytes FROM import WHERE published = 0 AND fingerprint = $print",
                    ("$print", fingerprint)))
            using (SqliteDataReader reader = find.ExecuteReader())
            {
                if (reader.Read())
                {
                    (_import, rows, rejectsBytes) = (reader.GetInt64(0), reader.GetInt64(1), reader.GetInt64(3));
                    string[] counts = reader.GetString(2).Split(',', StringSplitOptions.RemoveEmptyEntries);
                    for (int i = 0; i < counts.Length && i < _counts.Length; i++)
                    {
                        _counts[i] = long.Parse(counts[i], CultureInfo.InvariantCulture);
                    }
                }
            }

            // What other imports left half done is of no use to anyone.
            RegisterDatabase.Execute(connection,
                "DELETE FROM record WHERE import_id IN (SELECT id FROM import WHERE published = 0 AND id <> $own)", ("$own", _import));
            RegisterDatabase.Execute(connection, "DELETE FROM withdrawn WHERE import_id <> $own", ("$own", _import));
            RegisterDatabase.Execute(connection, "DELETE FROM import WHERE published = 0 AND id <> $own", ("$own", _import));
            if (_import == 0)
            {
                string names = string.Join('\n', layouts.SelectMany(static l => l.Files).Select(static f => f.Shown));
                _import = (long)RegisterDatabase.Scalar(
                    connection, "INSERT INTO import (fingerprint, files) VALUES ($print, $files) RETURNING id", ("$print", fingerprint),
                        ("$files", names))!;
            }

            if (IsNothingVisible())
            {
                RecordIndexes.Drop(connection);
            }

            transaction.Commit();
            return (rejectsBytes, rows);
        }

        private void Checkpoint(SqliteTransaction transaction, RejectFile rejects)
        {
            long bytes = rejects.Commit();
            RegisterDatabase.Execute(
                connection,
                "UPDATE import SET rows_read = $rows, counts = $counts, rejects_bytes = $bytes WHERE id = $id",
                ("$rows", _rows),
                ("$counts", string.Join(',', _counts.Select(static c => c.ToString(CultureInfo.InvariantCulture)))),
                ("$bytes", bytes),
                ("$id", _import));
            transaction.Commit();
        }

        /// <summary>Makes the import visible and takes away what it replaces, both at once.</summary>
        private (long Replaced, long Withdrawn) Publish()
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            bool first = IsNothingVisible();
            RecordIndexes.Build(connection);
            long replaced = 0;
            long withdrawn = 0;
            if (!first)
            {
                replaced = RegisterDatabase.Execute(
                    connection,
                    "DELETE FROM record WHERE id IN (SELECT old.id FROM record AS new JOIN record AS old ON old.record_key = " +
                        "new.record_key AND old.import_id <> new.import_id WHERE new.import_id = $id)",
                    ("$id", _import));
                withdrawn = RegisterDatabase.Execute(
                    connection,
                    "DELETE FROM record WHERE id IN (SELECT old.id FROM withdrawn AS w JOIN record AS old ON old.record_key = " +
                        "w.record_key AND old.import_id <> $id WHERE w.import_id = $id)",
                    ("$id", _import));
            }

            RegisterDatabase.Execute(connection, "DELETE FROM withdrawn");
            RegisterDatabase.Execute(connection, "UPDATE import SET published = 1 WHERE id = $id", ("$id", _import));
            transaction.Commit();
            RegisterDatabase.Execute(connection, "PRAGMA optimize; PRAGMA wal_checkpoint(TRUNCATE);");
            return (replaced, withdrawn);
        }

        private bool IsNothingVisible() =>
            (long)RegisterDatabase.Scalar(connection, "SELECT count(*) FROM import WHERE published = 1")! == 0;

        private string Fingerprint()
        {
            using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            hash.AppendData(Encoding.UTF8.GetBytes(question.AsOf.ToString("O", CultureInfo.InvariantCulture)));
            foreach (RegisterFile file in layouts.SelectMany(static l => l.Files))
            {
                file.AddTo(hash, question.Limits);
            }

            return Convert.ToHexString(hash.GetHashAndReset());
        }
    }
}
