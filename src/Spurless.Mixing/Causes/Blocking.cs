using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Causes;

/// <summary>Overload: the sum of all carriers compresses a stage.</summary>
public static class Blocking
{
    /// <summary>Loss of gain for a weak signal.</summary>
    /// <param name="sumDbm">Power sum of the carriers at the stage's input, in dBm.</param>
    /// <param name="point">Where it is 3 dB.</param>
    /// <returns><c>10 lg(1 + 10^((sum - point)/10))</c> in dB: 3.01 dB at the point.</returns>
    /// <remarks>Compression goes with the sum of powers: the cubic term's share in the weak signal is <c>(3/2) a3 sum A_j^2</c> whatever the number
    /// of carriers. Up to the point this law lies up to 0.5 dB over that of the cubic (which has no meaning beyond); far beyond it is the law of a
    /// limiter, 10 dB per decade of power. Tests hold it to simulations of both.</remarks>
    public static double DesenseDb(double sumDbm, BlockingPoint point) => ProductEffects.NoiseRiseDb(sumDbm - point.LevelDbm);

    /// <summary>What the carriers present do together.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="carriers">All carriers at the stage's input, after everything in front of it; those on the channel are left out.</param>
    /// <param name="point">The stage's blocking point; null where unknown.</param>
    /// <returns>The finding: <see cref="CauseFinding.LevelDbm"/> is the power sum at the stage, <see cref="CauseFinding.OverNoiseDb"/> that less the point;
    /// null where there is no carrier.</returns>
    public static CauseFinding? OfCarriers(VictimReceiver receiver, IReadOnlyList<StageCarrier> carriers, BlockingPoint? point)
    {
        List<double> levels = [];
        List<double> sigmas = [];
        List<MissingInput> missing = [];
        List<string> assumed = [];
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
                assumed.Add($"{carrier.Name}, whose level is not known, is not in the sum: a lower bound");
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
            return missing.Count == 0 ? null : Unknown(null, missing, "Overload: no carrier's level is known.");
        }

        double sum = LevelSum.PowerDbm(levels.ToArray());
        if (point is not { } at)
        {
            missing.Add(new MissingInput(
                "blocking of this receiver",
                "its data sheet; or raise an unmodulated carrier some MHz beside the channel until the noise rises, or a weak signal falls, by 3 dB"));
            return Unknown(strongest.Name, missing, $"All carriers together bring {Words.Dbm(sum)}; where the receiver blocks is not known.") with { LevelDbm = sum, Assumed = assumed };
        }

        if (at.Assumed is { } sentence)
        {
            assumed.Add(sentence);
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
            Says = $"All carriers together bring {Words.Dbm(sum)}, {Words.Db(Math.Abs(over))} {(over >= 0 ? "over" : "under")} the blocking point: "
                + $"{Words.Db(DesenseDb(sum, at))} of sensitivity lost; {strongest.Name} is the strongest.",
        };
    }

    private static CauseFinding Unknown(string? emitter, IReadOnlyList<MissingInput> missing, string says) => new()
    {
        Cause = CauseKind.Blocking,
        Emitter = emitter,
        LevelDbm = null,
        OverNoiseDb = null,
        SigmaDb = null,
        Missing = missing,
        Says = says,
    };
}
