namespace Spurless.Mixing.Causes;

/// <summary>Sideband noise of a transmitter on the receiver's channel.</summary>
public static class TransmitterNoise
{
    /// <summary>Noise that a transmitter puts into the receiver's bandwidth: <c>reach + noise integrated over the bandwidth at the offset + chain gain</c>.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="source">The transmitter; the reach has its output filter or duplexer on the receiver's channel in it.</param>
    /// <param name="noise">Its sideband noise; null where not known.</param>
    /// <returns>The finding (unknown without a figure or a path), or null where the transmitter stands on the channel itself (that is
    /// <see cref="DirectCause"/>).</returns>
    /// <remarks>Exact for the course given. Source: powers of independent noise add. A reach of -44 dBm with -145 dBc/Hz in 8 kHz and no chain: -149.97 dBm.</remarks>
    public static CauseFinding? OnChannel(VictimReceiver receiver, RadiatedSource source, SidebandNoise? noise)
    {
        if (receiver.HitBy(source.FrequencyHz, source.BandwidthHz))
        {
            return null;
        }

        long offset = receiver.FrequencyHz - source.FrequencyHz;
        List<MissingInput> missing = [.. source.Reach.Missing];
        List<string> assumed = [.. source.Reach.Assumed];
        if (noise is null)
        {
            missing.Add(new MissingInput(
                $"sideband noise of {source.Name} at {Words.Offset(offset)}",
                "measure its noise density there behind a notch filter for its carrier; or hear whether the noise in this receiver rises when it is switched on"));
        }
        else if (noise.Assumption(offset, $"sideband noise of {source.Name}") is { } sentence)
        {
            assumed.Add(sentence);
        }

        double? level = source.Reach.ReferenceDbm + noise?.IntegratedDbc(offset, receiver.IfBandwidthHz) + receiver.ChainGainDb;
        double? over = level - receiver.NoiseFloorDbm;
        return new CauseFinding
        {
            Cause = CauseKind.TransmitterNoise,
            Emitter = source.Name,
            LevelDbm = level,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : source.Reach.SigmaDb,
            Assumed = assumed,
            Missing = missing,
            Says = over is { } x
                ? $"Sideband noise of {source.Name} on the channel is {Words.OverNoise(x)}; no filter at the receiver removes it."
                : HarmlessDbcPerHz(receiver, source, -10) is { } limit
                    ? $"Sideband noise of {source.Name} on the channel is not known; it is harmless below {limit.ToString("0", System.Globalization.CultureInfo.InvariantCulture)} dBc/Hz at {Words.Offset(offset)}."
                    : $"Sideband noise of {source.Name} on the channel is not known.",
        };
    }

    /// <summary>The density that a transmitter's noise must not exceed.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="source">The transmitter.</param>
    /// <param name="overNoiseDb">How far over the noise floor it may lie, in dB; -10 costs 0.41 dB of sensitivity.</param>
    /// <returns>Density at the channel's offset, flat over the bandwidth, in dBc/Hz; null where the path is unknown.</returns>
    public static double? HarmlessDbcPerHz(VictimReceiver receiver, RadiatedSource source, double overNoiseDb) =>
        receiver.NoiseFloorDbm + overNoiseDb - receiver.ChainGainDb - (10 * Math.Log10(receiver.IfBandwidthHz)) - source.Reach.ReferenceDbm;
}
