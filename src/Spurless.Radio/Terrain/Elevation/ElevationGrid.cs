namespace Spurless.Radio.Terrain.Elevation;

/// <summary>Where the samples of a tile lie.</summary>
/// <param name="Name">The tile's name, for messages.</param>
/// <param name="NorthDegrees">Latitude of the northernmost samples.</param>
/// <param name="WestDegrees">Longitude of the westernmost samples.</param>
/// <param name="LatitudeStepDegrees">Step from row to row, above 0.</param>
/// <param name="LongitudeStepDegrees">Step from column to column, above 0.</param>
/// <param name="Rows">How many rows, 2 or more.</param>
/// <param name="Columns">How many columns, 2 or more.</param>
/// <param name="SamplesAreAreas">Whether a sample stands for the area about it, so that the tile reaches half a step beyond.</param>
/// <param name="HeightErrorM">One standard deviation of the heights in metres, as far as it is known.</param>
public sealed record ElevationGrid(
    string Name,
    double NorthDegrees,
    double WestDegrees,
    double LatitudeStepDegrees,
    double LongitudeStepDegrees,
    int Rows,
    int Columns,
    bool SamplesAreAreas,
    double HeightErrorM)
{
    /// <summary>
    /// Relative height error of the shuttle radar mission's tiles: its requirement was 10 m for 90 % of the heights, 6.1 m for one standard
    /// deviation (from memory). Taken for GeoTIFF too, where the file doesn't say.
    /// </summary>
    public const double UsualErrorM = 6.1;

    /// <summary>Latitude of the southernmost samples.</summary>
    public double SouthDegrees => NorthDegrees - (Rows - 1) * LatitudeStepDegrees;

    /// <summary>Longitude of the easternmost samples.</summary>
    public double EastDegrees => WestDegrees + (Columns - 1) * LongitudeStepDegrees;
}
