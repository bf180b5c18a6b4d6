using System.Numerics;
using Spurless.Signals.Recordings;

namespace Spurless.Signals.Tests.Recordings;

/// <summary>Every coding of samples against whole numbers of any length, octet by octet.</summary>
public sealed class SampleDecoderTests
{
    [Theory]
    [InlineData(SampleCoding.Unsigned8, false)]
    [InlineData(SampleCoding.Signed8, false)]
    [InlineData(SampleCoding.Signed16, false)]
    [InlineData(SampleCoding.Signed16, true)]
    [InlineData(SampleCoding.Unsigned16, false)]
    [InlineData(SampleCoding.Unsigned16, true)]
    [InlineData(SampleCoding.Signed24, false)]
    [InlineData(SampleCoding.Signed32, false)]
    [InlineData(SampleCoding.Signed32, true)]
    [InlineData(SampleCoding.Unsigned32, false)]
    [InlineData(SampleCoding.Unsigned32, true)]
    public void Decode_wholeNumbers_areTheirShareOfFullScale(SampleCoding coding, bool bigEndian)
    {
        RecordingFormat format = new(48_000, 1, false, coding, bigEndian);
        bool isUnsigned = coding.ToString().StartsWith("Unsigned", StringComparison.Ordinal);
        byte[] octets = new byte[format.Width * 3_000];
        new Random(1).NextBytes(octets);
        octets.AsSpan(0, format.Width).Clear();
        octets.AsSpan(format.Width, format.Width).Fill(0xFF);
        float[] values = new float[3_000];
        Assert.Equal(0, SampleDecoder.Decode(octets, format, format.Width, 0, 1, values));
        BigInteger full = BigInteger.Pow(2, 8 * format.Width - 1);
        for (int n = 0; n < values.Length; n++)
        {
            BigInteger whole = new(octets.AsSpan(n * format.Width, format.Width), isUnsigned, bigEndian);
            double expected = (double)(isUnsigned ? whole - full : whole) / (double)full;
            Assert.Equal(expected, values[n], 1e-7);
            Assert.InRange(values[n], -1f, 1f);
        }
    }

    /// <summary>Of frames of several values those that are wanted; what stands between is passed over.</summary>
    [Theory]
    [InlineData(0, 1, 8)]
    [InlineData(1, 1, 8)]
    [InlineData(2, 2, 8)]
    [InlineData(1, 2, 11)]
    public void Decode_someOfAFrame_takesThose(int first, int values, int stride)
    {
        RecordingFormat format = new(48_000, 4, false, SampleCoding.Signed16);
        byte[] octets = new byte[stride * 50];
        new Random(2).NextBytes(octets);
        float[] got = new float[50 * values];
        SampleDecoder.Decode(octets, format, stride, first, values, got);
        for (int n = 0; n < 50; n++)
        {
            for (int c = 0; c < values; c++)
            {
                int at = n * stride + 2 * (first + c);
                Assert.Equal((short)(octets[at] | octets[at + 1] << 8) / 32_768f, got[n * values + c]);
            }
        }
    }

    /// <summary>What is not a number, or larger than any sample, is 0 and is counted.</summary>
    [Fact]
    public void Decode_whatIsNoNumber_isZeroAndCounted()
    {
        float[] floats = [0.5f, float.NaN, float.PositiveInfinity, -0.25f, float.NegativeInfinity, 1e20f, -1e30f, 0];
        byte[] octets = [.. floats.SelectMany(BitConverter.GetBytes)];
        float[] got = new float[floats.Length];
        RecordingFormat format = new(48_000, 1, false, SampleCoding.Float32);
        Assert.Equal(5, SampleDecoder.Decode(octets, format, 4, 0, 1, got));
        Assert.Equal([0.5f, 0, 0, -0.25f, 0, 0, 0, 0], got);
        double[] doubles = [0.5, double.NaN, -0.125];
        float[] gotDoubles = new float[3];
        Assert.Equal(1, SampleDecoder.Decode([.. doubles.SelectMany(static d => BitConverter.GetBytes(d).Reverse())],
            format with { Coding = SampleCoding.Float64, BigEndian = true }, 8, 0, 1, gotDoubles));
        Assert.Equal([0.5f, 0, -0.125f], gotDoubles);
    }

    /// <summary>
    /// ITU-T G.711 (from memory): eight segments, each of sixteen steps of one size, which doubles from segment to segment (of A-law's
    /// first two it is one); a sign of its own, so every value has its negative. Largest 4,032 of 4,096 (A) and 8,031 of 8,192 (mu).
    /// </summary>
    [Theory]
    [InlineData(SampleCoding.ALaw, 0xD5, 1, 4_032 / 4_096.0)]
    [InlineData(SampleCoding.MuLaw, 0xFF, 0, 8_031 / 8_192.0)]
    public void Decode_laws_haveTheirSegments(SampleCoding coding, int smallest, int firstDoubling, double largest)
    {
        float[] values = new float[256];
        byte[] codes = [.. Enumerable.Range(0, 256).Select(static c => (byte)c)];
        SampleDecoder.Decode(codes, new RecordingFormat(8_000, 1, false, coding), 1, 0, 1, values);
        float[] positive = [.. values.Where((v, c) => (c & 0x80) != 0).Order()];
        float[] negative = [.. values.Where((v, c) => (c & 0x80) == 0).OrderDescending()];
        Assert.Equal(128, positive.Length);
        Assert.All(positive.Zip(negative), static p => Assert.Equal(p.First, -p.Second));
        Assert.Equal(positive[0], values[smallest]);
        Assert.Equal(largest, positive[^1], 1.0 / 4_096);
        double[] steps = [.. Enumerable.Range(0, 8).Select(s => (double)(positive[16 * s + 15] - positive[16 * s]) / 15)];
        for (int segment = 0; segment < 8; segment++)
        {
            for (int k = 1; k < 16; k++)
            {
                Assert.Equal(steps[segment], positive[16 * segment + k] - positive[16 * segment + k - 1], 1e-6);
            }

            if (segment > 0)
            {
                Assert.Equal(segment > firstDoubling ? 2 : 2 - firstDoubling, steps[segment] / steps[segment - 1], 1e-3);
            }
        }
    }
}
