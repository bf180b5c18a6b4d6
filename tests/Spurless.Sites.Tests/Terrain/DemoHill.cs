using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace Spurless.Sites.Tests.Terrain;

/// <summary>
/// Makes the demo's elevation tile and profile: an invented hill, a ridge and a knoll on a plain, put where there is nothing but ocean. No
/// such
/// ground exists.
/// </summary>
internal static class DemoHill
{
    public const int Side = 1201;
    public const string TileName = "N40W036.hgt";
    private const double PlainM = 140;
    private const double KmPerDegree = 111.2;

    /// <summary>Height of the invented ground.</summary>
    public static short HeightM(double latitude, double longitude)
    {
        double hill = Bump(latitude, longitude, 40.50, -35.20, 270, 2.2, 2.2, 0);
        double ridge = Bump(latitude, longitude, 40.56, -35.33, 330, 1.6, 6.5, 35);
        double knoll = Bump(latitude, longitude, 40.43, -35.05, 120, 2.5, 1.8, 0);
        return (short)Math.Round(PlainM + hill + ridge + knoll);
    }

    /// <summary>The tile in the raw form of elevation tiles.</summary>
    public static byte[] Tile()
    {
        byte[] bytes = new byte[2 * Side * Side];
        for (int row = 0; row < Side; row++)
        {
            for (int column = 0; column < Side; column++)
            {
                short height = HeightM(41 - row / 1200.0, -36 + column / 1200.0);
                BinaryPrimitives.WriteInt16BigEndian(bytes.AsSpan(2 * (row * Side + column)), height);
            }
        }

        return bytes;
    }

    /// <summary>The tile in a ZIP archive.</summary>
    public static byte[] Zip()
    {
        using MemoryStream stream = new();
        using (ZipArchive archive = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            ZipArchiveEntry entry = archive.CreateEntry(TileName, CompressionLevel.SmallestSize);
            entry.LastWriteTime = new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);
            using Stream into = entry.Open();
            into.Write(Tile());
        }

        return stream.ToArray();
    }

    /// <summary>A profile across the ridge, as one might take it from a map: 201 points over 20 km.</summary>
    public static string Profile()
    {
        StringBuilder text = new();
        text.Append("# An invented ridge on an invented plain, part of the demo: no such ground exists. Made by a test of the project.\n");
        text.Append("distance_km,height_m,clutter_m,zone\n");
        for (int i = 0; i <= 200; i++)
        {
            double km = i / 10.0;
            double height = PlainM + 330 * Math.Exp(-Math.Pow((km - 7.5) / 1.6, 2) / 2) + 60 * Math.Exp(-Math.Pow((km - 15) / 1.1, 2) / 2);
            int clutter = km is > 10 and < 13 ? 12 : 0;
            text.Append(string.Create(CultureInfo.InvariantCulture, $"{km:0.0},{Math.Round(height, 1):0.0},{clutter},inland\n"));
        }

        return text.ToString();
    }

    private static double Bump(
        double latitude, double longitude, double atLatitude, double atLongitude, double height, double across, double along, double turned)
    {
        double north = (latitude - atLatitude) * KmPerDegree;
        double east = (longitude - atLongitude) * KmPerDegree * Math.Cos(40.5 * Math.PI / 180);
        (double sin, double cos) = Math.SinCos(turned * Math.PI / 180);
        double u = (east * cos - north * sin) / across;
        double v = (east * sin + north * cos) / along;
        return height * Math.Exp(-(u * u + v * v) / 2);
    }
}
