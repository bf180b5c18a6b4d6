using System.Globalization;

namespace Spurless.Radio.Terrain.Elevation;

/// <summary>
/// Heights of the ground on a grid of latitude and longitude (WGS-84), rows from north to south, columns from west to east. Immutable.
/// A height between four samples is interpolated in both directions; where one of the four is void there is none.
/// </summary>
public sealed class ElevationTile
{
    /// <summary>More samples than this are refused: 60 million hold two degrees by two at one arc second, about 120 MB.</summary>
    public const long MostSamples = 60_000_000;

    private readonly short[]? _whole;
    private readonly float[]? _fractions;
    private readonly double _margin;

    private ElevationTile(ElevationGrid grid, short[]? whole, float[]? fractions)
    {
        Grid = grid;
        _whole = whole;
        _fractions = fractions;
        _margin = (grid.SamplesAreAreas ? 0.5 : 0) + 1e-6;
    }

    /// <summary>Where the samples lie.</summary>
    public ElevationGrid Grid { get; }

    /// <summary>Whether there is no sample, only the word that all of it is sea.</summary>
    public bool IsSea => _whole is null && _fractions is null;

    /// <summary>A tile of whole metres.</summary>
    /// <param name="grid">Where the samples lie.</param>
    /// <param name="metres">Heights row by row from the north-west; <see cref="short.MinValue"/> is void.</param>
    public static ElevationTile Of(ElevationGrid grid, short[] metres)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(metres);
        return metres.LongLength == (long)grid.Rows * grid.Columns
            ? new ElevationTile(grid, metres, null)
            : throw new ArgumentException("one height for each sample of the grid", nameof(metres));
    }

    /// <summary>A tile of heights with fractions.</summary>
    /// <param name="grid">Where the samples lie.</param>
    /// <param name="metres">Heights row by row from the north-west; NaN is void.</param>
    public static ElevationTile Of(ElevationGrid grid, float[] metres)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(metres);
        return metres.LongLength == (long)grid.Rows * grid.Columns
            ? new ElevationTile(grid, null, metres)
            : throw new ArgumentException("one height for each sample of the grid", nameof(metres));
    }

    /// <summary>A square degree that someone has said to be all sea: height 0.</summary>
    /// <param name="name">Its name, <see cref="NameOf"/>.</param>
    /// <param name="southDegrees">Latitude of its south edge.</param>
    /// <param name="westDegrees">Longitude of its west edge.</param>
    public static ElevationTile Sea(string name, int southDegrees, int westDegrees) =>
        new(new ElevationGrid(name, southDegrees + 1, westDegrees, 1 / 1200.0, 1 / 1200.0, 1201, 1201, false, 0), null, null);

    /// <summary>The name of the square degree that holds a place, by its south-west corner: N40W036.</summary>
    /// <param name="latitudeDegrees">Latitude in degrees, -90 to 90.</param>
    /// <param name="longitudeDegrees">Longitude in degrees, -180 to 180.</param>
    public static string NameOf(double latitudeDegrees, double longitudeDegrees)
    {
        int south = (int)Math.Clamp(Math.Floor(latitudeDegrees), -90, 89);
        int west = (int)Math.Clamp(Math.Floor(longitudeDegrees), -180, 179);
        return string.Create(
            CultureInfo.InvariantCulture, $"{(south < 0 ? 'S' : 'N')}{Math.Abs(south):00}{(west < 0 ? 'W' : 'E')}{Math.Abs(west):000}");
    }

    /// <summary>Whether a place lies in the tile.</summary>
    public bool Covers(double latitudeDegrees, double longitudeDegrees)
    {
        double row = (Grid.NorthDegrees - latitudeDegrees) / Grid.LatitudeStepDegrees;
        double column = (longitudeDegrees - Grid.WestDegrees) / Grid.LongitudeStepDegrees;
        return row >= -_margin && row <= Grid.Rows - 1 + _margin && column >= -_margin && column <= Grid.Columns - 1 + _margin;
    }

    /// <summary>The height of the ground.</summary>
    /// <param name="latitudeDegrees">Latitude in degrees, within the tile.</param>
    /// <param name="longitudeDegrees">Longitude in degrees, within the tile.</param>
    /// <returns>Metres over sea level; NaN where the data are void.</returns>
    public double HeightM(double latitudeDegrees, double longitudeDegrees)
    {
        if (IsSea)
        {
            return 0;
        }

        double row = Math.Clamp((Grid.NorthDegrees - latitudeDegrees) / Grid.LatitudeStepDegrees, 0, Grid.Rows - 1);
        double column = Math.Clamp((longitudeDegrees - Grid.WestDegrees) / Grid.LongitudeStepDegrees, 0, Grid.Columns - 1);
        int top = Math.Min((int)row, Grid.Rows - 2);
        int left = Math.Min((int)column, Grid.Columns - 2);
        double down = row - top;
        double right = column - left;
        return (At(top, left) * (1 - right) + At(top, left + 1) * right) * (1 - down)
            + (At(top + 1, left) * (1 - right) + At(top + 1, left + 1) * right) * down;
    }

    /// <summary>The lowest and highest sample in metres (NaN where all are void), and how many are void.</summary>
    public (double LowestM, double HighestM, long Voids) Extent()
    {
        double lowest = double.NaN;
        double highest = double.NaN;
        long voids = 0;
        for (int row = 0; row < Grid.Rows; row++)
        {
            for (int column = 0; column < Grid.Columns; column++)
            {
                double height = IsSea ? 0 : At(row, column);
                voids += double.IsNaN(height) ? 1 : 0;
                lowest = height >= lowest ? lowest : double.IsNaN(height) ? lowest : height;
                highest = height <= highest ? highest : double.IsNaN(height) ? highest : height;
            }
        }

        return (lowest, highest, voids);
    }

    private double At(int row, int column)
    {
        int at = row * Grid.Columns + column;
        if (_whole is { } whole)
        {
            return whole[at] == short.MinValue ? double.NaN : whole[at];
        }

        return _fractions![at];
    }
}
