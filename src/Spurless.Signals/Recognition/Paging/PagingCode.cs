using System.Numerics;

namespace Spurless.Signals.Recognition.Paging;

/// <summary>
/// The codewords of ITU-R M.584-2 Annex 1: 21 bits, 10 check bits of the BCH(31,21) code with the generator
/// x^10 + x^9 + x^8 + x^6 + x^5 + x^3 + 1 (0x769), and one bit of even parity; first bit sent in bit 31.
/// </summary>
internal static class PagingCode
{
    /// <summary>The word before each batch (seen in public copies of the Recommendation; divides by the generator).</summary>
    public const uint Sync = 0x7CD215D8;

    private const uint Generator = 0x769;
    private static readonly byte[] _weights = Weights();

    /// <summary>The remainder of the 31 leading bits by the generator; 0 of a codeword.</summary>
    public static uint Syndrome(uint word)
    {
        uint r = word >> 1;
        for (int bit = 30; bit >= 10; bit--)
        {
            if ((r >> bit & 1) != 0)
            {
                r ^= Generator << (bit - 10);
            }
        }

        return r;
    }

    /// <summary>Whether the word passes its check and its parity as it stands.</summary>
    public static bool IsGood(uint word) => (BitOperations.PopCount(word) & 1) == 0 && Syndrome(word) == 0;

    /// <summary>How many wrong bits its check bits explain: 0, 1 or 2 (parity left aside), else 3.</summary>
    public static int Errors(uint word) => _weights[Syndrome(word)];

    private static byte[] Weights()
    {
        byte[] weights = new byte[1024];
        Array.Fill(weights, (byte)3);
        weights[0] = 0;
        for (int a = 1; a < 32; a++)
        {
            uint sa = Syndrome(1u << a);
            weights[sa] = 1;
            for (int b = 1; b < a; b++)
            {
                uint s = sa ^ Syndrome(1u << b);
                weights[s] = Math.Min(weights[s], (byte)2);
            }
        }

        return weights;
    }
}
