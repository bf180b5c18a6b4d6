using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Signals.Dsp;

/// <summary>Complex samples as they are recorded: real and imaginary part side by side.</summary>
internal static class Pairs
{
    /// <summary>Takes pairs apart.</summary>
    /// <param name="pairs">Real and imaginary parts in turn.</param>
    /// <param name="re">Gets the real parts.</param>
    /// <param name="im">Gets the imaginary parts.</param>
    public static void Split(ReadOnlySpan<float> pairs, Span<float> re, Span<float> im)
    {
        int count = pairs.Length / 2;
        re = re[..count];
        im = im[..count];

        // A pair is one number of 64 bits, of which each part is a half.
        ReadOnlySpan<Vector256<ulong>> from = MemoryMarshal.Cast<float, Vector256<ulong>>(pairs);
        int n = 0;
        for (int k = 0; k + 1 < from.Length; k += 2, n += 8)
        {
            (Vector256<ulong> low, Vector256<ulong> high) = BitConverter.IsLittleEndian ? (from[k], from[k + 1])
                : (from[k] >>> 32 | from[k] << 32, from[k + 1] >>> 32 | from[k + 1] << 32);
            Vector256.Narrow(low, high).AsSingle().CopyTo(re[n..]);
            Vector256.Narrow(low >>> 32, high >>> 32).AsSingle().CopyTo(im[n..]);
        }

        for (; n < count; n++)
        {
            re[n] = pairs[2 * n];
            im[n] = pairs[2 * n + 1];
        }
    }
}
