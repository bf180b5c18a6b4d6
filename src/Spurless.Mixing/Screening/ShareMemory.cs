using Spurless.Mixing.Levels;
using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Screening;

/// <summary>
/// Shares in the channel that were asked for lately, in micro-dB. Emitters of a register are of few kinds and stand on rasters, so of
/// millions of products few differ in what the share depends on. What is not remembered is computed; the figures are the same.
/// </summary>
internal sealed class ShareMemory
{
    private const int Bits = 13;

    private readonly Entry[] _entries = new Entry[1 << Bits];

    /// <summary>The share of a product in the channel, at most 0.</summary>
    public long MicroDbOf(
        long offsetHz, long ifBandwidthHz, ReadOnlySpan<int> coefficients, ReadOnlySpan<EmitterSpread> spreads)
    {
        if (!InChannelShare.IsOneLine(coefficients, spreads, out double variance, out double modulation))
        {
            return MicroDbOf(InChannelShare.Of(offsetHz, ifBandwidthHz, coefficients, spreads));
        }

        ulong hash = (ulong)offsetHz ^ ((ulong)BitConverter.DoubleToInt64Bits(variance) * 0xC2B2AE3D27D4EB4F);
        ref Entry entry = ref _entries[(int)((hash ^ (hash >> 32)) * 0x9E3779B97F4A7C15 >> (64 - Bits))];
        if (entry.IfBandwidthHz != ifBandwidthHz || entry.OffsetHz != offsetHz || entry.Variance != variance
            || entry.Modulation != modulation)
        {
            double share = InChannelShare.OfOneLine(offsetHz, ifBandwidthHz, variance, modulation);
            entry = new Entry(offsetHz, ifBandwidthHz, variance, modulation, MicroDbOf(share));
        }

        return entry.MicroDb;
    }

    private static long MicroDbOf(double share) => (long)Math.Round(10 * Math.Log10(share) * MicroDb.PerDecibel);

    /// <summary>One that was asked for; a bandwidth of 0 is an empty place.</summary>
    private readonly record struct Entry(long OffsetHz, long IfBandwidthHz, double Variance, double Modulation, long MicroDb);
}
