using System.Globalization;
using Spurless.Numerics;

namespace Spurless.Radio.Paths;

/// <summary>
/// Free space: <c>L = 20 lg d + 20 lg f - 147.552</c> (ITU-R P.525 from memory, there with the rounded constant 32.4 for km and MHz, which
/// is 0.048 dB less). Exact in the far field without ground or obstacles. Nearer than one wavelength, or than 2 D^2 / lambda of an
/// antenna whose size is known, it refuses: there the isolation of antennas on one structure is to be used.
/// </summary>
public sealed class FreeSpace : IPathModel
{
    /// <summary>The one instance.</summary>
    public static readonly FreeSpace Model = new();

    private FreeSpace()
    {
    }

    /// <inheritdoc/>
    public string Name => "free space";

    /// <summary>Basic transmission loss in free space.</summary>
    /// <param name="distanceM">Distance in metres, above 0.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>Loss in dB; 75.735 dB at 146 MHz and 1 km.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number above 0.</exception>
    public static double LossDb(double distanceM, double frequencyHz) =>
        20 * Math.Log10(4 * Math.PI / PhysicalConstants.SpeedOfLight)
        + 20 * Math.Log10(Quantities.QuantityText.AboveZero(distanceM, nameof(distanceM)))
        + 20 * Math.Log10(Quantities.QuantityText.AboveZero(frequencyHz, nameof(frequencyHz)));

    /// <inheritdoc/>
    public PathResult Predict(PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (Refusal(geometry) is { } refused)
        {
            return PathResult.None(Name, refused);
        }

        double distance = geometry.DistanceM!.Value;
        return PathResult.Basic(
            Name, new PathBasis.InFreeSpace(distance), geometry, LossDb(distance, geometry.FrequencyHz), Remarks(geometry));
    }

    /// <summary>Why no far-field formula holds, or null.</summary>
    internal static string? Refusal(PathGeometry geometry)
    {
        if (geometry.Impossible() is { } impossible)
        {
            return impossible;
        }

        if (geometry.DistanceM is not { } distance)
        {
            return "no distance is known; give distance or coordinates, or the measured level";
        }

        double lambda = geometry.WavelengthM;
        double far = geometry.LargestAntennaM is { } size ? Math.Max(lambda, 2 * size * size / lambda) : lambda;
        return distance >= far ? null : string.Create(
            CultureInfo.InvariantCulture,
            $"{distance:0.##} m is nearer than the far field, which begins at {far:0.##} m here; "
                + $"give the antennas' spacing on one structure, or the measured level");
    }

    /// <summary>What must be said of a far-field prediction over this geometry.</summary>
    internal static IReadOnlyList<PathRemark> Remarks(PathGeometry geometry)
    {
        List<PathRemark> remarks = [];
        double distance = geometry.DistanceM ?? 0;

        // 2 D^2 / lambda is 50 wavelengths for an antenna of five.
        if (geometry.LargestAntennaM is null && distance < 50 * geometry.WavelengthM)
        {
            remarks.Add(new PathRemark.SizesNotKnown());
        }

        if (RadioHorizon.Beyond(geometry) is { } beyond)
        {
            remarks.Add(beyond);
        }

        return remarks;
    }
}
