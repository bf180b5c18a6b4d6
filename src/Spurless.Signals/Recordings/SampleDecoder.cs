using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Signals.Recordings;

/// <summary>Turns the octets of samples into numbers with full scale 1.</summary>
internal static class SampleDecoder
{
    private static readonly float[] _aLaw = [.. Enumerable.Range(0, 256).Select(static i => ALaw((byte)i))];
    private static readonly float[] _muLaw = [.. Enumerable.Range(0, 256).Select(static i => MuLaw((byte)i))];

    /// <summary>Decodes some values of each frame.</summary>
    /// <param name="octets">Whole frames.</param>
    /// <param name="format">How they are written.</param>
    /// <param name="stride">Octets from frame to frame.</param>
    /// <param name="first">The first value wanted of a frame.</param>
    /// <param name="values">How many values of a frame, side by side.</param>
    /// <param name="to">Values one after another.</param>
    /// <returns>How many were not numbers; they stand as 0.</returns>
    public static int Decode(ReadOnlySpan<byte> octets, RecordingFormat format, int stride, int first, int values, Span<float> to)
    {
        int width = format.Width;
        if (stride == values * width && first == 0 && format.Coding == SampleCoding.Signed16 && BitConverter.IsLittleEndian
            && !format.BigEndian)
        {
            Shorts(MemoryMarshal.Cast<byte, short>(octets[..(octets.Length / stride * stride)]), to);
            return 0;
        }

        int frames = octets.Length / stride;
        int bad = 0;
        int at = 0;
        for (int n = 0; n < frames; n++)
        {
            for (int c = 0; c < values; c++)
            {
                ReadOnlySpan<byte> b = octets.Slice(n * stride + (first + c) * width, width);
                float v = format.Coding switch
                {
                    SampleCoding.Unsigned8 => (b[0] - 128) / 128f,
                    SampleCoding.Signed8 => (sbyte)b[0] / 128f,
                    SampleCoding.Signed16 => (format.BigEndian ? BinaryPrimitives.ReadInt16BigEndian(b)
                        : BinaryPrimitives.ReadInt16LittleEndian(b)) / 32_768f,
                    SampleCoding.Unsigned16 =>
                        ((format.BigEndian ? BinaryPrimitives.ReadUInt16BigEndian(b) : BinaryPrimitives.ReadUInt16LittleEndian(b))
                            - 32_768) / 32_768f,
                    SampleCoding.Signed24 => (b[0] << 8 | b[1] << 16 | b[2] << 24) / 2_147_483_648f,
                    SampleCoding.Signed32 =>
                        (format.BigEndian ? BinaryPrimitives.ReadInt32BigEndian(b)
                            : BinaryPrimitives.ReadInt32LittleEndian(b)) / 2_147_483_648f,
                    SampleCoding.Unsigned32 =>
                        (float)(((double)(format.BigEndian ? BinaryPrimitives.ReadUInt32BigEndian(b)
                            : BinaryPrimitives.ReadUInt32LittleEndian(b)) - 2_147_483_648.0)
                            / 2_147_483_648.0),
                    SampleCoding.Float32 => format.BigEndian ? BinaryPrimitives.ReadSingleBigEndian(b)
                        : BinaryPrimitives.ReadSingleLittleEndian(b),
                    SampleCoding.Float64 => (float)(
                        format.BigEndian ? BinaryPrimitives.ReadDoubleBigEndian(b) : BinaryPrimitives.ReadDoubleLittleEndian(b)),
                    SampleCoding.ALaw => _aLaw[b[0]],
                    _ => _muLaw[b[0]],
                };
                if (!(MathF.Abs(v) <= Largest))
                {
                    v = 0;
                    bad++;
                }

                to[at++] = v;
            }
        }

        return bad;
    }

    /// <summary>What most recordings are: 16 bits side by side, many at once.</summary>
    private static void Shorts(ReadOnlySpan<short> from, Span<float> to)
    {
        const float Scale = 1 / 32_768f;
        ReadOnlySpan<Vector256<short>> vectors = MemoryMarshal.Cast<short, Vector256<short>>(from);
        int n = 0;
        foreach (Vector256<short> v in vectors)
        {
            (Vector256<int> low, Vector256<int> high) = Vector256.Widen(v);
            (Vector256.ConvertToSingle(low) * Scale).CopyTo(to[n..]);
            (Vector256.ConvertToSingle(high) * Scale).CopyTo(to[(n + 8)..]);
            n += 16;
        }

        for (; n < from.Length; n++)
        {
            to[n] = from[n] * Scale;
        }
    }

    /// <summary>More than any sample that was meant as one; over it a sum of squares would no longer fit a float.</summary>
    private const float Largest = 1e9f;

    /// <summary>ITU-T G.711 A-law, from memory: even bits turned over, sign, segment, four bits.</summary>
    private static float ALaw(byte code)
    {
        int c = code ^ 0x55;
        int segment = c >> 4 & 7;
        int step = c & 15;
        int v = segment == 0 ? (step << 4) + 8 : (step << 4) + 0x108 << segment - 1;
        return ((c & 0x80) != 0 ? v : -v) / 32_768f;
    }

    /// <summary>ITU-T G.711 mu-law, from memory: all bits turned over, sign, segment, four bits.</summary>
    private static float MuLaw(byte code)
    {
        int c = code ^ 0xFF;
        int v = (((c & 15) << 3) + 0x84 << (c >> 4 & 7)) - 0x84;
        return ((c & 0x80) != 0 ? -v : v) / 32_768f;
    }
}
