using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Spurless.Signals.Listening;

namespace Spurless.Reports.Recordings;

/// <summary>A spectrogram as a picture: the more ink, the stronger. PNG after ISO/IEC 15948, eight bits of grey.</summary>
internal static class GreyPicture
{
    /// <summary>The picture as the address of an image element.</summary>
    public static string DataAddress(Spectrogram picture)
    {
        // From the usual quiet cell to the strongest ones.
        byte[] sorted = [.. picture.Cells.Order()];
        int low = sorted[sorted.Length * 3 / 10];
        int high = Math.Max(low + 20, sorted[Math.Min(sorted.Length - 1, sorted.Length * 998 / 1000)]);
        byte[] rows = new byte[(picture.Columns + 1) * picture.Rows];
        for (int row = 0; row < picture.Rows; row++)
        {
            int at = row * (picture.Columns + 1) + 1;
            for (int column = 0; column < picture.Columns; column++)
            {
                // The lowest frequency stands at the bottom.
                int cell = picture.Cells[column * picture.Rows + picture.Rows - 1 - row];
                double share = Math.Clamp((cell - low) / (double)(high - low), 0, 1);
                rows[at + column] = (byte)(255 - 225 * Math.Pow(share, 0.8));
            }
        }

        using MemoryStream png = new();
        png.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        byte[] head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, picture.Columns);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), picture.Rows);
        head[8] = 8;
        Chunk(png, "IHDR", head);
        using (MemoryStream packed = new())
        {
            using (ZLibStream zip = new(packed, CompressionLevel.SmallestSize, leaveOpen: true))
            {
                zip.Write(rows);
            }

            Chunk(png, "IDAT", packed.ToArray());
        }

        Chunk(png, "IEND", []);
        return "data:image/png;base64," + Convert.ToBase64String(png.ToArray());
    }

    private static void Chunk(Stream to, string name, byte[] body)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, body.Length);
        to.Write(number);
        byte[] named = [.. Encoding.ASCII.GetBytes(name), .. body];
        to.Write(named);
        uint check = 0xFFFFFFFF;
        foreach (byte octet in named)
        {
            check ^= octet;
            for (int b = 0; b < 8; b++)
            {
                check = (check & 1) != 0 ? check >> 1 ^ 0xEDB88320 : check >> 1;
            }
        }

        BinaryPrimitives.WriteUInt32BigEndian(number, check ^ 0xFFFFFFFF);
        to.Write(number);
    }
}
