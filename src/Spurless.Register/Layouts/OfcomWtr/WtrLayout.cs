using Spurless.Register.Reading;
using Spurless.Register.Records;

namespace Spurless.Register.Layouts.OfcomWtr;

/// <summary>
/// Ofcom's Wireless Telegraphy Register, <c>WTR.csv</c>: one row a frequency with its licence, columns by their heads, of which an older
/// and a newer set is
/// known; <c>-</c> is empty. Names are not read.
/// </summary>
internal sealed class WtrLayout : IRegisterLayout
{
    private WtrLayout(IReadOnlyList<RegisterFile> files) => Rows = files;

    public string Register => "ofcom-wtr";

    public IReadOnlyList<RegisterFile> Rows { get; }

    public IReadOnlyList<RegisterFile> Files => Rows;

    /// <summary>Whether these are heads of this layout.</summary>
    public static bool LooksLike(IReadOnlyList<string> heads) =>
        heads.Contains("Licence Number", StringComparer.OrdinalIgnoreCase)
            && heads.Contains("Station Type", StringComparer.OrdinalIgnoreCase)
            && heads.Any(static h => h.StartsWith("Frequency", StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether a file is called like this one.</summary>
    public static bool IsNamed(string name) => name.Equals("WTR.csv", StringComparison.OrdinalIgnoreCase);

    public static WtrLayout? Claim(IReadOnlyList<RegisterFile> files) => files.Count == 0 ? null : new WtrLayout(files);

    public void LoadTables(ImportWatch watch)
    {
    }

    public IRowReader? Open(RegisterFile file, ImportWatch watch)
    {
        return HeadedReader.Open(() => file.Open(watch.Limits)) is { } table ? new RowReader(table) : null;
    }

    private sealed class RowReader : IRowReader
    {
        private readonly HeadedReader _table;
        private readonly RecordReader _rows;
        private readonly int[] _dms;
        private readonly bool[] _private;
        private readonly int _licence, _hertz, _frequency, _frequencyUnit, _type, _width, _widthHz, _widthUnit, _sea, _erp, _erpUnit,
            _erpKind, _azimuth, _beam, _height, _emission, _status, _service, _latitude, _longitude;

        public RowReader(HeadedReader table)
        {
            (_table, _rows) = (table, table.Rows);
            _licence = table.Column("Licence Number");
            _hertz = table.Column("Frequency (Hz)");
            _frequency = table.Column("Frequency");
            _frequencyUnit = table.Column("Frequency Type");
            _type = table.Column("Station Type");
            _widthHz = table.Column("Channel Width (Hz)");
            _width = table.Column("Channel Width");
            _widthUnit = table.Column("Channel Width type");
            _sea = table.Column("Height Above Sea Level");
            _erp = table.Column("Antenna ERP");
            _erpUnit = table.Column("Antenna ERP Unit");
            _erpKind = table.Column("Antenna ERP Type");
            _azimuth = table.Column("Antenna AZIMUTH");
            _beam = table.Column("Horizontal Beamwidth", "Antenna Beamwidth");
            _height = table.Column("Antenna Height");
            _emission = table.Column("Emission Code");
            _status = table.Column("Status");
            _service = table.Column("Product Description");
            _latitude = table.Column("Latitude(Deg)", "Latitude (Deg)");
            _longitude = table.Column("Longitude(Deg)", "Longitude (Deg)");
            _dms =
            [
                table.Column("SID_LAT_DEG"), table.Column("SID_LAT_MIN"), table.Column("SID_LAT_SEC"), table.Column("SID_LAT_N_S"),
                table.Column("SID_LONG_DEG"), table.Column("SID_LONG_MIN"), table.Column("SID_LONG_SEC"), table.Column("SID_LONG_E_W"),
            ];
            _private = [.. table.Heads.Select(static h =>
                h.StartsWith("Licencee", StringComparison.OrdinalIgnoreCase) || h.StartsWith("Licensee", StringComparison.OrdinalIgnoreCase)
                || h.Contains("COMMENT", StringComparison.OrdinalIgnoreCase))];
        }

        public long Line => _rows.Line;

        public long BytesRead => _table.BytesRead;

        public void Dispose() => _table.Dispose();

        public bool TryRead() => _rows.TryRead();

        public RejectReason Parse(ParsedRecord to)
        {
            to.Clear("ofcom-wtr");
            foreach (int field in (ReadOnlySpan<int>)
                [_licence, _type, _hertz, _frequency, _latitude, _longitude, .. _dms, _height, _azimuth, _emission, _width, _widthHz])
            {
                to.Identify(_rows[field]);
            }

            to.CloseKey();
            if (!_rows.IsWhole)
            {
                return RejectReason.Malformed;
            }

            bool? inForce = ImportWatch.IsInForce(Text(_status));
            if (inForce == false)
            {
                return RejectReason.NotInForce;
            }

            to.FrequencyHz = FrequencyHz(_hertz, _frequency, _frequencyUnit);
            if (to.FrequencyHz == 0)
            {
                return RejectReason.NoFrequency;
            }

            to.LatitudeDegrees = ColumnText.Number(Cell(_latitude))
                ?? ColumnText.Degrees(Cell(_dms[0]), Cell(_dms[1]), Cell(_dms[2]), Cell(_dms[3]));
            to.LongitudeDegrees = ColumnText.Number(Cell(_longitude))
                ?? ColumnText.Degrees(Cell(_dms[4]), Cell(_dms[5]), Cell(_dms[6]), Cell(_dms[7]));
            to.Transmits = !Cell(_type).StartsWith("R"u8);
            to.Licence = Text(_licence) ?? "";
            to.Service = Text(_service);
            to.Emission = Text(_emission);
            to.SetBandwidth(FrequencyHz(_widthHz, _width, _widthUnit));
            to.HeightM = ColumnText.Number(Cell(_height));
            to.GroundM = ColumnText.Number(Cell(_sea));
            to.SetBeam(ColumnText.Number(Cell(_azimuth)), _beam >= 0 ? ColumnText.NotZero(Cell(_beam)) : null);
            if (to.Transmits)
            {
                Radiated(to);
            }

            to.Notes |= (to.HeightM is null ? RecordNotes.NoHeight : 0) | (inForce is null ? RecordNotes.StatusUnknown : 0);
            return RejectReason.None;
        }

        public string RejectText() => _rows.IsWhole ? RowTexts.Without(_rows, i => i < _private.Length && _private[i])
            : RowTexts.First(_rows, 12);

        private void Radiated(ParsedRecord to)
        {
            // Older files have the unit in the column of the kind.
            string? kind = Text(_erpKind);
            string? unit = Text(_erpUnit) ?? (kind is "W" or "dBW" or "dBm" or "kW" or "mW" ? kind : null);
            if (ColumnText.Number(Cell(_erp)) is not { } figure)
            {
                return;
            }

            if (unit is null)
            {
                to.Notes |= RecordNotes.PowerUnitAssumed;
            }

            double? dbm = PowerUnits.Dbm(figure, unit ?? "dBW");
            bool isEirp = kind?.Contains("EIRP", StringComparison.OrdinalIgnoreCase) == true;
            if (!isEirp && kind?.Contains("ERP", StringComparison.OrdinalIgnoreCase) != true)
            {
                to.Notes |= RecordNotes.PowerKindAssumed;
            }

            to.SetPower(isEirp ? dbm : null, isEirp ? null : dbm, null);
        }

        /// <summary>Hertz, or a figure with its unit in another column; without one megahertz.</summary>
        private long FrequencyHz(int hertz, int figure, int unit)
        {
            if (hertz >= 0)
            {
                return ColumnText.Hertz(Cell(hertz), 1);
            }

            double scale = Text(unit)?.ToUpperInvariant() switch
            {
                "HZ" => 1,
                "KHZ" => 1e3,
                "GHZ" => 1e9,
                _ => figure == _frequency
                ? 1e6 : 1e3
            };
            return ColumnText.Hertz(Cell(figure), scale);
        }

        private ReadOnlySpan<byte> Cell(int column)
        {
            ReadOnlySpan<byte> cell = _rows[column];
            return cell.SequenceEqual("-"u8) ? default : cell;
        }

        private string? Text(int column) => ColumnText.TextOrNull(_rows[column]);
    }
}
