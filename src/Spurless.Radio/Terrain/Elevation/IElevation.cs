namespace Spurless.Radio.Terrain.Elevation;

/// <summary>Tiles at hand. Implementations may read them when asked and keep them; they are safe for several threads.</summary>
public interface IElevation
{
    /// <summary>The finest tile that covers a place, or null where there is none.</summary>
    /// <param name="latitudeDegrees">Latitude in degrees.</param>
    /// <param name="longitudeDegrees">Longitude in degrees.</param>
    ElevationTile? TileAt(double latitudeDegrees, double longitudeDegrees);
}
