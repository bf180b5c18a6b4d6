namespace Spurless.Mixing.Causes;

/// <summary>A strong carrier on a neighbouring channel, as far as it comes through the receiver's own filter.</summary>
public static class AdjacentChannel
{
    /// <summary>
    /// What a carrier beside the channel does: it acts like a signal of <c>P - selectivity - CN12</c> on the channel.
    /// </summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="carrier">The emitter, its level at the receiver's input.</param>
    /// <param name="selectivity">The receiver's selectivity.</param>
    /// <param name="carrierToNoiseDb">CN12, the carrier to noise ratio at 12 dB SINAD, in dB.</param>
    /// <returns>The finding; null on the channel itself (that is <see cref="DirectCause"/>) and where the selectivity says
    /// nothing.</returns>
    /// <remarks>
    /// The test of adjacent-channel rejection of TIA-603 (from memory): a wanted signal 3 dB over the sensitivity S falls back to 12 dB
    /// SINAD when
    /// the carrier stands at S + selectivity; what comes through then equals the noise N = S - CN12, so it is the carrier less selectivity
    /// less
    /// CN12. -40 dBm, 70 dB, CN12 5.5 dB: -115.5 dBm. What the transmitter itself puts into the neighbouring channel is its sideband noise.
    /// </remarks>
    public static CauseFinding? OfCarrier(
        VictimReceiver receiver, StageCarrier carrier, AdjacentSelectivity selectivity, double carrierToNoiseDb)
    {
        long offset = carrier.FrequencyHz - receiver.FrequencyHz;
        if (receiver.HitBy(carrier.FrequencyHz, carrier.BandwidthHz) || !selectivity.Covers(offset))
        {
            return null;
        }

        double? level = carrier.LevelDbm - selectivity.AtDb(offset) - carrierToNoiseDb;
        return new CauseFinding
        {
            Cause = CauseKind.AdjacentChannel,
            Emitter = carrier.Name,
            LevelDbm = level,
            OverNoiseDb = level - receiver.NoiseFloorDbm,
            SigmaDb = level is null ? null : Math.Sqrt((carrier.SigmaDb * carrier.SigmaDb) + (selectivity.SigmaDb * selectivity.SigmaDb)),
            Assumed = selectivity.AssumedAt(offset) is { } assumption ? [assumption] : [],
            Missing = carrier.LevelDbm is null ? [DirectCause.UnknownLevel(carrier)] : [],
            OffsetHz = offset,
        };
    }
}
