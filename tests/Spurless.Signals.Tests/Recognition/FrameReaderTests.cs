using Spurless.Signals.Recognition.Packet;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>
/// HDLC frames (ISO/IEC 13239, from memory) of the tests' own packer: flags, stuffed zeros, check sequence. A check sequence of 16 bits by
/// x^16 + x^12 + x^5 + 1 finds every change of one, two or three bits, and every burst of up to 16.
/// </summary>
public sealed class FrameReaderTests
{
    [Fact]
    public void Push_randomFrames_areAllGood()
    {
        for (int seed = 1; seed <= 60; seed++)
        {
            Random random = new(seed);
            byte[][] frames = [.. Enumerable.Range(0, 1 + random.Next(6)).Select(_ => RandomFrame(random))];
            FrameReader reader = Read(PacketSignal.Bits(frames, 1 + random.Next(20), 1 + random.Next(4), 2));
            Assert.Equal(frames.Length, reader.Frames.Count);
            Assert.All(reader.Frames, static f => Assert.True(f.Good));
        }
    }

    /// <summary>One, two or three wrong bits of the octets: not good, whichever they are.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Push_aFewWrongBits_areNeverGood(int wrong)
    {
        Random random = new(wrong);
        for (int run = 0; run < 400; run++)
        {
            byte[] frame = RandomFrame(random);
            foreach (int bit in Enumerable.Range(0, 8 * frame.Length).OrderBy(_ => random.Next()).Take(wrong))
            {
                frame[bit / 8] ^= (byte)(1 << bit % 8);
            }

            Assert.DoesNotContain(Read(PacketSignal.Bits([frame])).Frames, static f => f.Good);
        }
    }

    [Fact]
    public void Push_aBurst_isNeverGood()
    {
        Random random = new(9);
        for (int run = 0; run < 400; run++)
        {
            byte[] frame = RandomFrame(random);
            int from = random.Next(8 * frame.Length - 16);
            frame[from / 8] ^= (byte)(1 << from % 8);
            for (int bit = from + 1; bit < from + 16; bit++)
            {
                frame[bit / 8] ^= (byte)(random.Next(2) << bit % 8);
            }

            Assert.DoesNotContain(Read(PacketSignal.Bits([frame])).Frames, static f => f.Good);
        }
    }

    /// <summary>Two addresses, a control octet and the check sequence are the least: 17 octets.</summary>
    [Theory]
    [InlineData(14, 0)]
    [InlineData(15, 1)]
    [InlineData(60, 1)]
    public void Push_shorterThanAFrame_isNone(int octets, int frames)
    {
        Assert.Equal(17, FrameReader.LeastOctets);
        Assert.Equal(frames, Read(PacketSignal.Bits([Frame(new Random(3), octets)])).Frames.Count);
    }

    /// <summary>Seven ones in a row end a frame that was begun; the next is read.</summary>
    [Fact]
    public void Push_anAbort_endsTheFrame()
    {
        Random random = new(4);
        int[] broken = PacketSignal.Bits([RandomFrame(random)], 3, 1, 0);
        int[] whole = PacketSignal.Bits([RandomFrame(random)], 3);
        FrameReader reader = Read([.. broken[..(broken.Length / 2)], 1, 1, 1, 1, 1, 1, 1, 1, .. whole]);
        Assert.True(Assert.Single(reader.Frames).Good);
    }

    /// <summary>Flags in a row are counted; where two share a zero (seven bits apart) too.</summary>
    [Fact]
    public void Push_flags_areCounted()
    {
        FrameReader apart = Read(PacketSignal.Bits([], 12));
        Assert.Equal(12, Assert.Single(apart.FlagRuns).Count);
        FrameReader shared = Read([.. Enumerable.Repeat(new[] { 0, 1, 1, 1, 1, 1, 1 }, 9).SelectMany(static b => b), 0]);
        Assert.Equal(9, Assert.Single(shared.FlagRuns).Count);
    }

    /// <summary>Moments are the caller's: from the flag before a frame to the one behind it.</summary>
    [Fact]
    public void Push_keepsTheMoments()
    {
        byte[] frame = RandomFrame(new Random(5));
        int[] bits = PacketSignal.Bits([frame], 10, 0, 1);
        FrameReader reader = new();
        for (int k = 0; k < bits.Length; k++)
        {
            reader.Push(bits[k], 100 + 8L * k, 8);
        }

        (long from, long to, bool good, _) = Assert.Single(reader.Frames);
        Assert.True(good);
        Assert.Equal((100 + 8 * 79, 100 + 8L * (bits.Length - 1)), (from, to));
    }

    /// <summary>Random bits: a good frame needs 16 right ones, 1 of 65,536 frames.</summary>
    [Fact]
    public void Push_randomBits_seldomHoldAGoodFrame()
    {
        int[] bits = BitSignals.RandomBits(2_000_000, 6);
        FrameReader reader = Read(bits);
        Assert.InRange(reader.Frames.Count, 500, 5_000);
        Assert.True(reader.Frames.Count(static f => f.Good) <= 1);
    }

    /// <summary>A clock off by up to 1 %, and noise, do not lose a bit: the bits come out as they went in.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.008)]
    [InlineData(-0.008)]
    public void BitClock_followsADrift(double drift)
    {
        int[] bits = BitSignals.RandomBits(3_000, 7);
        double[] wave = BitSignals.Keyed(BitSignals.Levels(bits, true), 1_200, 48_000, 0.4, drift);
        Gauss gauss = new(8);
        BitClock clock = new(1_200 / 48_000.0, 0.12);
        List<int> read = [];
        foreach (double v in wave)
        {
            if (clock.Push((float)(v + 0.1 * gauss.Next()), out float decided))
            {
                read.Add(decided > 0 ? 1 : 0);
            }
        }

        // It settles in some bits; from there on bit for bit.
        int shift = Enumerable.Range(-2, 5).MaxBy(s => Enumerable.Range(100, 500).Count(k => read[k + s] == bits[k]));
        Assert.All(Enumerable.Range(60, 2_900), k => Assert.Equal(bits[k], read[k + shift]));
        Assert.InRange(read.Count, 2_998, 3_002);
    }

    private static byte[] RandomFrame(Random random) => Frame(random, 15 + random.Next(120));

    private static byte[] Frame(Random random, int octets)
    {
        byte[] body = new byte[octets];
        random.NextBytes(body);
        int check = PacketSignal.Check(body);
        return [.. body, (byte)(check & 0xFF), (byte)(check >> 8)];
    }

    private static FrameReader Read(int[] bits)
    {
        FrameReader reader = new();
        for (int k = 0; k < bits.Length; k++)
        {
            reader.Push(bits[k], k, 1);
        }

        return reader;
    }
}
