using System.Buffers.Binary;

namespace Spurless.Radio.Terrain.Elevation;

/// <summary>
/// Looks at the first directory of a TIFF before the library does: a damaged count makes it reserve and fill gigabytes. A directory whose
/// values cannot lie in the file is damaged, however long one reads.
/// </summary>
internal static class TiffDirectoryCheck
{
    /// <summary>Sizes of the field types 1 to 13 of TIFF 6.0 and its supplements, in bytes.</summary>
    private static readonly int[] _typeBytes = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4];

    /// <summary>More than this many bytes for one of the file no compression gives (LZW: 2,731).</summary>
    private const long MostExpansion = 3000;

    /// <summary>What is wrong, or null. The stream is left at its beginning.</summary>
    internal static string? Problem(Stream stream)
    {
        stream.Position = 0;
        string? problem = Find(stream);
        stream.Position = 0;
        return problem;
    }

    private static string? Find(Stream stream)
    {
        Span<byte> head = stackalloc byte[8];
        if (stream.ReadAtLeast(head, 8, throwOnEndOfStream: false) < 8 || !(head[0] == head[1] && head[0] is (byte)'I' or (byte)'M'))
        {
            return "this is no TIFF, or it is cut short; fetch it again";
        }

        bool little = head[0] == (byte)'I';
        if (U16(head[2..], little) == 43)
        {
            return "this is a BigTIFF; save it as a plain TIFF of under 4 GB, or cut it into pieces";
        }

        uint at = U32(head[4..], little);
        if (U16(head[2..], little) != 42 || at < 8 || at > stream.Length - 2)
        {
            return "this is no TIFF, or it is cut short; fetch it again";
        }

        stream.Position = at;
        Span<byte> count = stackalloc byte[2];
        stream.ReadExactly(count);
        byte[] entries = new byte[12 * U16(count, little)];
        if (stream.ReadAtLeast(entries, entries.Length, throwOnEndOfStream: false) < entries.Length)
        {
            return "its directory is cut short; fetch it again";
        }

        long samples = 1;
        for (int i = 0; i < entries.Length; i += 12)
        {
            ReadOnlySpan<byte> entry = entries.AsSpan(i, 12);
            int tag = U16(entry, little);
            int type = U16(entry[2..], little);
            long values = U32(entry[4..], little);
            if (type is < 1 or > 13 || values * _typeBytes[type] > stream.Length)
            {
                return $"its directory is damaged (tag {tag}); fetch it again";
            }

            if (tag is 256 or 257)
            {
                samples *= type == 3 ? U16(entry[8..], little) : U32(entry[8..], little);
            }
        }

        return samples > MostExpansion * stream.Length ? "it is far shorter than the heights it announces; fetch it again" : null;
    }

    private static ushort U16(ReadOnlySpan<byte> bytes, bool little) =>
        little ? BinaryPrimitives.ReadUInt16LittleEndian(bytes) : BinaryPrimitives.ReadUInt16BigEndian(bytes);

    private static uint U32(ReadOnlySpan<byte> bytes, bool little) =>
        little ? BinaryPrimitives.ReadUInt32LittleEndian(bytes) : BinaryPrimitives.ReadUInt32BigEndian(bytes);
}
