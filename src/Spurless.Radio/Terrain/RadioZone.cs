namespace Spurless.Radio.Terrain;

/// <summary>Radio-climatic zone of a place on a path (ITU-R P.1812, there A2, A1 and B).</summary>
public enum RadioZone
{
    /// <summary>Land away from the sea.</summary>
    Inland,

    /// <summary>Land near the sea: below 100 m and within 50 km of it (from memory).</summary>
    Coastal,

    /// <summary>Seas, oceans and other large bodies of water.</summary>
    Sea,
}
