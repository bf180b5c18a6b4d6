using Spurless.Register.Reading;
using Spurless.Register.Records;

namespace Spurless.Register.Layouts.IsedTafl;

/// <summary>
/// ISED Canada's licence extract <c>TAFL_LTAF.csv</c>: no head, 61 columns, one row a frequency, the licence within it. Order of the
/// columns as seen
/// in public copies; the power column is taken as ERP. Names and addresses are not read.
/// </summary>
internal sealed class TaflLayout : IRegisterLayout
{
    /// <summary>Number of columns.</summary>
    public const int Columns = 61;

    private TaflLayout(IReadOnlyList<RegisterFile> files) => Rows = files;

    public string Register => "ised-tafl";

    public IReadOnlyList<RegisterFile> Rows { get; }

    public IReadOnlyList<RegisterFile> Files => Rows;

    private static RecordShape Shape { get; } = new((byte)',', true, Columns, Begins);

    public string RowBegins => "TX or RX";

    /// <summary>Whether a file begins with a row of this layout.</summary>
    public static bool LooksLike(byte[] head)
    {
        using MemoryStream stream = new(head);
        RecordReader reader = new(stream, Shape);
        return reader.TryRead() && reader.IsBegun && reader.Count >= Columns;
    }

    /// <summary>Whether a file is called like this one.</summary>
    public static bool IsNamed(string name) =>
        name.Contains("TAFL", StringComparison.OrdinalIgnoreCase) && name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase);

    public static TaflLayout? Claim(IReadOnlyList<RegisterFile> files) => files.Count == 0 ? null : new TaflLayout(files);

    public void LoadTables(ImportWatch watch)
    {
    }

    public IRowReader Open(RegisterFile file, ImportWatch watch) => new RowReader(file.Open(watch.Limits));

    private static bool Begins(ReadOnlySpan<byte> line)
    {
        line = line.TrimStart("\" "u8);
        return (line.StartsWith("TX"u8) || line.StartsWith("RX"u8)) && line[2..].TrimStart("\" "u8).StartsWith(","u8);
    }

    private sealed class RowReader(Stream stream) : IRowReader
    {
        private readonly RecordReader _reader = new(stream, Shape);

        public long Line => _reader.Line;

        public long BytesRead => stream.Position;

        public void Dispose() => stream.Dispose();

        public bool TryRead()
        {
            while (_reader.TryRead())
            {
                if (_reader.IsBegun)
                {
                    return true;
                }
            }

            return false;
        }

        public RejectReason Parse(ParsedRecord to)
        {
            RecordReader row = _reader;
            to.Clear("ised-tafl");
            foreach (int field in (ReadOnlySpan<int>)[0, 1, 2, 40, 41, 47])
            {
                to.Identify(row[field]);
            }

            to.CloseKey();
            if (!row.IsWhole)
            {
                return RejectReason.Malformed;
            }

            bool? authorised = ImportWatch.IsInForce(ColumnText.TextOrNull(row[51]));
            bool? operates = ImportWatch.IsInForce(ColumnText.TextOrNull(row[56]));
            if (authorised == false || operates == false)
            {
                return RejectReason.NotInForce;
            }

            if (StationClasses.IsMobile(row[35]))
            {
                return RejectReason.Mobile;
            }

            to.FrequencyHz = ColumnText.Hertz(row[1], 1e6);
            if (to.FrequencyHz == 0)
            {
                return RejectReason.NoFrequency;
            }

            (to.LatitudeDegrees, to.LongitudeDegrees) = (ColumnText.Number(row[40]), ColumnText.Number(row[41]));
            to.Transmits = row[0].SequenceEqual("TX"u8);
            to.Licence = ColumnText.Text(row[47]);
            to.CallSign = ColumnText.TextOrNull(row[33]);
            to.Service = ColumnText.TextOrNull(row[48]) ?? ColumnText.TextOrNull(row[3]);
            to.StationClass = ColumnText.TextOrNull(row[35]);
            to.Emission = ColumnText.TextOrNull(row[11]);
            to.SetBandwidth(ColumnText.Hertz(row[10], 1e3));
            double? erp = ColumnText.Number(row[14]) is { } dbw ? dbw + 30 : null;
            double? power = ColumnText.Number(row[15]) is { } watts && watts > 0 ? (10 * Math.Log10(watts)) + 30 : null;
            if (to.Transmits)
            {
                to.SetPower(null, erp, power, ColumnText.Number(row[23]), ColumnText.Number(row[16]));
            }

            to.HeightM = ColumnText.Number(row[28]);
            to.GroundM = ColumnText.Number(row[42]);
            to.SetBeam(ColumnText.Number(row[29]), ColumnText.Number(row[25]));
            to.Notes |= (to.HeightM is null ? RecordNotes.NoHeight : 0) | (authorised is null || operates is null
                ? RecordNotes.StatusUnknown : 0);
            return RejectReason.None;
        }

        /// <summary>The row without what stands behind the technical columns: names and addresses are there.</summary>
        public string RejectText() => RowTexts.First(_reader, _reader.IsWhole ? 52 : 30);
    }
}
