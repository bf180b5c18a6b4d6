namespace Spurless.Mixing.Causes;

/// <summary>A carrier whose envelope moves impresses it on a strong carrier near the channel: <c>B + W - W</c> of the cubic term.</summary>
/// <remarks>
/// Beside B the cubic term makes <c>(3/2) a3 B |w|^2</c>, w the complex envelope of W. For an envelope like noise the moving part of |w|^2
/// has the power of its mean squared, so that all its sidebands together lie at <c>P_B + 2 P_W - 2 IIP3 + 6.02 dB</c>; of a flat spectrum b
/// wide they form a triangle over +-b about B (the spectrum convolved with itself). Full amplitude modulation is within 0.3 dB of that in
/// power. A constant envelope (FM, FSK) makes none. Product search doesn't find it: its coefficients cancel.
/// </remarks>
public static class CrossModulation
{
    /// <summary>What a pair of carriers brings onto the channel.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="near">The strong carrier B near the channel: our own transmitter, mostly.</param>
    /// <param name="moving">The carrier W; nothing comes of it unless <see cref="StageCarrier.EnvelopeMoves"/>.</param>
    /// <param name="iip3Dbm">Third-order intercept of the stage in dBm; both carriers' levels are at its input.</param>
    /// <param name="iip3SigmaDb">One sigma of it in dB.</param>
    /// <param name="iip3Assumed">Whether it was assumed.</param>
    /// <param name="referralDb">Gain from the stage's input to the receiver's input on the channel, in dB; 0 for the receiver
    /// itself.</param>
    /// <returns>The finding; null where the sidebands don't reach the channel, B stands on it or the envelope is constant.</returns>
    public static CauseFinding? OfPair(
        VictimReceiver receiver,
        StageCarrier near,
        StageCarrier moving,
        double iip3Dbm,
        double iip3SigmaDb,
        bool iip3Assumed,
        double referralDb = 0)
    {
        if (!moving.EnvelopeMoves || ReferenceEquals(near, moving) || moving.BandwidthHz == 0
            || receiver.HitBy(near.FrequencyHz, near.BandwidthHz) || !CanReach(receiver, near, moving.BandwidthHz))
        {
            return null;
        }

        long offset = Math.Abs(near.FrequencyHz - receiver.FrequencyHz);
        List<MissingInput> missing = [];
        foreach (StageCarrier carrier in (ReadOnlySpan<StageCarrier>)[near, moving])
        {
            if (carrier.LevelDbm is null)
            {
                missing.Add(DirectCause.UnknownLevel(carrier));
            }
        }

        double share = Math.Max(TriangleShare(offset, receiver.IfBandwidthHz, moving.BandwidthHz), Spread.InChannelShare.Floor);
        double? level = near.LevelDbm + (2 * moving.LevelDbm) - (2 * iip3Dbm) + (20 * Math.Log10(2)) + (10 * Math.Log10(share))
            + referralDb;
        double? over = level - receiver.NoiseFloorDbm;
        return new CauseFinding
        {
            Cause = CauseKind.CrossModulation,
            Emitter = moving.Name,
            LevelDbm = level,
            OverNoiseDb = over,
            SigmaDb = level is null ? null : Math.Sqrt(
                (near.SigmaDb * near.SigmaDb) + (4 * moving.SigmaDb * moving.SigmaDb) + (4 * iip3SigmaDb * iip3SigmaDb)),
            Assumed = iip3Assumed
                ? [new Assumption(AssumptionKind.EnvelopeTakenFlat), new Assumption(AssumptionKind.InterceptOfCrossModulation)]
                : [new Assumption(AssumptionKind.EnvelopeTakenFlat)],
            Missing = missing,
            Modulated = near.Name,
        };
    }

    /// <summary>
    /// Whether a modulation of this width, moved onto a carrier, reaches the channel: <c>2 |f_n - f_r| &lt;= B + b_n + 2 b_m</c>.
    /// </summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="near">The carrier that is modulated.</param>
    /// <param name="movingWidthHz">Occupied bandwidth of the emitter whose envelope moves, in hertz.</param>
    public static bool CanReach(VictimReceiver receiver, StageCarrier near, long movingWidthHz) =>
        2 * Math.Abs(near.FrequencyHz - receiver.FrequencyHz) <= receiver.ChannelHz + near.BandwidthHz + (2 * movingWidthHz);

    /// <summary>Share of a triangle over +-width that falls into a band.</summary>
    /// <param name="offsetHz">Centre of the band from the triangle's peak, in hertz.</param>
    /// <param name="bandHz">Width of the band in hertz.</param>
    /// <param name="widthHz">Half the foot of the triangle, in hertz, above 0.</param>
    /// <returns>0 to 1, exact.</returns>
    internal static double TriangleShare(double offsetHz, double bandHz, double widthHz) =>
        Below((offsetHz + (bandHz / 2)) / widthHz) - Below((offsetHz - (bandHz / 2)) / widthHz);

    private static double Below(double x) =>
        x <= -1 ? 0 : x >= 1 ? 1 : x < 0 ? (1 + x) * (1 + x) / 2 : 1 - ((1 - x) * (1 - x) / 2);
}
