using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Causes;

/// <summary>A harmonic that an emitter radiates.</summary>
/// <param name="Times">2 or more.</param>
/// <param name="Dbc">Level relative to the carrier at the transmitter's output (in front of its output filter), in dBc.</param>
public readonly record struct HarmonicLevel(int Times, double Dbc);

/// <summary>Harmonics that emitters themselves radiate, on the receiver's channel.</summary>
public static class HarmonicCause
{
    /// <summary>Highest harmonic looked for.</summary>
    public const int MaxTimes = 9;

    /// <summary>The harmonic of an emitter that can hit the channel: <c>2 |h f - f_r| &lt;= B + h b</c>.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="source">The emitter.</param>
    /// <param name="harmonics">What is known of its harmonics.</param>
    /// <returns>The finding, unknown where the figure for that harmonic or the path is, with a bound where the path was measured over a
    /// tenth
    /// of the frequency away; null where none hits.</returns>
    /// <remarks>Level: <c>reach + dBc + chain gain</c>, times the share of the h-fold spread inside the receiver's bandwidth. (A harmonic
    /// that the receiver makes of the carrier is a product of one emitter in the product search.)</remarks>
    public static CauseFinding? OnChannel(VictimReceiver receiver, RadiatedSource source, ReadOnlySpan<HarmonicLevel> harmonics)
    {
        for (int times = 2; times <= MaxTimes; times++)
        {
            long frequency = times * source.FrequencyHz;
            if (!receiver.HitBy(frequency, times * source.BandwidthHz))
            {
                continue;
            }

            double? dbc = null;
            foreach (HarmonicLevel harmonic in harmonics)
            {
                if (harmonic.Times == times)
                {
                    dbc = harmonic.Dbc;
                }
            }

            List<MissingInput> missing = [.. source.Reach.Missing];
            if (dbc is null)
            {
                missing.Add(new MissingInput(MissingKind.Harmonic, source.Name) { Times = times, FrequencyHz = frequency });
            }

            double share = InChannelShare.Of(frequency - receiver.FrequencyHz, receiver.IfBandwidthHz, [times], [source.Spread]);
            if (source.Reach.AtMostDbm is not null)
            {
                missing.Add(new MissingInput(MissingKind.PathOnChannel, source.Name) { FrequencyHz = frequency });
            }

            double? most = source.Reach.AtMostDbm + dbc + receiver.ChainGainDb + (10 * Math.Log10(share));
            double? level = source.Reach.AtMostDbm is not null
                ? null
                : source.Reach.ReferenceDbm + dbc + receiver.ChainGainDb + (10 * Math.Log10(share));
            double? over = level - receiver.NoiseFloorDbm;
            return new CauseFinding
            {
                Cause = CauseKind.Harmonic,
                Emitter = source.Name,
                LevelDbm = level,
                AtMostDbm = most,
                AtMostOverNoiseDb = most - receiver.NoiseFloorDbm,
                OverNoiseDb = over,
                SigmaDb = level is null ? null : source.Reach.SigmaDb,
                Assumed = source.Reach.Assumed,
                Missing = missing,
                Harmonic = (times, frequency),
            };
        }

        return null;
    }
}
