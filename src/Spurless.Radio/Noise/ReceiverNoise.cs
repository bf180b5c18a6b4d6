namespace Spurless.Radio.Noise;

/// <summary>A receiver's own noise, and the sensitivity that it came from where it did.</summary>
public sealed record ReceiverNoise
{
    private ReceiverNoise(double noiseDbm, double noiseFigureDb) => (NoiseDbm, NoiseFigureDb) = (noiseDbm, noiseFigureDb);

    /// <summary>Noise at the input in the noise bandwidth, in dBm; external noise not included.</summary>
    public double NoiseDbm { get; }

    /// <summary>
    /// Noise figure in dB; below 0 where a sensitivity was given that no receiver can have (<see cref="IsPossible"/>).
    /// </summary>
    public double NoiseFigureDb { get; }

    /// <summary>The level for 12 dB SINAD that it was derived from, in dBm; null where a noise figure was given.</summary>
    public double? FromSensitivityDbm { get; private init; }

    /// <summary>The carrier to noise ratio taken there, in dB; null where a noise figure was given.</summary>
    public double? CarrierToNoiseDb { get; private init; }

    /// <summary>Whether a receiver can have such a noise figure.</summary>
    public bool IsPossible => NoiseFigureDb >= 0;

    /// <summary>The carrier to noise ratio at which a narrow-band FM receiver reaches 12 dB SINAD, where it is not given.</summary>
    /// <param name="channelHz">Raster of the channels in hertz, above 0.</param>
    /// <returns>7.5 dB up to a raster of 12.5 kHz, 5.5 dB above.</returns>
    /// <remarks>Common practice is 5 to 10 dB; the two figures are ours within it.</remarks>
    public static double DefaultCarrierToNoiseDb(long channelHz) => channelHz <= 12_500 ? 7.5 : 5.5;

    /// <summary>The equivalent noise bandwidth of a receiver, where it is not given.</summary>
    /// <param name="channelHz">Raster of the channels in hertz, above 0.</param>
    /// <returns>8 kHz for 12.5 kHz, 12.6 kHz for 20 and 25 kHz, else 0.62 of the raster to the nearest hertz, at least 1 Hz.</returns>
    /// <remarks>Common practice.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The raster is not above 0.</exception>
    public static long DefaultBandwidthHz(long channelHz) => channelHz switch
    {
        <= 0 => throw new ArgumentOutOfRangeException(nameof(channelHz), channelHz, "must be above 0"),
        12_500 => 8_000,
        20_000 or 25_000 => 12_600,
        _ => Math.Max(1, (long)Math.Round(0.62 * channelHz, MidpointRounding.AwayFromZero)),
    };

    /// <summary>From a noise figure.</summary>
    /// <param name="noiseFigureDb">Noise figure in dB.</param>
    /// <param name="bandwidthHz">Equivalent noise bandwidth in hertz, above 0.</param>
    public static ReceiverNoise FromNoiseFigure(double noiseFigureDb, double bandwidthHz) =>
        new(ThermalNoise.FloorDbm(bandwidthHz, noiseFigureDb), noiseFigureDb);

    /// <summary>From the sensitivity for 12 dB SINAD.</summary>
    /// <param name="sensitivityDbm">Level for 12 dB SINAD, in dBm.</param>
    /// <param name="carrierToNoiseDb">Carrier to noise ratio there, in dB (<see cref="DefaultCarrierToNoiseDb"/>).</param>
    /// <param name="bandwidthHz">Equivalent noise bandwidth in hertz, above 0.</param>
    /// <remarks>N = S - CN12. -119 dBm with 8.18 dB in 12 kHz is a noise figure of 6 dB (computed).</remarks>
    public static ReceiverNoise FromSensitivity(double sensitivityDbm, double carrierToNoiseDb, double bandwidthHz)
    {
        double noise = sensitivityDbm - carrierToNoiseDb;
        return new ReceiverNoise(noise, noise - ThermalNoise.FloorDbm(bandwidthHz, 0))
        {
            FromSensitivityDbm = sensitivityDbm,
            CarrierToNoiseDb = carrierToNoiseDb,
        };
    }

    /// <summary>The sensitivity for 12 dB SINAD that goes with a noise level: the converse of <see cref="FromSensitivity"/>.</summary>
    /// <param name="noiseDbm">Noise in the bandwidth, in dBm.</param>
    /// <param name="carrierToNoiseDb">Carrier to noise ratio for 12 dB SINAD, in dB.</param>
    /// <returns>Level in dBm.</returns>
    public static double SensitivityDbm(double noiseDbm, double carrierToNoiseDb) => noiseDbm + carrierToNoiseDb;

    /// <summary>The noise at the receiver's input once the antenna's own noise has come down the chain.</summary>
    /// <param name="externalOverKt0Db">External noise at the antenna connector over k T0 B, in dB; null for none.</param>
    /// <param name="chainGainDb">Gain from the antenna connector to the receiver's input on the channel, in dB; negative for loss.</param>
    /// <param name="bandwidthHz">The bandwidth in which this receiver's noise was taken, in hertz.</param>
    /// <returns>Level in dBm.</returns>
    /// <remarks>
    /// External noise is lost in the chain like any signal and added to the receiver's own in power. The receiver's own figure already
    /// holds the k T0 B of a source at 290 K, which is counted beside the external noise: the sum is too high by at most
    /// 10 lg(1 + 1/F) dB (1.0 dB at a noise figure of 6 dB when the external noise is 0 dB over k T0 B), and by nothing that matters where
    /// external noise is well above it.
    /// </remarks>
    public double WithExternalDbm(double? externalOverKt0Db, double chainGainDb, double bandwidthHz) => externalOverKt0Db is { } external
        ? ThermalNoise.SumDbm(NoiseDbm, ThermalNoise.FloorDbm(bandwidthHz, external) + chainGainDb)
        : NoiseDbm;
}
