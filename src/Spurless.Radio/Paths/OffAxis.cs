using Spurless.Radio.Quantities;

namespace Spurless.Radio.Paths;

/// <summary>How much less an antenna radiates beside its main direction, from its half-power beamwidth alone.</summary>
public static class OffAxis
{
    /// <summary>Beyond the main lobe no antenna is trusted to be weaker than this under its maximum, in dB (common practice).</summary>
    public const double FloorDb = 20;

    /// <summary>The loss beside the main direction.</summary>
    /// <param name="offAxisDegrees">Angle from the main direction in degrees, any sign, wrapped at 360.</param>
    /// <param name="beamwidthDegrees">Half-power beamwidth in degrees, above 0, up to 360; 360 and more is omnidirectional.</param>
    /// <returns>12 (angle / beamwidth)^2 in dB, at most 20 dB; exactly 3 dB at half the beamwidth. 0 for an omnidirectional
    /// antenna.</returns>
    /// <remarks>
    /// A parabola in dB for the main lobe with a floor: common practice (the form of 3GPP's sector antennas, from memory).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The beamwidth is not above 0, or a value is not finite.</exception>
    public static double LossDb(double offAxisDegrees, double beamwidthDegrees)
    {
        if (QuantityText.AboveZero(beamwidthDegrees, nameof(beamwidthDegrees)) >= 360)
        {
            return 0;
        }

        double ratio = Difference(QuantityText.Finite(offAxisDegrees, nameof(offAxisDegrees)), 0) / beamwidthDegrees;
        return Math.Min(12 * ratio * ratio, FloorDb);
    }

    /// <summary>Gain towards a bearing.</summary>
    /// <param name="gainDbi">Gain in the main direction in dBi.</param>
    /// <param name="mainBearingDegrees">Where the antenna points, in degrees from north.</param>
    /// <param name="beamwidthDegrees">Half-power beamwidth in degrees.</param>
    /// <param name="bearingDegrees">Towards where, in degrees from north.</param>
    /// <returns>dBi.</returns>
    public static double GainDbi(double gainDbi, double mainBearingDegrees, double beamwidthDegrees, double bearingDegrees) =>
        gainDbi - LossDb(Difference(bearingDegrees, mainBearingDegrees), beamwidthDegrees);

    /// <summary>The angle between two bearings.</summary>
    /// <returns>0 to 180 degrees.</returns>
    public static double Difference(double aDegrees, double bDegrees)
    {
        double turn = Math.Abs(aDegrees - bDegrees) % 360;
        return turn > 180 ? 360 - turn : turn;
    }

    /// <summary>The opposite bearing.</summary>
    /// <returns>0 to under 360 degrees.</returns>
    public static double Opposite(double bearingDegrees) => Normalised(bearingDegrees + 180);

    /// <summary>A bearing from 0 to under 360 degrees.</summary>
    internal static double Normalised(double degrees)
    {
        double turn = degrees % 360;
        turn = turn < 0 ? turn + 360 : turn;

        // A tiny negative angle plus 360 rounds to 360.
        return turn >= 360 ? 0 : turn;
    }
}
