namespace Spurless.Mixing.Measurements;

/// <summary>A product of two tones.</summary>
/// <param name="First">Coefficient of the first tone, not 0.</param>
/// <param name="Second">Coefficient of the second tone, not 0.</param>
/// <param name="FrequencyHz">Its frequency in hertz, above 0.</param>
public readonly record struct TwoToneMixture(int First, int Second, long FrequencyHz)
{
    /// <summary>
    /// The product of an order that lies nearest to a channel: 2A-B of 145.1 and 145.15 MHz for 145.05 MHz and order 3. Of two alike the
    /// more balanced one, then the one with more of the first tone.
    /// </summary>
    /// <param name="order">2 to 9.</param>
    /// <param name="firstHz">The first tone in hertz, above 0.</param>
    /// <param name="secondHz">The second tone in hertz, above 0, not the first.</param>
    /// <param name="channelHz">The channel's centre in hertz, above 0.</param>
    public static TwoToneMixture Nearest(int order, long firstHz, long secondHz, long channelHz)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 2);
        TwoToneMixture? best = null;
        for (int a = order - 1; a >= 1; a--)
        {
            int b = order - a;
            foreach ((int first, int second) in ((int, int)[])[(a, b), (a, -b), (-a, b)])
            {
                long frequency = (first * firstHz) + (second * secondHz);
                if (frequency > 0 && (best is not { } kept || Better(first, second, frequency, kept, channelHz)))
                {
                    best = new TwoToneMixture(first, second, frequency);
                }
            }
        }

        return best!.Value; // the sum of both is always above 0
    }

    private static bool Better(int first, int second, long frequencyHz, TwoToneMixture than, long channelHz)
    {
        (long now, long kept) = (Math.Abs(frequencyHz - channelHz), Math.Abs(than.FrequencyHz - channelHz));
        return now < kept || (now == kept && Math.Abs(Math.Abs(first) - Math.Abs(second))
            < Math.Abs(Math.Abs(than.First) - Math.Abs(than.Second)));
    }
}
