using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Causes;

/// <summary>An emitter within the channel itself.</summary>
public static class DirectCause
{
    /// <summary>The emitter's own signal in the receiver, where it can hit the channel: <c>2 |f - f_r| &lt;= B + b</c>.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="carrier">The emitter, its level at the receiver's input.</param>
    /// <returns>The finding with the part of its power inside the receiver's bandwidth; null where it stands outside the channel.</returns>
    public static CauseFinding? OnChannel(VictimReceiver receiver, StageCarrier carrier)
    {
        if (!receiver.HitBy(carrier.FrequencyHz, carrier.BandwidthHz))
        {
            return null;
        }

        long offset = carrier.FrequencyHz - receiver.FrequencyHz;
        double share = InChannelShare.Of(offset, receiver.IfBandwidthHz, [1], [carrier.Spread]);
        double? level = carrier.LevelDbm + (10 * Math.Log10(share));
        double? over = level - receiver.NoiseFloorDbm;
        return new CauseFinding
        {
            Cause = CauseKind.Direct,
            Emitter = carrier.Name,
            LevelDbm = level,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : carrier.SigmaDb,
            Missing = carrier.LevelDbm is null ? [UnknownLevel(carrier)] : [],
            OffsetHz = offset,
        };
    }

    internal static MissingInput UnknownLevel(StageCarrier carrier) => new(MissingKind.LevelHere, carrier.Name);
}
