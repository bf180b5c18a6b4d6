using System.IO.Compression;
using System.Text;
using CsCheck;
using Microsoft.Data.Sqlite;
using Spurless.Files.Diagnostics;
using Spurless.Register.Importing;
using Spurless.Register.Reading;

namespace Spurless.Register.Tests;

public sealed class BadInputTests
{
    private static string Problem(ImportOutcome outcome)
    {
        Assert.Null(outcome.Answer);
        return string.Join('\n', outcome.Diagnostics.Where(static d => d.Severity == Severity.Error));
    }

    private static string Hash(Scratch scratch)
    {
        using RegisterStore store = scratch.Open();
        return store.ContentHash();
    }

    [Fact]
    public void Import_of_an_unknown_layout_says_what_is_read()
    {
        using Scratch scratch = new();
        scratch.Write("cities.csv", "city,people\nInventia,12\n");

        Assert.Contains("nothing here has the layout of a register", Problem(scratch.Import()), StringComparison.Ordinal);
        Assert.False(File.Exists(scratch.Database));
    }

    [Theory]
    [InlineData("HD.dat")]
    [InlineData("FR.dat")]
    [InlineData("LO.dat")]
    public void Import_without_a_needed_file_names_it(string missing)
    {
        using Scratch scratch = new();
        new RowMaker(1).Uls(scratch, 3);
        File.Delete(Path.Combine(scratch.Input, missing));

        Assert.Contains(missing + ", the ", Problem(scratch.Import()), StringComparison.Ordinal);
    }

    [Fact]
    public void Import_of_a_zip_bomb_stops()
    {
        using Scratch scratch = new();
        string path = Path.Combine(scratch.Folder, "bomb.zip");
        using (ZipArchive zip = ZipFile.Open(path, ZipArchiveMode.Create))
        {
            using Stream entry = zip.CreateEntry("TAFL_LTAF.csv").Open();
            byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 90; i++)
            {
                entry.Write(zeros);
            }
        }

        Assert.Contains("unpacks to more than", Problem(scratch.Import(path)), StringComparison.Ordinal);
        Assert.True(new FileInfo(path).Length < 1 << 20);
    }

    [Fact]
    public void Import_of_a_zip_file_with_too_many_files_stops()
    {
        using Scratch scratch = new();
        new RowMaker(1).Wtr(scratch, 3);
        ImportOutcome outcome = RegisterImport.Run(new ImportQuestion
        {
            Files = [scratch.Zip()],
            Database = scratch.Database,
            AsOf = Scratch.Today,
            Limits = new ImportLimits { MostEntries = 0 },
        });

        Assert.Contains("more than 0", Problem(outcome), StringComparison.Ordinal);
    }

    [Fact]
    public void Import_into_a_newer_database_refuses_and_keeps_it()
    {
        using Scratch scratch = new();
        new RowMaker(1).Wtr(scratch, 3);
        scratch.Import();
        using (SqliteConnection connection = new("Data Source=" + scratch.Database + ";Pooling=False"))
        {
            connection.Open();
            using SqliteCommand command = connection.CreateCommand();
            command.CommandText = "PRAGMA user_version = 99";
            command.ExecuteNonQuery();
        }

        Assert.Contains("version 99", Problem(scratch.Import()), StringComparison.Ordinal);
    }

    [Fact]
    public void Import_into_another_programs_database_refuses()
    {
        using Scratch scratch = new();
        new RowMaker(1).Wtr(scratch, 3);
        using (SqliteConnection connection = new("Data Source=" + scratch.Database + ";Pooling=False"))
        {
            connection.Open();
            using SqliteCommand command = connection.CreateCommand();
            command.CommandText = "CREATE TABLE theirs (a)";
            command.ExecuteNonQuery();
        }

        Assert.Contains("no register of this program", Problem(scratch.Import()), StringComparison.Ordinal);
    }

    [Fact]
    public void Import_while_another_runs_says_so()
    {
        using Scratch scratch = new();
        new RowMaker(1).Wtr(scratch, 3);
        using FileStream other = new(scratch.Database + ".lock", FileMode.Create, FileAccess.ReadWrite, FileShare.None);

        Assert.Contains("another import into this register is running", Problem(scratch.Import()), StringComparison.Ordinal);
    }

    [Fact]
    public void Import_into_a_locked_database_says_so_and_loses_nothing()
    {
        using Scratch scratch = new();
        new RowMaker(1).Wtr(scratch, 30);
        long before = scratch.Import().Answer!.Accepted;
        using (SqliteConnection connection = new("Data Source=" + scratch.Database + ";Pooling=False"))
        {
            connection.Open();
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            Assert.Contains("another program is writing", Problem(scratch.Import()), StringComparison.Ordinal);
        }

        using RegisterStore store = scratch.Open();
        Assert.Equal(before, store.Count);
    }

    /// <summary>A database that may not grow is as good as a full disk: SQLite gives the same result code.</summary>
    [Fact]
    public void Import_onto_a_full_disk_says_so_keeps_what_was_visible_and_goes_on()
    {
        using Scratch scratch = new();
        new RowMaker(1).Wtr(scratch, 30);
        long before = scratch.Import().Answer!.Accepted;
        string hash = Hash(scratch);
        new RowMaker(2).Tafl(scratch, 3_000);
        ImportQuestion question =
            new() { Files = [scratch.Input], Database = scratch.Database, AsOf = Scratch.Today, RowsPerCommit = 500 };

        int pages = (int)(new FileInfo(scratch.Database).Length / 4096) + 60;
        ImportOutcome full = RegisterImport.Run(question with { Limits = new ImportLimits { MostPages = pages } });

        Assert.Contains("the disk is full; make room, then run the same command again", Problem(full), StringComparison.Ordinal);
        Assert.Equal(hash, Hash(scratch));
        ImportAnswer after = Assert.IsType<ImportAnswer>(RegisterImport.Run(question).Answer);
        Assert.True(after.Resumed > 0, "what was committed before the disk was full was done anew");
        using Scratch whole = new();
        new RowMaker(1).Wtr(whole, 30);
        new RowMaker(2).Tafl(whole, 3_000);
        Assert.Equal(after.Accepted, whole.Import().Answer!.Accepted);
        Assert.Equal(Hash(whole), Hash(scratch));
        Assert.True(after.Accepted > before);
    }

    /// <summary>The device of Linux on which nothing fits, or the number by which Windows says the same.</summary>
    [Fact]
    public void A_full_disk_under_the_reject_file_is_called_so()
    {
        IOException full = File.Exists("/dev/full")
            ? Assert.ThrowsAny<IOException>(static () =>
            {
                using FileStream stream = new("/dev/full", FileMode.Open, FileAccess.Write, FileShare.ReadWrite, 0);
                stream.Write("x"u8);
            })
            : new IOException("full", unchecked((int)0x80070070));

        Assert.Equal("the disk is full", Storage.DatabaseTrouble.Of(full, "x").What);
        Assert.StartsWith(
            "reading or writing failed (else)", Storage.DatabaseTrouble.Of(new IOException("else"), "x").What, StringComparison.Ordinal);
    }

    [Fact]
    public void Import_of_a_mapping_that_names_no_column_lists_those_there_are()
    {
        using Scratch scratch = new();
        scratch.Write("a.columns.yaml", """
            spurless_columns: 1
            register: invented
            columns: { latitude: Lat, longitude: Lon, frequency: { column: Freq, unit: MHz } }
            """);
        scratch.Write("a.csv", "F,Lat,Lon\n1,2,3\n");

        string problem = Problem(scratch.Import());

        Assert.Contains("a.columns.yaml:3:", problem, StringComparison.Ordinal);
        Assert.Contains("no column 'Freq'; its columns are 'F', 'Lat', 'Lon'", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Import_of_any_bytes_counts_and_never_throws()
    {
        // Whole rows cut, joined and sprinkled with bytes at random: read = accepted + rejected whatever comes.
        using Scratch model = new();
        foreach (string layout in new[] { "uls", "tafl", "rrl", "wtr" })
        {
            ImportTests.Make(layout, model, 12);
        }

        Dictionary<string, byte[]> files = Directory.GetFiles(model.Input).ToDictionary(static f => Path.GetFileName(f), File.ReadAllBytes);
        Gen.Select(Gen.Int[0, files.Count - 1], Gen.Int[0, 1 << 20], Gen.Byte.Array[0, 40], Gen.Int[0, 200]).Sample(
            (which, at, bytes, cut) =>
            {
                using Scratch scratch = new();
                foreach ((string name, byte[] content) in files)
                {
                    byte[] own = content;
                    if (name == files.Keys.ElementAt(which))
                    {
                        int from = at % own.Length;
                        own = [.. own[..from], .. bytes, .. own[Math.Min(own.Length, from + cut)..]];
                    }

                    File.WriteAllBytes(Path.Combine(scratch.Input, name), own);
                }

                ImportOutcome outcome = scratch.Import();
                return outcome.Answer is not { } answer
                    ? outcome.Diagnostics.Count > 0
                    : answer.Read == answer.Accepted + answer.Rejected.Sum(static r => r.Count);
            },
            iter: 40);
    }

    [Fact]
    public void Line_longer_than_any_row_is_read_in_pieces()
    {
        LineReader reader = new(new MemoryStream(Encoding.ASCII.GetBytes(new string('x', LineReader.LongestLine + 5_000_000)
            + "\nb\n")), 4096);
        int lines = 0;
        long longest = 0;
        while (reader.TryRead(out ReadOnlySpan<byte> line))
        {
            lines++;
            longest = Math.Max(longest, line.Length);
        }

        Assert.True(longest < 3 * LineReader.LongestLine);
        Assert.True(lines >= 3);
    }
}
