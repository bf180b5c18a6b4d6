namespace Spurless.Mixing.Causes;

/// <summary>The power at a stage's input, of all carriers together, that lowers its gain for weak signals by 3 dB.</summary>
/// <param name="LevelDbm">That power in dBm.</param>
/// <param name="SigmaDb">One sigma in dB.</param>
/// <param name="Assumed">What was assumed, or null for a stated figure.</param>
public readonly record struct BlockingPoint(double LevelDbm, double SigmaDb, Assumption? Assumed)
{
    /// <summary>The blocking point of a stage that is compressed by its cubic term lies this far under its IIP3, in dB.</summary>
    /// <remarks>Gain for a weak signal beside one of amplitude A: <c>a1 + (3/2) a3 A^2 = a1 (1 - 2 A^2/A_IIP3^2)</c>; -3 dB at
    /// <c>A^2 = A_IIP3^2 (1 - 10^(-3/20))/2</c>. Multinomial expansion.</remarks>
    public static readonly double UnderIip3Db = -10 * Math.Log10((1 - Math.Pow(10, -3.0 / 20)) / 2);

    /// <summary>From a receiver's blocking figure.</summary>
    /// <param name="ratioDb">Blocking in dB: how far over the reference a single unmodulated signal may lie.</param>
    /// <param name="referenceDbm">What the figure is relative to, in dBm: the wanted level of the test, usually the sensitivity.</param>
    /// <returns>The point, <c>reference + ratio</c>, sigma 3 dB as for a stated intercept.</returns>
    /// <remarks>Form of the test, from memory (EN 300 086, TIA-603): the wanted signal then falls by 3 dB or its SINAD by as much as a 3 dB
    /// rise of the noise costs. A figure so measured has the oscillator's noise at the test's offset in it.</remarks>
    public static BlockingPoint FromRatio(double ratioDb, double referenceDbm) => new(referenceDbm + ratioDb, 3, null);

    /// <summary>From a stage's third-order intercept, for want of a figure.</summary>
    /// <param name="iip3Dbm">IIP3 in dBm.</param>
    /// <param name="iip3SigmaDb">One sigma of it in dB.</param>
    /// <returns>The point, 8.35 dB under it, marked as assumed.</returns>
    public static BlockingPoint FromIntercept(double iip3Dbm, double iip3SigmaDb) =>
        new(iip3Dbm - UnderIip3Db, Math.Sqrt((iip3SigmaDb * iip3SigmaDb) + 9), new Assumption(AssumptionKind.BlockingFromIntercept));
}
