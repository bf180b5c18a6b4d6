using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// The first and cheapest question of the fast search: which of these prefixes can meet any tail at all? Frequencies are taken modulo 2^32
/// Hz, so this is a filter that lets too many pass but never too few; the exact 64-bit test follows. Two twins, one by SIMD gather and one
/// scalar, give the same answer.
/// </summary>
internal static class BitmapScan
{
    /// <summary>Most carriers in one call.</summary>
    public const int Block = 256;

    /// <summary>Whether this processor has the instructions of the SIMD twin.</summary>
    public static bool VectorSupported => Avx2.IsSupported;

    /// <summary>Finds the carriers x for which the bit of <c>start + step * f_x</c> is set.</summary>
    /// <param name="carriers">f_x in hertz modulo 2^32; at most <see cref="Block"/>.</param>
    /// <param name="start">Frequency of the prefix so far, modulo 2^32.</param>
    /// <param name="step">Coefficient of the carrier, modulo 2^32.</param>
    /// <param name="map">2^(32-shift) bits.</param>
    /// <param name="shift">log2 of a bin's width in hertz, 10 to 26.</param>
    /// <param name="hits">Gets the positions in <paramref name="carriers"/>, ascending; at least as long.</param>
    /// <param name="vector">Whether to use the SIMD twin.</param>
    /// <returns>Number of hits.</returns>
    public static int Find(
        ReadOnlySpan<uint> carriers, uint start, uint step, ReadOnlySpan<uint> map, int shift, Span<int> hits, bool vector) =>
        vector ? Vectorised(carriers, start, step, map, shift, hits) : Scalar(carriers, 0, start, step, map, shift, hits, 0);

    private static int Scalar(
        ReadOnlySpan<uint> carriers, int from, uint start, uint step, ReadOnlySpan<uint> map, int shift, Span<int> hits, int count)
    {
        for (int i = from; i < carriers.Length; i++)
        {
            uint bin = unchecked(start + (step * carriers[i])) >> shift;
            if ((map[(int)(bin >> 5)] >> (int)(bin & 31) & 1) != 0)
            {
                hits[count++] = i;
            }
        }

        return count;
    }

    private static unsafe int Vectorised(
        ReadOnlySpan<uint> carriers, uint start, uint step, ReadOnlySpan<uint> map, int shift, Span<int> hits)
    {
        int count = 0;
        int i = 0;
        Vector256<uint> starts = Vector256.Create(start);
        Vector256<uint> steps = Vector256.Create(step);
        Vector256<uint> top = Vector256.Create(31u);
        Vector128<uint> shiftCount = Vector128.CreateScalar((uint)shift);
        ref uint carrier = ref MemoryMarshal.GetReference(carriers);
        fixed (uint* words = map)
        {
            for (; i + 16 <= carriers.Length; i += 16)
            {
                uint low = Eight(Vector256.LoadUnsafe(ref carrier, (nuint)i), starts, steps, top, shiftCount, words);
                uint high = Eight(Vector256.LoadUnsafe(ref carrier, (nuint)(i + 8)), starts, steps, top, shiftCount, words);
                count = Spread(low | high << 8, i, hits, count);
            }

            if (i + 8 <= carriers.Length)
            {
                count = Spread(Eight(Vector256.LoadUnsafe(ref carrier, (nuint)i), starts, steps, top, shiftCount, words), i, hits, count);
                i += 8;
            }
        }

        return Scalar(carriers, i, start, step, map, shift, hits, count);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static unsafe uint Eight(
        Vector256<uint> carriers, Vector256<uint> starts, Vector256<uint> steps, Vector256<uint> top, Vector128<uint> shift, uint* words)
    {
        Vector256<uint> bins = Avx2.ShiftRightLogical(starts + (steps * carriers), shift);
        Vector256<uint> gathered = Avx2.GatherVector256(words, Avx2.ShiftRightLogical(bins, 5).AsInt32(), 4);
        // The wanted bit is moved to the sign, and the signs are collected.
        Vector256<uint> signs = Avx2.ShiftLeftLogicalVariable(gathered, Vector256.AndNot(top, bins));
        return signs.ExtractMostSignificantBits();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Spread(uint mask, int offset, Span<int> hits, int count)
    {
        while (mask != 0)
        {
            hits[count++] = offset + BitOperations.TrailingZeroCount(mask);
            mask &= mask - 1;
        }

        return count;
    }
}
