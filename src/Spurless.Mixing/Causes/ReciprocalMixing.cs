using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Causes;

/// <summary>Noise of the receiver's local oscillator, impressed on strong carriers beside the channel.</summary>
public static class ReciprocalMixing
{
    /// <summary>What all carriers bring onto the channel: the power sum of <c>P_j + oscillator noise integrated over the bandwidth at f_j - f_r</c>.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="carriers">All carriers at the receiver's first active stage, selectivity included; those on the channel are left out.</param>
    /// <param name="oscillatorNoise">The oscillator's sideband noise.</param>
    /// <returns>The finding, its emitter the one that brings most; null where there is no carrier.</returns>
    /// <remarks>Exact for the course given: mixing carries the oscillator's sidebands onto each carrier, offset for offset. A carrier of -20 dBm, -140 dBc/Hz,
    /// 8 kHz: -120.97 dBm.</remarks>
    public static CauseFinding? OfCarriers(VictimReceiver receiver, IReadOnlyList<StageCarrier> carriers, SidebandNoise oscillatorNoise)
    {
        List<double> levels = [];
        List<double> sigmas = [];
        List<MissingInput> missing = [];
        StageCarrier? most = null;
        double mostLevel = double.NegativeInfinity;
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

            double brings = level + oscillatorNoise.IntegratedDbc(carrier.FrequencyHz - receiver.FrequencyHz, receiver.IfBandwidthHz);
            levels.Add(brings);
            sigmas.Add(carrier.SigmaDb);
            if (brings > mostLevel)
            {
                (most, mostLevel) = (carrier, brings);
            }
        }

        if (most is null)
        {
            return missing.Count == 0 ? null : new CauseFinding
            {
                Cause = CauseKind.ReciprocalMixing,
                Emitter = null,
                LevelDbm = null,
                OverNoiseDb = null,
                SigmaDb = null,
                Missing = missing,
                Says = "Reciprocal mixing: no carrier's level is known.",
            };
        }

        double sum = LevelSum.PowerDbm(levels.ToArray());
        double over = sum - receiver.NoiseFloorDbm;
        List<string> assumed = [];
        if (missing.Count > 0)
        {
            assumed.Add("carriers of unknown level are not in the sum: a lower bound");
        }

        if (oscillatorNoise.Assumption(most.FrequencyHz - receiver.FrequencyHz, "oscillator noise") is { } sentence)
        {
            assumed.Add(sentence);
        }

        return new CauseFinding
        {
            Cause = CauseKind.ReciprocalMixing,
            Emitter = most.Name,
            LevelDbm = sum,
            OverNoiseDb = over,
            SigmaDb = PowerSum.SigmaDb(levels.ToArray(), sigmas.ToArray()),
            Assumed = assumed,
            Missing = missing,
            Says = $"Oscillator noise of the receiver, impressed on the carriers, is {Words.OverNoise(over)}; {most.Name} brings most.",
        };
    }
}
