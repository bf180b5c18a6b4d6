using Spurless.Radio.Quantities;

namespace Spurless.Radio.Paths;

/// <summary>How much less an antenna radiates above and below its main direction.</summary>
public static class VerticalPattern
{
    /// <summary>Half-power width in the vertical of an antenna that radiates alike all round.</summary>
    /// <param name="gainDbi">Its gain in dBi.</param>
    /// <returns><c>107.6 * 10^(-0.1 G)</c> degrees, at most 180. 8.15 dBi (6 dBd): 16.5 degrees.</returns>
    /// <remarks>Source: Recommendation ITU-R F.1336, reference patterns of omnidirectional antennas (from memory).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The gain is not finite.</exception>
    public static double BeamwidthDegrees(double gainDbi) =>
        Math.Min(180, 107.6 * Math.Pow(10, -0.1 * QuantityText.Finite(gainDbi, nameof(gainDbi))));

    /// <summary>The loss towards an elevation.</summary>
    /// <param name="elevationDegrees">Elevation of the other end seen from the antenna, in degrees, negative under the horizon.</param>
    /// <param name="tiltDegrees">How far the main lobe points under the horizon, in degrees, negative for upwards.</param>
    /// <param name="beamwidthDegrees">Half-power width in the vertical in degrees, above 0.</param>
    /// <returns><see cref="OffAxis.LossDb"/> of the angle between, in dB: 3 dB at half the width, 20 dB at most.</returns>
    public static double LossDb(double elevationDegrees, double tiltDegrees, double beamwidthDegrees) =>
        OffAxis.LossDb(elevationDegrees + tiltDegrees, beamwidthDegrees);
}
