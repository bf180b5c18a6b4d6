namespace Spurless.Mixing.Levels;

/// <summary>
/// The third-order intercept from a data sheet's intermodulation response rejection; what the figure is relative to decides.
/// </summary>
public static class IntermodRejection
{
    /// <summary>Wanted level of the EN 300 086 test, dBm (6 dBuV emf in 50 ohm).</summary>
    public const double En300086WantedDbm = -107;

    /// <summary>Co-channel rejection taken for EN 300 086 where none is given, dB.</summary>
    public const double En300086CoChannelDb = 8;

    /// <summary>Rejection stated relative to the sensitivity for 12 dB SINAD: <c>IIP3 = S + 1.5 R + CN12/2</c>.</summary>
    /// <param name="rejectionDb">R in dB.</param>
    /// <param name="sensitivityDbm">S, the sensitivity for 12 dB SINAD, in dBm.</param>
    /// <param name="carrierToNoiseDb">CN12, the carrier to noise ratio at 12 dB SINAD, in dB.</param>
    /// <returns>IIP3 in dBm.</returns>
    /// <remarks>
    /// At the failing point the product 3 P - 2 IIP3 lies CN12 under the wanted signal. From memory of the test's form (TIA-603).
    /// </remarks>
    public static double Tia603(double rejectionDb, double sensitivityDbm, double carrierToNoiseDb) =>
        sensitivityDbm + (1.5 * rejectionDb) + (carrierToNoiseDb / 2);

    /// <summary>Rejection stated relative to the wanted level of the test: <c>IIP3 = P_w + 1.5 R + C/2</c>.</summary>
    /// <param name="rejectionDb">R in dB.</param>
    /// <param name="wantedDbm">P_w in dBm.</param>
    /// <param name="coChannelDb">C, the co-channel rejection, in dB.</param>
    /// <returns>IIP3 in dBm. R = 70 dB with the defaults: +2.0 dBm.</returns>
    /// <remarks>
    /// +-3 dB in C moves the result by +-1.5 dB. Test form of EN 300 086 as read in a public measurement script (secondary).
    /// </remarks>
    public static double En300086(double rejectionDb, double wantedDbm = En300086WantedDbm, double coChannelDb = En300086CoChannelDb) =>
        wantedDbm + (1.5 * rejectionDb) + (coChannelDb / 2);
}
