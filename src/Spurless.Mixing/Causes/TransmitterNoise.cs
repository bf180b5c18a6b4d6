namespace Spurless.Mixing.Causes;

/// <summary>Sideband noise of a transmitter on the receiver's channel.</summary>
public static class TransmitterNoise
{
    /// <summary>
    /// Noise that a transmitter puts into the receiver's bandwidth: <c>reach + noise integrated over the bandwidth at the offset + chain
    /// gain</c>.
    /// </summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="source">The transmitter; the reach has its output filter or duplexer on the receiver's channel in it.</param>
    /// <param name="noise">Its sideband noise; null where not known.</param>
    /// <returns>The finding, or null where the transmitter stands on the channel itself (that is <see cref="DirectCause"/>). Without a
    /// figure
    /// within a tenth of the offset, or with a path measured over a tenth of the frequency away, the level is unknown and bounded; without
    /// any
    /// figure the bound is that of the noisiest usual base transmitter.</returns>
    /// <remarks>
    /// Exact for the densities given. Source: powers of independent noise add. A reach of -44 dBm with -145 dBc/Hz in 8 kHz and no chain:
    /// -149.97 dBm.
    /// </remarks>
    public static CauseFinding? OnChannel(VictimReceiver receiver, RadiatedSource source, SidebandNoise? noise)
    {
        if (receiver.HitBy(source.FrequencyHz, source.BandwidthHz))
        {
            return null;
        }

        long offset = receiver.FrequencyHz - source.FrequencyHz;
        List<MissingInput> missing = [.. source.Reach.Missing];
        List<Assumption> assumed = [.. source.Reach.Assumed];
        bool covered = noise?.Covers(offset) == true;
        if (!covered)
        {
            missing.Add(new MissingInput(MissingKind.SidebandNoise, source.Name) { FrequencyHz = offset });
        }

        if (source.Reach.AtMostDbm is not null)
        {
            missing.Add(new MissingInput(MissingKind.PathOnChannel, source.Name) { FrequencyHz = receiver.FrequencyHz });
        }

        if (noise is null)
        {
            assumed.Add(new Assumption(AssumptionKind.UsualNoise) { Of = source.Name });
        }
        else if (noise.AssumedAt(offset, source.Name) is { } assumption)
        {
            assumed.Add(assumption);
        }

        bool known = covered && source.Reach.AtMostDbm is null;
        double? level = known
            ? source.Reach.ReferenceDbm + noise!.IntegratedDbc(offset, receiver.IfBandwidthHz) + receiver.ChainGainDb
            : null;
        double? most = known ? null : (source.Reach.AtMostDbm ?? source.Reach.ReferenceDbm)
            + (noise ?? SidebandNoise.NoisiestUsual).AtMostDbc(offset, receiver.IfBandwidthHz) + receiver.ChainGainDb;
        double? over = level - receiver.NoiseFloorDbm;
        return new CauseFinding
        {
            Cause = CauseKind.TransmitterNoise,
            Emitter = source.Name,
            LevelDbm = level,
            AtMostDbm = most,
            AtMostOverNoiseDb = most - receiver.NoiseFloorDbm,
            BoundByUsual = most is not null && noise is null,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : source.Reach.SigmaDb,
            Assumed = assumed,
            Missing = missing,
            OffsetHz = offset,
            HarmlessDbcPerHz = over is null && source.Reach.AtMostDbm is null ? HarmlessDbcPerHz(receiver, source, -10) : null,
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
