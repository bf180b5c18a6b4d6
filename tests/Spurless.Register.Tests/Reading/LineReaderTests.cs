using System.IO.Compression;
using System.Text;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Register.Reading;

namespace Spurless.Register.Tests.Reading;

/// <summary>Bytes into lines, heads into columns, names into files: each against the plain way to do it.</summary>
public sealed class LineReaderTests
{
    // Lines as a text splits at its line feeds: whatever block the reader asks for, and however few bytes the stream hands over.
    [Fact]
    public void Lines_are_those_between_the_line_feeds_whatever_the_blocks() =>
        Gen.Select(Gen.String[Gen.OneOf('a', 'b', '\n', '\r', '"', ' ', '\uFEFF'), 0, 60], Gen.Int[1, 9], Gen.Int[1, 5]).Sample(
            static (text, block, atATime) =>
            {
                List<string> wanted = [.. text.Split('\n')];
                if (wanted[^1].Length == 0)
                {
                    wanted.RemoveAt(wanted.Count - 1);
                }

                // A mark of the byte order before the first line is none of it; a carriage return belongs to the line's end.
                if (wanted.Count > 0 && wanted[0].StartsWith('\uFEFF'))
                {
                    wanted[0] = wanted[0][1..];
                }

                LineReader reader = new(new Dripping(Encoding.UTF8.GetBytes(text), atATime), block);
                List<string> read = [];
                while (reader.TryRead(out ReadOnlySpan<byte> line))
                {
                    read.Add(Encoding.UTF8.GetString(line));
                    Assert.Equal(read.Count, reader.Line);
                }

                Assert.Equal(wanted.Select(static w => w.EndsWith('\r') ? w[..^1] : w), read);
                Assert.False(reader.TryRead(out _));
            },
            iter: 400);

    [Fact]
    public void Columns_are_found_by_their_heads_in_any_case_and_the_first_of_several_names_counts()
    {
        using HeadedReader table = HeadedReader.Open(
            static () => new MemoryStream("Lat; \"Long\" ;lat;Name of it\n1;2;3;4\n5;6\n"u8.ToArray()), (byte)';')!;

        Assert.Equal(["Lat", "Long", "lat", "Name of it"], table.Heads);
        Assert.Equal(0, table.Column("LAT"));
        Assert.Equal(1, table.Column("Longitude", "long"));
        Assert.Equal(3, table.Column("NAME OF IT", "Lat"));
        Assert.Equal(-1, table.Column("Latitude", "Name"));
        Assert.True(table.Rows.TryRead());
        Assert.Equal("4", ColumnText.Text(table.Rows[3]));
        Assert.True(table.Rows.TryRead());
        Assert.False(table.Rows.IsWhole);
        Assert.False(table.Rows.TryRead());
        Assert.Null(HeadedReader.Open(static () => new MemoryStream()));
        Assert.Null(HeadedReader.ReadHeads(new MemoryStream("\n \n"u8.ToArray())));
    }

    // What a zip file's own head claims is not believed: the limit counts what comes out.
    [Theory]
    [InlineData(100, 100, true)]
    [InlineData(101, 100, false)]
    [InlineData(5_000, 100, false)]
    public void Unpacked_bytes_are_given_up_to_the_limit_and_no_further(int bytes, int most, bool whole)
    {
        byte[] content = [.. Enumerable.Range(0, bytes).Select(static i => (byte)i)];
        using MemoryStream packed = new();
        using (ZipArchive make = new(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            using Stream entry = make.CreateEntry("a").Open();
            entry.Write(content);
        }

        ZipArchive zip = new(packed, ZipArchiveMode.Read);
        using UnpackedStream stream = new(zip, zip.GetEntry("a")!.Open(), most, "all.zip/a");
        using MemoryStream read = new();
        if (whole)
        {
            stream.CopyTo(read);
            Assert.Equal(content, read.ToArray());
            Assert.Equal(bytes, stream.Position);
        }
        else
        {
            UnpackedTooLargeException e = Assert.Throws<UnpackedTooLargeException>(() => stream.CopyTo(read));
            Assert.Equal(("all.zip/a", (long)most), (e.File, e.Most));
            Assert.True(read.Length <= most);
        }
    }

    // 64 MiB free, then 200 times the packed size, never over 64 GiB (docs/formats/register.md, limits).
    [Theory]
    [InlineData(0, 1L << 26)]
    [InlineData(1_000, 1L << 26)]
    [InlineData(335_544, 1L << 26)]
    [InlineData(335_545, 67_109_000L)]
    [InlineData(10_000_000, 2_000_000_000L)]
    [InlineData(1L << 40, 1L << 36)]
    public void Limit_of_a_packed_file_is_the_greater_of_the_free_bytes_and_the_ratio(long packed, long most) =>
        Assert.Equal(most, new ImportLimits().MostUnpacked(packed));

    [Fact]
    public void Files_of_folders_and_zip_files_are_all_found_in_one_order_and_say_where_they_are()
    {
        using Scratch scratch = new();
        Directory.CreateDirectory(Path.Combine(scratch.Input, "sub"));
        foreach (string name in (string[])["b.csv", "a.csv", "sub/c.csv"])
        {
            scratch.Write(name, "content of " + name);
        }

        string zip = scratch.Zip(), missing = Path.Combine(scratch.Folder, "none");
        DiagnosticBag bag = new();

        IReadOnlyList<RegisterFile> all = RegisterFile.All([scratch.Input, missing, zip], new ImportLimits(), bag);

        Assert.Equal(["a.csv", "b.csv", "c.csv"], all.Take(3).Select(static f => f.Name));
        Assert.Equal(["a.csv", "b.csv", "c.csv"], all.Skip(3).Select(static f => f.Name).Order(StringComparer.Ordinal));
        Assert.All(all.Skip(3), f => Assert.StartsWith(zip + "/", f.Shown, StringComparison.Ordinal));
        Diagnostic error = Assert.Single(bag.InOrder());
        Assert.Equal((missing, "there is no such file or folder"), (error.File, error.What));
        foreach (RegisterFile file in all)
        {
            string content = Encoding.Latin1.GetString(file.Head(new ImportLimits()));
            Assert.Equal("content of " + (file.Name == "c.csv" ? "sub/c.csv" : file.Name), content);
            Assert.Equal(content.Length, file.Bytes);
            Assert.Equal(content[..7], Encoding.Latin1.GetString(file.Head(new ImportLimits(), 7)));
        }
    }

    [Fact]
    public void A_zip_file_that_is_cut_short_is_called_damaged()
    {
        using Scratch scratch = new();
        scratch.Write("a.csv", new string('x', 5_000));
        byte[] bytes = File.ReadAllBytes(scratch.Zip());
        string path = Path.Combine(scratch.Folder, "cut.zip");
        File.WriteAllBytes(path, bytes[..^10]);
        DiagnosticBag bag = new();

        Assert.Empty(RegisterFile.All([path], new ImportLimits(), bag));

        Assert.Equal("the zip file is damaged or cut short", Assert.Single(bag.InOrder()).What);
    }

    /// <summary>A stream that hands over a few bytes at a time, as a pipe or an unpacker does.</summary>
    private sealed class Dripping(byte[] bytes, int atATime) : MemoryStream(bytes)
    {
        public override int Read(byte[] buffer, int offset, int count) => base.Read(buffer, offset, Math.Min(count, atATime));
    }
}
