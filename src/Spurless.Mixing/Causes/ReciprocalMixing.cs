using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Causes;

/// <summary>Noise of the receiver's local oscillator, impressed on strong carriers beside the channel.</summary>
public static class ReciprocalMixing
{
    /// <summary>
    /// What all carriers bring onto the channel: the power sum of <c>P_j + oscillator noise integrated over the bandwidth at f_j - f_r</c>.
    /// </summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="carriers">All carriers at the receiver's first active stage, selectivity included; those on the channel are left
    /// out.</param>
    /// <param name="oscillatorNoise">The oscillator's sideband noise.</param>
    /// <returns>The finding, its emitter the one that brings most; null where there is no carrier. Carriers at offsets more than a tenth
    /// beside
    /// what was stated are in the bound only, which then stands beside the sum of the others.</returns>
    /// <remarks>Exact for the densities given: mixing carries the oscillator's sidebands onto each carrier, offset for offset. A carrier of
    /// -20 dBm, -140 dBc/Hz, 8 kHz: -120.97 dBm.</remarks>
    public static CauseFinding? OfCarriers(VictimReceiver receiver, IReadOnlyList<StageCarrier> carriers, SidebandNoise oscillatorNoise)
    {
        List<double> levels = [];
        List<double> sigmas = [];
        List<double> bounds = [];
        List<MissingInput> missing = [];
        StageCarrier? most = null;
        double mostLevel = double.NegativeInfinity;
        StageCarrier? beyond = null;
        long beyondHz = 0;
        foreach (StageCarrier carrier in carriers)
        {
            if (receiver.HitBy(carrier.FrequencyHz, carrier.BandwidthHz))
            {
                continue;
            }

            if (carrier.LevelDbm is not { } level)
            {
                missing.Add(DirectCause.UnknownLevel(carrier));
                continue;
            }

            long offset = carrier.FrequencyHz - receiver.FrequencyHz;
            if (!oscillatorNoise.Covers(offset))
            {
                double bound = level + oscillatorNoise.AtMostDbc(offset, receiver.IfBandwidthHz);
                (beyond, beyondHz) = bounds.Count == 0 || bound > bounds.Max() ? (carrier, offset) : (beyond, beyondHz);
                bounds.Add(bound);
                continue;
            }

            double brings = level + oscillatorNoise.IntegratedDbc(offset, receiver.IfBandwidthHz);
            levels.Add(brings);
            sigmas.Add(carrier.SigmaDb);
            if (brings > mostLevel)
            {
                (most, mostLevel) = (carrier, brings);
            }
        }

        if (beyond is not null)
        {
            missing.Add(new MissingInput(MissingKind.OscillatorNoise) { FrequencyHz = beyondHz });
        }

        double? atMost = bounds.Count > 0 ? LevelSum.PowerDbm([.. levels, .. bounds]) : null;
        if (most is null)
        {
            return missing.Count == 0 ? null : new CauseFinding
            {
                Cause = CauseKind.ReciprocalMixing,
                Emitter = beyond?.Name,
                LevelDbm = null,
                AtMostDbm = atMost,
                AtMostOverNoiseDb = atMost - receiver.NoiseFloorDbm,
                OverNoiseDb = null,
                SigmaDb = null,
                Missing = missing,
            };
        }

        double sum = LevelSum.PowerDbm(levels.ToArray());
        double over = sum - receiver.NoiseFloorDbm;
        List<Assumption> assumed = [];
        if (missing.Exists(static m => m.Kind == MissingKind.LevelHere))
        {
            assumed.Add(new Assumption(AssumptionKind.UnknownLevelsLeftOut));
        }

        if (oscillatorNoise.AssumedAt(most.FrequencyHz - receiver.FrequencyHz, null) is { } assumption)
        {
            assumed.Add(assumption);
        }

        return new CauseFinding
        {
            Cause = CauseKind.ReciprocalMixing,
            Emitter = most.Name,
            LevelDbm = sum,
            AtMostDbm = atMost,
            AtMostOverNoiseDb = atMost - receiver.NoiseFloorDbm,
            OverNoiseDb = over,
            SigmaDb = PowerSum.SigmaDb(levels.ToArray(), sigmas.ToArray()),
            Assumed = assumed,
            Missing = missing,
        };
    }
}
