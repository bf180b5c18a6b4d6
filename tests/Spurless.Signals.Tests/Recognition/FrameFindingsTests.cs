using Spurless.Signals.Recognition;
using Spurless.Signals.Recognition.Packet;
using Spurless.Signals.Tests.Listening;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Recognition;

/// <summary>
/// What is proof of packet. A check sequence of 16 bits holds in 1 of 65,536 frames of random bits (HDLC, ISO/IEC 13239, from memory), so one
/// by itself is none; AX.25 2.2 (from memory): a transmission begins with flags, addresses of seven octets end with the octet whose lowest bit
/// is set, the shortest frame has 136 bits.
/// </summary>
public sealed class FrameFindingsTests
{
    private const double Rate = 48_000;
    private const double RateBd = 9_600;

    /// <summary>Octets at random with a right check sequence between one flag and one: what random bits show too.</summary>
    [Theory]
    [InlineData(1, 1, 0)]
    [InlineData(2, 1, 1)]
    [InlineData(1, 2, 1)]
    [InlineData(4, 3, 1)]
    public void Make_aGoodFrame_isProofWithTwoFlagsInARow(int before, int behind, int found)
    {
        for (int seed = 1; seed <= 40; seed++)
        {
            List<Finding> findings = Find(PacketSignal.Bits([AtRandom(seed)], before, 1, behind));
            Assert.Equal(found, findings.Count);
            Assert.All(findings, static f => Assert.Equal((1, 1), (f.UnitsChecked, f.UnitsGood)));
        }
    }

    /// <summary>With the addresses that AX.25 begins with it needs no more than its own two flags.</summary>
    [Fact]
    public void Make_anAddressedFrame_isProof()
    {
        Finding only = Assert.Single(Find(PacketSignal.Bits([PacketSignal.Frame("TEST01", "NOCALL", "an invented packet")], 1, 1, 1)));
        Assert.Equal((1, 1), (only.UnitsChecked, only.UnitsGood));
    }

    /// <summary>Two good frames that share a flag bear each other out.</summary>
    [Fact]
    public void Make_twoGoodFrames_areProof()
    {
        Finding only = Assert.Single(Find(PacketSignal.Bits([AtRandom(3), AtRandom(4)], 1, 1, 1)));
        Assert.Equal((2, 2), (only.UnitsChecked, only.UnitsGood));
    }

    /// <summary>An address list that does not end on a whole address, or has no second, is none.</summary>
    [Theory]
    [InlineData(14, true)]
    [InlineData(21, true)]
    [InlineData(70, true)]
    [InlineData(7, false)]
    [InlineData(13, false)]
    [InlineData(15, false)]
    [InlineData(77, false)]
    public void Push_addressesEndOnAWholeOne(int octets, bool addressed)
    {
        byte[] body = [.. Enumerable.Repeat((byte)0x82, octets - 1), 0x61, .. new byte[90]];
        int check = PacketSignal.Check(body);
        FrameReader reader = Read(PacketSignal.Bits([[.. body, (byte)(check & 0xFF), (byte)(check >> 8)]]));
        Assert.Equal((true, addressed), Assert.Single(reader.Frames.Select(static f => (f.Good, f.Addressed))));
    }

    /// <summary>Sent as a signal of 9,600 Bd in a stream of random bits, a frame of random octets by itself is not called packet.</summary>
    [Fact]
    public void Heard_aLoneFrameInRandomBits_isNoPacket()
    {
        int[] around = BitSignals.RandomBits(9_600, 12);
        int[] lone = [.. around, .. PacketSignal.Bits([AtRandom(5)], 1, 1, 1), .. around];
        int[] flagged = [.. around, .. PacketSignal.Bits([AtRandom(5)], 3, 1, 1), .. around];
        Assert.DoesNotContain(SignalKind.Fsk9600, Kinds(lone));
        Assert.Contains(SignalKind.Fsk9600, Kinds(flagged));
    }

    private static IEnumerable<SignalKind> Kinds(int[] bits) =>
        Made.Hear(Rate, bits.Length / RateBd + 1.5, s => s.Add(0.7, PacketSignal.Direct(bits, Rate), 0.3)).Transmissions
            .SelectMany(static t => t.Kinds).Select(static k => k.Kind);

    private static byte[] AtRandom(int seed)
    {
        // The lowest bit of the first octet is set: no address.
        byte[] body = new byte[40];
        new Random(seed).NextBytes(body);
        body[0] |= 1;
        int check = PacketSignal.Check(body);
        return [.. body, (byte)(check & 0xFF), (byte)(check >> 8)];
    }

    private static List<Finding> Find(int[] bits)
    {
        int[] idle = [.. Enumerable.Range(0, 64).Select(static k => k / 2 % 2)];
        int[] all = [.. idle, .. bits, .. idle];
        FrameReader reader = Read(all);
        Stretch stretch = Stretch.Make(new float[(int)(all.Length * Rate / RateBd) + 1_000], Rate, 0);
        return FrameFindings.Make(stretch, SignalKind.Fsk9600, reader, 1, 0, 1, static (_, _) => false);
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
