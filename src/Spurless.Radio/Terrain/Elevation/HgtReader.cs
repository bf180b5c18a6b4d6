using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;

namespace Spurless.Radio.Terrain.Elevation;

/// <summary>
/// Reads elevation tiles in the raw form of the shuttle radar mission: <c>N40W036.hgt</c>, one square degree named by its south-west
/// corner, 16-bit big-endian metres row by row from the north-west, 1,201 or 3,601 samples a side (3 or 1 arc seconds), edges shared with
/// the neighbours,
/// -32,768 void; also the same in a ZIP archive. WGS-84, heights over the geoid (layout from memory).
/// </summary>
public static class HgtReader
{
    private static readonly int[] _sides = [1201, 3601];

    /// <summary>Reads the south-west corner from a name.</summary>
    /// <param name="name">A file's name, with or without folder and extension: N40W036.hgt.</param>
    /// <param name="southDegrees">Latitude of the south edge.</param>
    /// <param name="westDegrees">Longitude of the west edge.</param>
    public static bool TryCorner(string name, out int southDegrees, out int westDegrees)
    {
        southDegrees = westDegrees = 0;
        string stem = Path.GetFileName(name ?? "").Split('.')[0].ToUpperInvariant();
        if (stem.Length != 7 || stem[0] is not ('N' or 'S') || stem[3] is not ('E' or 'W')
            || !int.TryParse(stem.AsSpan(1, 2), NumberStyles.None, CultureInfo.InvariantCulture, out int latitude)
            || !int.TryParse(stem.AsSpan(4, 3), NumberStyles.None, CultureInfo.InvariantCulture, out int longitude))
        {
            return false;
        }

        southDegrees = stem[0] == 'S' ? -latitude : latitude;
        westDegrees = stem[3] == 'W' ? -longitude : longitude;
        return southDegrees is >= -90 and < 90 && westDegrees is >= -180 and < 180;
    }

    /// <summary>Reads a tile.</summary>
    /// <param name="stream">The file's content, from its beginning.</param>
    /// <param name="name">The file's name, which holds the corner.</param>
    /// <param name="tile">The tile, where the file is right.</param>
    /// <param name="problem">Where it is not: what was found; what to do.</param>
    public static bool TryRead(Stream stream, string name, out ElevationTile tile, out string problem)
    {
        ArgumentNullException.ThrowIfNull(stream);
        tile = null!;
        if (!TryCorner(name, out int south, out int west))
        {
            problem = "the name does not say where the tile lies; name it by its south-west corner, like N40W036.hgt";
            return false;
        }

        int largest = 2 * _sides[^1] * _sides[^1];
        byte[] bytes = ReadUpTo(stream, largest + 1);
        int side = Array.Find(_sides, s => 2 * s * s == bytes.Length);
        if (side == 0)
        {
            string how = bytes.Length > largest ? string.Create(CultureInfo.InvariantCulture, $"more than {largest:#,0}") : string.Create(
                CultureInfo.InvariantCulture, $"{bytes.Length:#,0}");
            problem = $"{how} bytes are no tile, it is cut short or something else; a tile has 2,884,802 (3 arc seconds) or 25,934,402 "
                + $"bytes (1 arc second), fetch it again";
            return false;
        }

        short[] metres = new short[side * side];
        for (int i = 0; i < metres.Length; i++)
        {
            metres[i] = BinaryPrimitives.ReadInt16BigEndian(bytes.AsSpan(2 * i));
            if (metres[i] is not (short.MinValue or (>= -500 and <= 9000)))
            {
                problem = string.Create(
                    CultureInfo.InvariantCulture,
                    $"a height of {metres[i]} m in row {i / side + 1}, column {i % side + 1} is none of this earth; the bytes are "
                        + $"swapped or this is no elevation tile, fetch it again");
                return false;
            }
        }

        double step = 1.0 / (side - 1);
        string title = ElevationTile.NameOf(south, west);
        tile = ElevationTile.Of(
            new ElevationGrid(title, south + 1, west, step, step, side, side, false, ElevationGrid.UsualErrorM), metres);
        problem = "";
        return true;
    }

    /// <summary>Reads a tile from a ZIP archive that holds one.</summary>
    /// <param name="stream">The archive; must be seekable.</param>
    /// <param name="name">The archive's name, used where the entry's own does not say where the tile lies.</param>
    /// <param name="tile">The tile, where the file is right.</param>
    /// <param name="problem">Where it is not: what was found; what to do.</param>
    public static bool TryReadZip(Stream stream, string name, out ElevationTile tile, out string problem)
    {
        ArgumentNullException.ThrowIfNull(stream);
        tile = null!;
        try
        {
            using ZipArchive archive = new(stream, ZipArchiveMode.Read, leaveOpen: true);
            ZipArchiveEntry[] entries =
                [.. archive.Entries.Where(static e => e.Name.EndsWith(".hgt", StringComparison.OrdinalIgnoreCase)).Take(2)];
            if (entries.Length != 1)
            {
                problem = $"the archive holds {(entries.Length == 0 ? "no" : "more than one")} .hgt file; put one tile into each "
                    + $"archive, or unpack it";
                return false;
            }

            using Stream content = entries[0].Open();
            return TryRead(content, TryCorner(entries[0].Name, out _, out _) ? entries[0].Name : name, out tile, out problem);
        }
        catch (InvalidDataException)
        {
            problem = "this is no ZIP archive, or it is cut short; fetch it again";
            return false;
        }
    }

    /// <summary>No more than is asked for: an archive may hold far more than it weighs.</summary>
    private static byte[] ReadUpTo(Stream stream, int most)
    {
        byte[] buffer = new byte[most];
        int length = stream.ReadAtLeast(buffer, most, throwOnEndOfStream: false);
        return buffer[..length];
    }
}
