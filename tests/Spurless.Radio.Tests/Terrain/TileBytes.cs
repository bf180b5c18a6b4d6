using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace Spurless.Radio.Tests.Terrain;

/// <summary>Makes the bytes of elevation files, independently of the readers.</summary>
internal static class TileBytes
{
    /// <summary>A raw tile of 1,201 or 3,601 samples a side.</summary>
    /// <param name="side">Samples a side.</param>
    /// <param name="height">Metres by row from the north and column from the west.</param>
    public static byte[] Hgt(int side, Func<int, int, short> height)
    {
        byte[] bytes = new byte[2 * side * side];
        for (int row = 0; row < side; row++)
        {
            for (int column = 0; column < side; column++)
            {
                BinaryPrimitives.WriteInt16BigEndian(bytes.AsSpan(2 * (row * side + column)), height(row, column));
            }
        }

        return bytes;
    }

    public static byte[] Zip(string entry, byte[] content)
    {
        using MemoryStream stream = new();
        using (ZipArchive archive = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            ZipArchiveEntry made = archive.CreateEntry(entry, CompressionLevel.SmallestSize);
            made.LastWriteTime = new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);
            using Stream into = made.Open();
            into.Write(content);
        }

        return stream.ToArray();
    }

    /// <summary>A little-endian GeoTIFF in one strip, by the TIFF 6.0 and GeoTIFF layouts.</summary>
    public static byte[] GeoTiff(
        int rows, int columns, double north, double west, double step, Func<int, int, float> height,
        int geographic = 4326, int model = 2, int rasterType = 1, bool floating = true, string? noData = "-9999", bool keys = true,
            int bands = 1)
    {
        byte[] heights = new byte[rows * columns * (floating ? 4 : 2)];
        for (int r = 0; r < rows; r++)
        {
            for (int c = 0; c < columns; c++)
            {
                int at = r * columns + c;
                if (floating)
                {
                    BinaryPrimitives.WriteSingleLittleEndian(heights.AsSpan(4 * at), height(r, c));
                }
                else
                {
                    BinaryPrimitives.WriteInt16LittleEndian(heights.AsSpan(2 * at), (short)height(r, c));
                }
            }
        }

        List<(ushort Tag, ushort Type, uint Count, byte[] Value)> entries =
        [
            Short(256, (ushort)columns), Short(257, (ushort)rows), Short(258, (ushort)(floating ? 32 : 16)), Short(259, 1), Short(262, 1),
            (273, 4, 1, new byte[4]), Short(277, (ushort)bands), Short(278, (ushort)rows), (
                279, 4, 1, BitConverter.GetBytes((uint)heights.Length)),
            Short(339, (ushort)(floating ? 3 : 2)),
            Doubles(33550, step, step, 0), Doubles(33922, 0, 0, 0, west, north, 0),
        ];
        if (keys)
        {
            entries.Add(Shorts(34735, 1, 1, 0, 3, 1024, 0, 1, (ushort)model, 1025, 0, 1, (ushort)rasterType, 2048, 0, 1, (
                ushort)geographic));
        }

        if (noData is not null)
        {
            byte[] text = Encoding.ASCII.GetBytes(noData + "\0");
            entries.Add((42113, 2, (uint)text.Length, text));
        }

        int directory = 2 + 12 * entries.Count + 4;
        int outside = 8 + directory;
        int data = outside + entries.Sum(static e => e.Value.Length > 4 ? e.Value.Length + (e.Value.Length & 1) : 0);
        using MemoryStream stream = new();
        using BinaryWriter writer = new(stream);
        writer.Write("II*\0"u8);
        writer.Write(8u);
        writer.Write((ushort)entries.Count);
        int next = outside;
        List<byte[]> later = [];
        foreach ((ushort tag, ushort type, uint count, byte[] value) in entries)
        {
            byte[] shown = tag == 273 ? BitConverter.GetBytes((uint)data) : value;
            writer.Write(tag);
            writer.Write(type);
            writer.Write(count);
            if (shown.Length <= 4)
            {
                writer.Write(shown);
                writer.Write(new byte[4 - shown.Length]);
            }
            else
            {
                writer.Write((uint)next);
                byte[] padded = [.. shown, .. new byte[shown.Length & 1]];
                later.Add(padded);
                next += padded.Length;
            }
        }

        writer.Write(0u);
        later.ForEach(writer.Write);
        writer.Write(heights);
        writer.Flush();
        return stream.ToArray();
    }

    private static (ushort, ushort, uint, byte[]) Short(ushort tag, ushort value) => (tag, 3, 1, BitConverter.GetBytes(value));

    private static (ushort, ushort, uint, byte[]) Shorts(ushort tag, params ushort[] values) =>
        (tag, 3, (uint)values.Length, [.. values.SelectMany(BitConverter.GetBytes)]);

    private static (ushort, ushort, uint, byte[]) Doubles(ushort tag, params double[] values) =>
        (tag, 12, (uint)values.Length, [.. values.SelectMany(BitConverter.GetBytes)]);
}
