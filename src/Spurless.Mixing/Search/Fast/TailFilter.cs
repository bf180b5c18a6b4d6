using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// Which entries of a run of the index can a prefix meet: those near enough, modulo 2^32 Hz, whose emitter ranks behind the prefix's last.
/// A filter that lets too many pass but never too few. Two twins, SIMD and scalar, give the same answer.
/// </summary>
internal static class TailFilter
{
    /// <summary>Most entries in one call.</summary>
    public const int Block = 256;

    /// <summary>The SIMD twin reads so many places beyond a run's end.</summary>
    public const int Beyond = 8;

    /// <summary>Finds the entries.</summary>
    /// <param name="table">The index.</param>
    /// <param name="from">First entry of the run.</param>
    /// <param name="to">One behind the last; at most <see cref="Block"/> more.</param>
    /// <param name="frequency">The prefix's frequency modulo 2^32.</param>
    /// <param name="half">Half its width in hertz, rounded up; with the greatest reach in the table under 2^30.</param>
    /// <param name="rank">The last rank of the prefix.</param>
    /// <param name="hits">Gets the places of the entries; at least as long as the run.</param>
    /// <param name="vector">Whether to use the SIMD twin.</param>
    /// <returns>Number of hits.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Find(TailTable table, int from, int to, uint frequency, uint half, int rank, int[] hits, bool vector) =>
        vector ? Vectorised(table, from, to, frequency, half, rank, hits) : Scalar(table, from, to, frequency, half, rank, hits);

    private static int Scalar(TailTable table, int from, int to, uint frequency, uint half, int rank, int[] hits)
    {
        int count = 0;
        for (int i = from; i < to; i++)
        {
            uint far = half + table.Reach[i];
            if (unchecked(frequency - table.Value[i] + far) <= 2 * far && table.Rank[i] > rank)
            {
                hits[count++] = i;
            }
        }

        return count;
    }

    private static int Vectorised(TailTable table, int from, int to, uint frequency, uint half, int rank, int[] hits)
    {
        int count = 0;
        ref uint value = ref MemoryMarshal.GetArrayDataReference(table.Value);
        ref uint reach = ref MemoryMarshal.GetArrayDataReference(table.Reach);
        ref int ranks = ref MemoryMarshal.GetArrayDataReference(table.Rank);
        Vector256<uint> halves = Vector256.Create(half);
        Vector256<uint> centre = Vector256.Create(frequency);
        Vector256<int> last = Vector256.Create(rank);
        for (int i = from; i < to; i += 8)
        {
            Vector256<uint> far = halves + Vector256.LoadUnsafe(ref reach, (nuint)i);
            Vector256<uint> distance = centre - Vector256.LoadUnsafe(ref value, (nuint)i) + far;
            Vector256<uint> near = Vector256.LessThanOrEqual(distance, far + far);
            Vector256<int> behind = Vector256.GreaterThan(Vector256.LoadUnsafe(ref ranks, (nuint)i), last);
            uint mask = (near & behind.AsUInt32()).ExtractMostSignificantBits();
            // What stands beyond the run is another's.
            int left = to - i;
            mask &= left >= 8 ? 0xff : (1u << left) - 1;
            while (mask != 0)
            {
                hits[count++] = i + BitOperations.TrailingZeroCount(mask);
                mask &= mask - 1;
            }
        }

        return count;
    }
}
