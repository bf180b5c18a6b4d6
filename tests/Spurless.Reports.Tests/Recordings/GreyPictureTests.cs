using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using CsCheck;
using Spurless.Reports.Recordings;
using Spurless.Signals.Listening;

namespace Spurless.Reports.Tests.Recordings;

/// <summary>
/// The picture of a spectrogram read back as the standard has it (ISO/IEC 15948, Portable Network Graphics: signature, chunks with a CRC-32
/// over name and body, rows each with a filter octet, zlib).
/// </summary>
public sealed class GreyPictureTests
{
    private static readonly Gen<Spectrogram> _picture =
        from columns in Gen.Int[1, 40]
        from rows in Gen.Int[1, 30]
        from cells in Gen.Byte.Array[columns * rows]
        select new Spectrogram(columns, rows, cells);

    [Fact]
    public void DataAddress_of_any_spectrogram_is_a_picture_of_its_size_whose_checks_hold() => _picture.Sample(
        static picture =>
        {
            (int width, int height, byte[] rows) = Read(GreyPicture.DataAddress(picture));
            Assert.Equal((picture.Columns, picture.Rows), (width, height));
            Assert.Equal((width + 1) * height, rows.Length);
            for (int row = 0; row < height; row++)
            {
                Assert.Equal(0, rows[row * (width + 1)]); // no filter
            }
        },
        iter: 60);

    /// <summary>More ink is stronger, and the lowest frequency stands at the bottom.</summary>
    [Fact]
    public void DataAddress_has_more_ink_where_it_is_stronger() => _picture.Sample(
        static picture =>
        {
            (int width, int height, byte[] rows) = Read(GreyPicture.DataAddress(picture));
            byte Grey(int column, int bin) => rows[((height - 1 - bin) * (width + 1)) + 1 + column];
            byte Cell(int column, int bin) => picture.Cells[(column * picture.Rows) + bin];
            for (int column = 1; column < width; column++)
            {
                for (int bin = 0; bin < height; bin++)
                {
                    if (Cell(column, bin) >= Cell(column - 1, bin))
                    {
                        Assert.True(Grey(column, bin) <= Grey(column - 1, bin));
                    }
                    else
                    {
                        Assert.True(Grey(column, bin) >= Grey(column - 1, bin));
                    }
                }
            }
        },
        iter: 60);

    private static (int Width, int Height, byte[] Rows) Read(string address)
    {
        const string Head = "data:image/png;base64,";
        Assert.StartsWith(Head, address, StringComparison.Ordinal);
        byte[] png = Convert.FromBase64String(address[Head.Length..]);
        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], png[..8]);
        List<(string Name, byte[] Body)> chunks = [];
        for (int at = 8; at < png.Length;)
        {
            int length = BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(at));
            ReadOnlySpan<byte> named = png.AsSpan(at + 4, 4 + length);
            Assert.Equal(Crc(named), BinaryPrimitives.ReadUInt32BigEndian(png.AsSpan(at + 8 + length)));
            chunks.Add((Encoding.ASCII.GetString(named[..4]), named[4..].ToArray()));
            at += 12 + length;
        }

        Assert.Equal(["IHDR", "IDAT", "IEND"], chunks.Select(static c => c.Name));
        byte[] head = chunks[0].Body;
        Assert.Equal([8, 0, 0, 0, 0], head[8..]); // eight bits of grey, deflate, filters by row, not interlaced
        using MemoryStream packed = new(chunks[1].Body), rows = new();
        using ZLibStream zip = new(packed, CompressionMode.Decompress);
        zip.CopyTo(rows);
        return (BinaryPrimitives.ReadInt32BigEndian(head), BinaryPrimitives.ReadInt32BigEndian(head.AsSpan(4)), rows.ToArray());
    }

    // By the polynomial, a bit at a time, the other way round from the product: x^32 + x^26 + ... + 1 (annex D of the standard).
    private static uint Crc(ReadOnlySpan<byte> of)
    {
        uint[] table = new uint[256];
        for (uint n = 0; n < 256; n++)
        {
            uint c = n;
            for (int k = 0; k < 8; k++)
            {
                c = (c & 1) == 1 ? 0xEDB88320 ^ (c >> 1) : c >> 1;
            }

            table[n] = c;
        }

        uint crc = uint.MaxValue;
        foreach (byte octet in of)
        {
            crc = table[(crc ^ octet) & 0xFF] ^ (crc >> 8);
        }

        return ~crc;
    }
}
