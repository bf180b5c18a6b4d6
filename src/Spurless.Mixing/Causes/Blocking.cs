using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Causes;

/// <summary>Overload: the sum of all carriers compresses a stage.</summary>
/// <remarks>
/// A weak signal loses <c>10 lg(1 + 10^((sum - point)/10))</c> dB: 3.01 dB at the point. Compression goes with the sum of powers: the
/// cubic term's share in the weak signal is <c>(3/2) a3 sum A_j^2</c> whatever the number of carriers. Up to the point this law lies up to
/// 0.5 dB over that of the cubic (which has no meaning beyond); far beyond it is the law of a limiter, 10 dB per decade of power. Tests
/// hold it to simulations of both.
/// </remarks>
public static class Blocking
{
    /// <summary>What the carriers present do together.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="carriers">All carriers at the stage's input, after everything in front of it; those on the channel are left
    /// out.</param>
    /// <param name="point">The stage's blocking point; null where unknown.</param>
    /// <returns>The finding: <see cref="CauseFinding.LevelDbm"/> is the power sum at the stage, <see cref="CauseFinding.OverNoiseDb"/> that
    /// less the point; null where there is no carrier.</returns>
    public static CauseFinding? OfCarriers(VictimReceiver receiver, IReadOnlyList<StageCarrier> carriers, BlockingPoint? point)
    {
        List<double> levels = [];
        List<double> sigmas = [];
        List<MissingInput> missing = [];
        List<Assumption> assumed = [];
        StageCarrier? strongest = null;
        foreach (StageCarrier carrier in carriers)
        {
            if (receiver.HitBy(carrier.FrequencyHz, carrier.BandwidthHz))
            {
                continue;
            }

            if (carrier.LevelDbm is not { } level)
            {
                missing.Add(DirectCause.UnknownLevel(carrier));
                assumed.Add(new Assumption(AssumptionKind.UnknownLevelLeftOut) { Of = carrier.Name });
                continue;
            }

            levels.Add(level);
            sigmas.Add(carrier.SigmaDb);
            if (strongest is null || level > strongest.LevelDbm)
            {
                strongest = carrier;
            }
        }

        if (strongest is null)
        {
            return missing.Count == 0 ? null : Unknown(null, missing);
        }

        double sum = LevelSum.PowerDbm(levels.ToArray());
        if (point is not { } at)
        {
            missing.Add(new MissingInput(MissingKind.Blocking));
            return Unknown(strongest.Name, missing) with { LevelDbm = sum, Assumed = assumed };
        }

        if (at.Assumed is { } assumption)
        {
            assumed.Add(assumption);
        }

        double own = PowerSum.SigmaDb(levels.ToArray(), sigmas.ToArray());
        double over = sum - at.LevelDbm;
        return new CauseFinding
        {
            Cause = CauseKind.Blocking,
            Emitter = strongest.Name,
            LevelDbm = sum,
            OverNoiseDb = over,
            SigmaDb = Math.Sqrt((own * own) + (at.SigmaDb * at.SigmaDb)),
            Assumed = assumed,
            Missing = missing,
        };
    }

    private static CauseFinding Unknown(string? emitter, IReadOnlyList<MissingInput> missing) => new()
    {
        Cause = CauseKind.Blocking,
        Emitter = emitter,
        LevelDbm = null,
        OverNoiseDb = null,
        SigmaDb = null,
        Missing = missing,
    };
}
