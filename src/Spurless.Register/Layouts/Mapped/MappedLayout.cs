using Spurless.Files;
using Spurless.Register.Reading;
using Spurless.Register.Records;

namespace Spurless.Register.Layouts.Mapped;

/// <summary>Any table with heads whose columns a mapping file explains.</summary>
internal sealed class MappedLayout : IRegisterLayout
{
    private readonly ColumnMapping _mapping;

    private MappedLayout(ColumnMapping mapping, IReadOnlyList<RegisterFile> rows, RegisterFile own)
    {
        (_mapping, Rows) = (mapping, rows);
        Files = [.. rows, own];
    }

    public string Register => _mapping.Register;

    public IReadOnlyList<RegisterFile> Rows { get; }

    public IReadOnlyList<RegisterFile> Files { get; }

    /// <summary>One layout for each mapping file in the list.</summary>
    public static IReadOnlyList<MappedLayout> Claim(List<RegisterFile> files, ImportWatch watch)
    {
        List<MappedLayout> layouts = [];
        foreach (RegisterFile file in files.Where(static f => f.Name.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase)).ToArray())
        {
            files.Remove(file);
            if (ColumnMapping.Read(file.Head(watch.Limits, 1 << 20), file.Shown, watch.Diagnostics) is not { } mapping)
            {
                continue;
            }

            RegisterFile[] rows = [.. files.Where(f => mapping.Table is { } table ? f.Name.Equals(table,
                StringComparison.OrdinalIgnoreCase) : IsTable(f))];
            files.RemoveAll(rows.Contains);
            if (rows.Length == 0)
            {
                watch.Diagnostics.Error(file.Shown, 0, 0, "there is no table for this mapping", mapping.Table is { } wanted
                    ? $"give {wanted} with it" : "give the table with it");
                continue;
            }

            layouts.Add(new MappedLayout(mapping, rows, file));
        }

        return layouts;
    }

    public void LoadTables(ImportWatch watch)
    {
    }

    public IRowReader? Open(RegisterFile file, ImportWatch watch)
    {
        byte separator = Separator(file.Head(watch.Limits));
        if (HeadedReader.Open(() => file.Open(watch.Limits), separator) is not { } table)
        {
            watch.Diagnostics.Error(file.Shown, 0, 0, "the table is empty", "give a table with heads and rows");
            return null;
        }

        bool good = true;
        foreach (MappedColumn column in _mapping.Columns.Values.Where(c => table.Column(c.Column) < 0))
        {
            column.At.Error(watch.Diagnostics, $"the table has no column '{Quote.Short(column.Column)}'", "its columns are "
                + Quote.Heads(table.Heads));
            good = false;
        }

        if (!good)
        {
            table.Dispose();
            return null;
        }

        return new RowReader(table, _mapping, watch);
    }

    private static bool IsTable(RegisterFile file) => Path.GetExtension(file.Name).ToUpperInvariant() is ".CSV" or ".TSV" or ".TXT";

    private static byte Separator(byte[] head)
    {
        ReadOnlySpan<byte> line = head;
        int end = line.IndexOf((byte)'\n');
        line = end < 0 ? line : line[..end];
        (int commas, int semicolons, int tabs) = (line.Count((byte)','), line.Count((byte)';'), line.Count((byte)'\t'));
        return semicolons > commas && semicolons >= tabs ? (byte)';' : tabs > commas ? (byte)'\t' : (byte)',';
    }

    private sealed class RowReader(HeadedReader table, ColumnMapping mapping, ImportWatch watch) : IRowReader
    {
        private readonly RecordReader _rows = table.Rows;
        private readonly Dictionary<string, (int Column, string Unit)> _columns =
            mapping.Columns.ToDictionary(static c => c.Key, c => (table.Column(c.Value.Column), c.Value.Unit), StringComparer.Ordinal);

        public long Line => _rows.Line;

        public long BytesRead => table.BytesRead;

        public void Dispose() => table.Dispose();

        public bool TryRead() => _rows.TryRead();

        public RejectReason Parse(ParsedRecord to)
        {
            to.Clear(mapping.Register);
            foreach (string value in (ReadOnlySpan<string>)["licence", "call_sign", "frequency", "upper_edge", "latitude", "longitude",
                "kind", "height", "bearing", "emission"])
            {
                to.Identify(Cell(value));
            }

            to.CloseKey();
            if (!_rows.IsWhole)
            {
                return RejectReason.Malformed;
            }

            to.Expires = ColumnText.Date(Cell("expires"), monthFirst: false);
            bool? inForce = to.Expires is { } day && day < watch.AsOf
                ? false
                : ImportWatch.IsInForce(ColumnText.TextOrNull(Cell("status")));
            if (inForce == false)
            {
                return RejectReason.NotInForce;
            }

            if (StationClasses.IsMobile(Cell("class")))
            {
                return RejectReason.Mobile;
            }

            to.FrequencyHz = Hertz("frequency");
            if (to.FrequencyHz == 0)
            {
                return RejectReason.NoFrequency;
            }

            (to.LatitudeDegrees, to.LongitudeDegrees) = (ColumnText.Angle(Cell("latitude")), ColumnText.Angle(Cell("longitude")));
            to.Transmits = !Cell("kind").StartsWith("R"u8) && !Cell("kind").StartsWith("r"u8);
            to.Licence = ColumnText.TextOrNull(Cell("licence")) ?? "";
            to.CallSign = ColumnText.TextOrNull(Cell("call_sign"));
            to.Service = ColumnText.TextOrNull(Cell("service"));
            to.StationClass = ColumnText.TextOrNull(Cell("class"));
            to.Emission = ColumnText.TextOrNull(Cell("emission"));
            to.UpperEdgeHz = Hertz("upper_edge") is var upper && upper > to.FrequencyHz ? upper : null;
            to.SetBandwidth(Hertz("bandwidth") is var width && width > 0 ? width : to.UpperEdgeHz is { } edge ? edge - to.FrequencyHz : 0);
            (to.HeightM, to.GroundM) = (Scaled("height"), Scaled("ground"));
            to.SetBeam(ColumnText.Number(Cell("bearing")), ColumnText.NotZero(Cell("beamwidth")));
            if (to.Transmits)
            {
                double? gain = Scaled("gain") is { } g ? g + (Unit("gain") == "dBd" ? Radio.Quantities.AntennaGain.DipoleDbi : 0) : null;
                to.SetPower(Dbm("eirp"), Dbm("erp"), Dbm("power"), gain);
            }

            to.Notes |= Datum(ColumnText.TextOrNull(Cell("datum")) ?? mapping.Datum) | (to.HeightM is null ? RecordNotes.NoHeight
                : 0) | (inForce is null ? RecordNotes.StatusUnknown : 0);
            return RejectReason.None;
        }

        /// <summary>Only the columns that the mapping names: in the others names of persons may stand.</summary>
        public string RejectText()
        {
            HashSet<int> named = [.. _columns.Values.Select(static c => c.Column)];
            return _rows.IsWhole ? RowTexts.Without(_rows, i => !named.Contains(i)) : RowTexts.First(_rows, 1);
        }

        private static RecordNotes Datum(string? datum) => datum?.ToUpperInvariant().Replace(" ", "", StringComparison.Ordinal)
            .Replace("-", "", StringComparison.Ordinal) switch
        {
            null or "" or "WGS84" or "NAD83" or "ETRS89" or "GDA94" or "GDA2020" or "4326" or "EPSG:4326" or "83" => RecordNotes.None,
            "NAD27" or "27" => RecordNotes.Nad27,
            _ => RecordNotes.OtherDatum,
        };

        private ReadOnlySpan<byte> Cell(string value)
        {
            ReadOnlySpan<byte> cell = _columns.TryGetValue(value, out (int Column, string Unit) at) ? _rows[at.Column] : default;
            return cell.SequenceEqual("-"u8) ? default : cell;
        }

        private string Unit(string value) => _columns.TryGetValue(value, out (int Column, string Unit) at) ? at.Unit : "";

        private long Hertz(string value) => ColumnText.Hertz(Cell(value), ColumnMapping.Scale(Unit(value)));

        private double? Scaled(string value) => ColumnText.Number(Cell(value)) is { } figure ? figure * ColumnMapping.Scale(Unit(value))
            : null;

        private double? Dbm(string value) => PowerUnits.Dbm(ColumnText.Number(Cell(value)), Unit(value));
    }
}
