using System.Globalization;
using System.Text;
using BitMiracle.LibTiff.Classic;

namespace Spurless.Radio.Terrain.Elevation;

/// <summary>
/// Reads elevation from a GeoTIFF (OGC 19-008, GeoTIFF 1.1, tag and key numbers from memory): one band of 16- or 32-bit whole metres or 32-
/// or 64-bit floating-point metres, geographic coordinates on WGS-84 (EPSG 4326), north up, placed by one tie point and the size of a
/// sample. Anything else is refused by name. Compression and strips or tiles as the library reads them.
/// </summary>
public static class GeoTiffReader
{
    private const TiffTag PixelScale = (TiffTag)33550;
    private const TiffTag TiePoint = (TiffTag)33922;
    private const TiffTag GeoKeys = (TiffTag)34735;
    private const TiffTag NoData = (TiffTag)42113;

    private const int ModelTypeKey = 1024;
    private const int RasterTypeKey = 1025;
    private const int GeographicTypeKey = 2048;
    private const int GeodeticDatumKey = 2050;
    private const int VerticalUnitsKey = 4099;
    private const int Geographic = 2;
    private const int Wgs84 = 4326;
    private const int Wgs84ThreeDimensional = 4979;
    private const int Wgs84Datum = 6326;
    private const int UserDefined = 32767;
    private const int Metre = 9001;

    static GeoTiffReader() => Tiff.SetErrorHandler(new Collecting());

    /// <summary>Reads where the samples lie, not their heights.</summary>
    /// <param name="stream">The file; must be seekable.</param>
    /// <param name="name">The file's name, for messages.</param>
    /// <param name="grid">The grid, where the file is right.</param>
    /// <param name="problem">Where it is not: what was found; what to do.</param>
    public static bool TryReadGrid(Stream stream, string name, out ElevationGrid grid, out string problem)
    {
        ElevationGrid found = null!;
        bool read = TryOpen(stream, name, (tiff, _) =>
            TryGrid(tiff, name, out found, out SampleForm _, out string wrong) ? null : wrong, out problem);
        grid = found;
        return read;
    }

    /// <summary>Reads a tile.</summary>
    /// <param name="stream">The file; must be seekable.</param>
    /// <param name="name">The file's name, for messages.</param>
    /// <param name="tile">The tile, where the file is right.</param>
    /// <param name="problem">Where it is not: what was found; what to do.</param>
    public static bool TryRead(Stream stream, string name, out ElevationTile tile, out string problem)
    {
        ElevationTile found = null!;
        bool read = TryOpen(stream, name, (tiff, input) => Read(tiff, input, name, out found), out problem);
        tile = found;
        return read;
    }

    private static bool TryOpen(Stream stream, string name, Func<Tiff, Input, string?> use, out string problem)
    {
        Input input = new(stream);
        if (TiffDirectoryCheck.Problem(stream) is { } damaged)
        {
            problem = damaged;
            return false;
        }

        try
        {
            using Tiff? tiff = Tiff.ClientOpen(name, "r", input, new Reader());
            problem = tiff is null ? "this is no TIFF, or it is cut short" + input.Because + "; fetch it again" : use(tiff, input) ?? "";
        }
#pragma warning disable CA1031 // A damaged file makes the library throw whatever it likes; it is the file's fault all the same.
        catch (Exception e) when (e is not OperationCanceledException)
#pragma warning restore CA1031
        {
            problem = $"the file is damaged ({input.First ?? e.Message}); fetch it again";
        }

        return problem.Length == 0;
    }

    /// <summary>Reads the heights; returns the problem, or null.</summary>
    private static string? Read(Tiff tiff, Input input, string name, out ElevationTile tile)
    {
        tile = null!;
        if (!TryGrid(tiff, name, out ElevationGrid grid, out SampleForm form, out string problem))
        {
            return problem;
        }

        float[] metres = new float[grid.Rows * grid.Columns];
        if (!TryHeights(tiff, grid, form, metres))
        {
            return "the heights end before the last row" + input.Because + "; the file is cut short, fetch it again";
        }

        float? none = VoidValue(tiff);
        for (int i = 0; i < metres.Length; i++)
        {
            // Void by the file's own word, by the usual value, or no height at all.
            if (metres[i] == none || metres[i] == short.MinValue || !float.IsFinite(metres[i]))
            {
                metres[i] = float.NaN;
            }
            else if (metres[i] is < -500 or > 9000)
            {
                return string.Create(
                    CultureInfo.InvariantCulture,
                    $"a height of {metres[i]:0} in row {i / grid.Columns + 1}, column {i % grid.Columns + 1} is none of this earth; "
                        + $"write heights in metres, and the void value as the no-data tag (42113)");
            }
        }

        tile = ElevationTile.Of(grid, metres);
        return null;
    }

    private static bool TryGrid(Tiff tiff, string name, out ElevationGrid grid, out SampleForm form, out string problem)
    {
        grid = null!;
        form = default;
        int width = Number(tiff, TiffTag.IMAGEWIDTH, 0);
        int height = Number(tiff, TiffTag.IMAGELENGTH, 0);
        int bits = Number(tiff, TiffTag.BITSPERSAMPLE, 1);
        int kind = Number(tiff, TiffTag.SAMPLEFORMAT, (int)SampleFormat.UINT);
        form = new SampleForm(bits, (SampleFormat)kind);
        if (width < 2 || height < 2 || (long)width * height > ElevationTile.MostSamples)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                    $"{width} x {height} samples are too few or too many; give 2 x 2 to {ElevationTile.MostSamples / 1_000_000} "
                        + $"million, cut a larger one into pieces");
            return false;
        }

        if (Number(tiff, TiffTag.SAMPLESPERPIXEL, 1) != 1 || !form.IsKnown)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"{Number(tiff, TiffTag.SAMPLESPERPIXEL, 1)} band(s) of {bits} bits are no elevation; give one band of 16 or 32 bit "
                    + $"whole or 32 or 64 bit floating-point metres, not a picture of the hills");
            return false;
        }

        Dictionary<int, int> keys = Keys(Shorts(tiff, GeoKeys));
        if (Datum(keys) is { } wrong)
        {
            problem = wrong;
            return false;
        }

        double[] scale = Doubles(tiff, PixelScale);
        double[] tie = Doubles(tiff, TiePoint);
        if (scale.Length < 2 || tie.Length != 6 || !(scale[0] > 0) || !(scale[1] > 0) || tie.Any(static t => !double.IsFinite(t)))
        {
            problem = "the file does not say where it lies by one tie point and the size of a sample (tags 33922 and 33550); save it "
                + "north up in latitude and longitude";
            return false;
        }

        // Where a sample stands for an area, the tie point is a corner of it and the height is that of its middle.
        bool areas = keys.GetValueOrDefault(RasterTypeKey, 1) != 2;
        double half = areas ? 0.5 : 0;
        double west = tie[3] + (half - tie[0]) * scale[0];
        double north = tie[4] - (half - tie[1]) * scale[1];
        grid = new ElevationGrid(name, north, west, scale[1], scale[0], height, width, areas, ElevationGrid.UsualErrorM);
        if (grid.SouthDegrees < -90.001 || north > 90.001 || west < -180.001 || grid.EastDegrees > 180.001)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"latitude {grid.SouthDegrees:0.###} to {north:0.###}, longitude {west:0.###} to {grid.EastDegrees:0.###} is not on the "
                    + $"earth; save it in degrees of latitude and longitude");
            return false;
        }

        problem = "";
        return true;
    }

    /// <summary>Why the coordinates are not those of WGS-84, or null.</summary>
    private static string? Datum(Dictionary<int, int> keys)
    {
        const string remedy = "; transform it to latitude and longitude on WGS-84 (EPSG 4326)";
        if (keys.Count == 0)
        {
            return "there are no GeoTIFF keys, so its datum is not known" + remedy;
        }

        if (keys.GetValueOrDefault(ModelTypeKey) != Geographic)
        {
            return "its coordinates are not latitude and longitude" + remedy;
        }

        int system = keys.GetValueOrDefault(GeographicTypeKey);
        bool right = system is Wgs84 or Wgs84ThreeDimensional || (
            system is UserDefined or 0 && keys.GetValueOrDefault(GeodeticDatumKey) == Wgs84Datum);
        if (!right)
        {
            return string.Create(CultureInfo.InvariantCulture, $"its datum is not WGS-84 (EPSG {system})") + remedy;
        }

        int units = keys.GetValueOrDefault(VerticalUnitsKey, Metre);
        return units is Metre or UserDefined or 0
            ? null
            : string.Create(CultureInfo.InvariantCulture, $"its heights are not in metres (unit {units}); convert them to metres");
    }

    /// <summary>Keys whose value stands in the directory itself, which is all that we ask for.</summary>
    private static Dictionary<int, int> Keys(ushort[] directory)
    {
        Dictionary<int, int> keys = [];
        for (int i = 4; i + 3 < directory.Length; i += 4)
        {
            if (directory[i + 1] == 0)
            {
                keys[directory[i]] = directory[i + 3];
            }
        }

        return keys;
    }

    private static bool TryHeights(Tiff tiff, ElevationGrid grid, SampleForm form, float[] metres)
    {
        if (!tiff.IsTiled())
        {
            byte[] row = new byte[Math.Max(tiff.ScanlineSize(), grid.Columns * form.Bytes)];
            for (int y = 0; y < grid.Rows; y++)
            {
                if (!tiff.ReadScanline(row, y))
                {
                    return false;
                }

                form.Read(row, metres.AsSpan(y * grid.Columns, grid.Columns));
            }

            return true;
        }

        int tileWidth = Number(tiff, TiffTag.TILEWIDTH, 0);
        int tileHeight = Number(tiff, TiffTag.TILELENGTH, 0);
        if (tileWidth <= 0 || tileHeight <= 0 || (long)tileWidth * tileHeight > ElevationTile.MostSamples)
        {
            return false;
        }

        byte[] block = new byte[Math.Max(tiff.TileSize(), tileWidth * tileHeight * form.Bytes)];
        for (int y = 0; y < grid.Rows; y += tileHeight)
        {
            for (int x = 0; x < grid.Columns; x += tileWidth)
            {
                if (tiff.ReadTile(block, 0, x, y, 0, 0) < 0)
                {
                    return false;
                }

                int columns = Math.Min(tileWidth, grid.Columns - x);
                for (int r = 0; r < Math.Min(tileHeight, grid.Rows - y); r++)
                {
                    form.Read(block.AsSpan(r * tileWidth * form.Bytes), metres.AsSpan((y + r) * grid.Columns + x, columns));
                }
            }
        }

        return true;
    }

    private static float? VoidValue(Tiff tiff)
    {
        if (tiff.GetField(NoData) is not { } field)
        {
            return null;
        }

        string text = field[^1].Value switch
        {
            byte[] bytes => Encoding.ASCII.GetString(bytes),
            string plain => plain,
            _ => "",
        };
        return float.TryParse(text.Trim('\0', ' '), NumberStyles.Float, CultureInfo.InvariantCulture, out float value) ? value : null;
    }

    private static int Number(Tiff tiff, TiffTag tag, int otherwise) =>
        tiff.GetFieldDefaulted(tag) is { Length: > 0 } field ? field[0].ToInt() : otherwise;

    private static double[] Doubles(Tiff tiff, TiffTag tag) =>
        tiff.GetField(tag) is { Length: > 0 } field && field[^1].ToDoubleArray() is { } values ? values : [];

    private static ushort[] Shorts(Tiff tiff, TiffTag tag) =>
        tiff.GetField(tag) is { Length: > 0 } field && field[^1].ToUShortArray() is { } values ? values : [];

    /// <summary>How a sample is written; the library hands it over in the machine's byte order.</summary>
    private readonly record struct SampleForm(int Bits, SampleFormat Format)
    {
        internal bool IsKnown => Format switch
        {
            SampleFormat.INT or SampleFormat.UINT => Bits is 16 or 32,
            SampleFormat.IEEEFP => Bits is 32 or 64,
            _ => false,
        };

        internal int Bytes => Bits / 8;

        internal void Read(ReadOnlySpan<byte> bytes, Span<float> metres)
        {
            for (int i = 0; i < metres.Length; i++)
            {
                ReadOnlySpan<byte> sample = bytes.Slice(i * Bytes, Bytes);
                metres[i] = (Format, Bits) switch
                {
                    (SampleFormat.INT, 16) => BitConverter.ToInt16(sample),
                    (SampleFormat.UINT, 16) => BitConverter.ToUInt16(sample),
                    (SampleFormat.INT, _) => BitConverter.ToInt32(sample),
                    (SampleFormat.UINT, _) => BitConverter.ToUInt32(sample),
                    (_, 32) => BitConverter.ToSingle(sample),
                    _ => (float)BitConverter.ToDouble(sample),
                };
            }
        }
    }

    /// <summary>A stream with what the library had to say about it.</summary>
    private sealed record Input(Stream Stream)
    {
        internal string? First { get; set; }

        internal string Because => First is { } first ? $" ({first})" : "";
    }

    private sealed class Reader : TiffStream
    {
        public override int Read(object clientData, byte[] buffer, int offset, int count) =>
            ((Input)clientData).Stream.Read(buffer, offset, count);

        public override long Seek(object clientData, long offset, SeekOrigin origin) => ((Input)clientData).Stream.Seek(offset, origin);

        public override long Size(object clientData) => ((Input)clientData).Stream.Length;

        public override void Close(object clientData)
        {
            // The stream is the caller's.
        }
    }

    /// <summary>Keeps the library from the console: its words go to whoever reads the file.</summary>
    private sealed class Collecting : TiffErrorHandler
    {
        public override void ErrorHandler(Tiff tif, string method, string format, params object[] args)
        {
        }

        public override void ErrorHandlerExt(Tiff tif, object clientData, string method, string format, params object[] args)
        {
            if (clientData is Input input)
            {
                input.First ??= string.Format(CultureInfo.InvariantCulture, format, args);
            }
        }

        public override void WarningHandler(Tiff tif, string method, string format, params object[] args)
        {
        }

        public override void WarningHandlerExt(Tiff tif, object clientData, string method, string format, params object[] args)
        {
        }
    }
}
