using Spurless.Numerics;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Paths;

/// <summary>
/// One knife-edge obstacle in an otherwise free path: free space plus the diffraction loss <c>J(v)</c> of ITU-R P.526 (the approximation
/// was seen quoted as P.526-14 eq. 31), within 0.13 dB of the exact Fresnel integral from v = -0.78 to 10. Real hills are rounder and lose
/// more.
/// </summary>
public sealed class KnifeEdge : IPathModel
{
    private readonly double _heightM;
    private readonly double _fromTransmitterM;

    private KnifeEdge(double heightM, double fromTransmitterM) => (_heightM, _fromTransmitterM) = (heightM, fromTransmitterM);

    /// <inheritdoc/>
    public string Name => "knife edge";

    /// <summary>A path over a given obstacle.</summary>
    /// <param name="heightM">Its top over the straight line between the antennas in metres; negative where the line clears it.</param>
    /// <param name="fromTransmitterM">Its distance from the transmitting antenna in metres, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the distance not above 0.</exception>
    public static KnifeEdge Over(double heightM, double fromTransmitterM) =>
        new(QuantityText.Finite(heightM, nameof(heightM)), QuantityText.AboveZero(fromTransmitterM, nameof(fromTransmitterM)));

    /// <summary>The obstacle's parameter.</summary>
    /// <param name="heightM">Height over the straight line in metres, negative below it.</param>
    /// <param name="distance1M">Distance from one antenna in metres, above 0.</param>
    /// <param name="distance2M">Distance from the other.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>v = h sqrt((2 / lambda)(1 / d1 + 1 / d2)); 0.39477 for 20 m in the middle of 10 km at 146 MHz.</returns>
    public static double Parameter(double heightM, double distance1M, double distance2M, double frequencyHz)
    {
        double lambda = PhysicalConstants.SpeedOfLight / QuantityText.AboveZero(frequencyHz, nameof(frequencyHz));
        double inverse = 1 / QuantityText.AboveZero(distance1M, nameof(distance1M)) + 1 / QuantityText.AboveZero(
            distance2M, nameof(distance2M));
        return QuantityText.Finite(heightM, nameof(heightM)) * Math.Sqrt(2 / lambda * inverse);
    }

    /// <summary>The diffraction loss.</summary>
    /// <param name="v">The obstacle's parameter.</param>
    /// <returns>J = 6.9 + 20 lg(sqrt((v - 0.1)^2 + 1) + v - 0.1) in dB for v above -0.78, else 0. J(0) = 6.03 dB.</returns>
    public static double LossDb(double v)
    {
        if (QuantityText.Finite(v, nameof(v)) <= -0.78)
        {
            return 0;
        }

        double x = v - 0.1;
        return 6.9 + 20 * Math.Log10(Math.Sqrt(x * x + 1) + x);
    }

    /// <summary>The radius of the first Fresnel zone.</summary>
    /// <param name="distance1M">Distance from one antenna in metres, above 0.</param>
    /// <param name="distance2M">Distance from the other.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>sqrt(lambda d1 d2 / (d1 + d2)) in metres; 71.65 m in the middle of 10 km at 146 MHz (P.526 has the rounded 550 for km and
    /// MHz).</returns>
    public static double FirstFresnelRadiusM(double distance1M, double distance2M, double frequencyHz)
    {
        double lambda = PhysicalConstants.SpeedOfLight / QuantityText.AboveZero(frequencyHz, nameof(frequencyHz));
        double d1 = QuantityText.AboveZero(distance1M, nameof(distance1M));
        double d2 = QuantityText.AboveZero(distance2M, nameof(distance2M));
        return Math.Sqrt(lambda / (1 / d1 + 1 / d2));
    }

    /// <inheritdoc/>
    public PathResult Predict(PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (FreeSpace.Refusal(geometry) is { } refused)
        {
            return PathResult.None(Name, refused);
        }

        double distance = geometry.DistanceM!.Value;
        double rest = distance - _fromTransmitterM;
        double lambda = geometry.WavelengthM;
        if (_fromTransmitterM < lambda || rest < lambda)
        {
            return PathResult.None(
                Name,
                "the obstacle does not stand between the antennas, a wavelength from each; "
                    + "give its distance from the transmitting antenna");
        }

        double v = Parameter(_heightM, _fromTransmitterM, rest, geometry.FrequencyHz);
        double loss = LossDb(v);
        return PathResult.Basic(
            Name,
            new PathBasis.OverOneEdge(distance, loss, v),
            geometry,
            FreeSpace.LossDb(distance, geometry.FrequencyHz) + loss,
            FreeSpace.Remarks(geometry));
    }
}
