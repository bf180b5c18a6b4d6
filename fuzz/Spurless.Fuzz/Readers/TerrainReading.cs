using Spurless.Fuzz.Inputs;
using Spurless.Radio.Terrain.Elevation;
using Spurless.Radio.Tests.Terrain;

namespace Spurless.Fuzz.Readers;

/// <summary>Elevation files: packed and raw tiles of a degree, and GeoTIFF.</summary>
internal sealed class TerrainReading : IFuzzedReader
{
    public string Name => "terrain";

    public Family Family => Family.Binary;

    public IEnumerable<byte[]> Examples =>
    [
        TileBytes.GeoTiff(8, 8, 41, -36, 0.01, static (r, c) => r + c),
        TileBytes.GeoTiff(4, 6, 41, -36, 0.1, static (r, c) => r * c, floating: false, rasterType: 2),
        TileBytes.GeoTiff(4, 6, 41, -36, 0.1, static (r, c) => r * c, keys: false, noData: null),
        TileBytes.Zip("N40W036.hgt", new byte[2 * 1201 * 1201]),
        TileBytes.Zip("N40W036.hgt", new byte[77]),
    ];

    public void Read(byte[] input)
    {
        ElevationTile tile;
        bool read;
        string problem;
        using MemoryStream stream = new(input);
        if (input is [(byte)'P', (byte)'K', ..])
        {
            read = HgtReader.TryReadZip(stream, "N40W036.hgt.zip", out tile, out problem);
        }
        else if (input is [(byte)'I', (byte)'I', ..] or [(byte)'M', (byte)'M', ..])
        {
            read = GeoTiffReader.TryRead(stream, "x.tif", out tile, out problem);
        }
        else
        {
            read = HgtReader.TryRead(stream, "N40W036.hgt", out tile, out problem);
        }

        if (!read && string.IsNullOrWhiteSpace(problem))
        {
            throw new Violation("refused without a word");
        }

        if (read)
        {
            (double lowest, double highest, long voids) = tile.Extent();
            bool none = !tile.IsSea && voids == (long)tile.Grid.Rows * tile.Grid.Columns;
            if (double.IsNaN(lowest) != none || double.IsNaN(highest) != none || voids < 0)
            {
                throw new Violation($"heights from {lowest} to {highest}");
            }
        }
    }
}
