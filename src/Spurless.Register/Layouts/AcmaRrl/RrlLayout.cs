using Spurless.Register.Reading;
using Spurless.Register.Records;

namespace Spurless.Register.Layouts.AcmaRrl;

/// <summary>
/// ACMA's Register of Radiocommunications Licences, bulk files with heads: <c>device_details.csv</c> one row a device, <c>site.csv</c>,
/// <c>licence.csv</c>, <c>antenna.csv</c> where it is there. <c>client.csv</c> is not read: names of persons are in it.
/// </summary>
internal sealed class RrlLayout : IRegisterLayout
{
    private static readonly (string Name, string[] Heads)[] Tables =
    [
        ("device_details", ["SDD_ID", "LICENCE_NO", "FREQUENCY", "SITE_ID"]),
        ("site", ["SITE_ID", "LATITUDE", "LONGITUDE"]),
        ("licence", ["LICENCE_NO", "DATE_OF_EXPIRY", "STATUS"]),
        ("antenna", ["ANTENNA_ID", "GAIN", "H_BEAMWIDTH"]),
    ];

    private static readonly string[] NotRead =
        ["antenna_pattern", "antenna_polarity", "client", "client_type", "licence_service", "licence_subservice", "licence_status",
        "bsl", "bsl_area", "access_area", "auth_spectrum_area", "auth_spectrum_freq", "class_of_station", "fee_status", "industry_cat",
        "nature_of_service", "reports_text_block", "satellite", "applic_text_block", "bandwidth_codes"];

    private readonly Dictionary<string, RegisterFile> _files;
    private readonly Dictionary<string, (double? Latitude, double? Longitude, double? Ground)> _sites = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (bool? InForce, DateOnly? Expires, string? Service)> _licences = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (double? Gain, double? Beamwidth)> _antennas = new(StringComparer.Ordinal);

    private RrlLayout(Dictionary<string, RegisterFile> files) => _files = files;

    public string Register => "acma-rrl";

    public IReadOnlyList<RegisterFile> Rows => [_files["device_details"]];

    public IReadOnlyList<RegisterFile> Files => [.. _files.Values];

    /// <summary>Whether a file is called like the one that holds the frequencies: the others' names say nothing by themselves.</summary>
    public static bool IsNamed(string name) => name.Equals("device_details.csv", StringComparison.OrdinalIgnoreCase);

    /// <summary>Takes this register's files.</summary>
    /// <param name="own">Those with heads of its tables.</param>
    /// <param name="others">Files that fit nothing: of them those that belong to this register and aren't read are taken out.</param>
    /// <param name="watch">Takes findings.</param>
    public static RrlLayout? Claim(IReadOnlyList<RegisterFile> own, List<RegisterFile> others, ImportWatch watch)
    {
        if (own.Count == 0)
        {
            return null;
        }

        Dictionary<string, RegisterFile> claimed = new(StringComparer.Ordinal);
        foreach (RegisterFile file in own)
        {
            if (!claimed.TryAdd(TableOf(file, watch)!, file))
            {
                others.Add(file);
            }
        }

        others.RemoveAll(static f => NotRead.Contains(Path.GetFileNameWithoutExtension(f.Name).ToLowerInvariant()));
        foreach ((string table, string what) in new[] { ("device_details", "frequencies"), ("site", "positions"), ("licence", "licences") })
        {
            if (!claimed.ContainsKey(table))
            {
                watch.Diagnostics.Error(claimed.Values.First().Shown, 0, 0, $"{table}.csv, the {what}, is missing beside this file",
                    "give all files of one download, best the whole zip file");
            }
        }

        return new RrlLayout(claimed);
    }

    /// <summary>The table that has these heads; null where none has.</summary>
    public static string? TableOf(IReadOnlyList<string> heads) =>
        Tables.FirstOrDefault(t => t.Heads.All(w => heads.Contains(w, StringComparer.OrdinalIgnoreCase))).Name;

    public void LoadTables(ImportWatch watch)
    {
        Load("site", watch, static t => t.Column("SITE_ID"), (t, row) => (
            ColumnText.Number(row[t.Column("LATITUDE")]), ColumnText.Number(row[t.Column("LONGITUDE")]),
                ColumnText.Number(row[t.Column("ELEVATION")])), _sites);
        Load("licence", watch, static t => t.Column("LICENCE_NO"), (t, row) => Licence(t, row, watch), _licences);
        Load("antenna", watch, static t => t.Column("ANTENNA_ID"), static (t, row) => (
            ColumnText.Number(row[t.Column("GAIN")]), ColumnText.NotZero(row[t.Column("H_BEAMWIDTH")])), _antennas);
    }

    public IRowReader? Open(RegisterFile file, ImportWatch watch)
    {
        return HeadedReader.Open(() => file.Open(watch.Limits)) is { } table ? new RowReader(table, this) : null;
    }

    private static (bool? InForce, DateOnly? Expires, string? Service) Licence(HeadedReader table, RecordReader row, ImportWatch watch)
    {
        string? status = ColumnText.TextOrNull(row[table.Column("STATUS_TEXT")]) ?? ColumnText.TextOrNull(row[table.Column("STATUS")]);
        DateOnly? expires = ColumnText.Date(row[table.Column("DATE_OF_EXPIRY")], monthFirst: false);
        bool? inForce = expires is { } day && day < watch.AsOf ? false : ImportWatch.IsInForce(status);
        return (inForce, expires, ColumnText.TextOrNull(row[table.Column("LICENCE_TYPE_NAME")]));
    }

    private void Load<T>(string name, ImportWatch watch, Func<HeadedReader, int> key, Func<HeadedReader, RecordReader, T> value,
        Dictionary<string, T> into)
    {
        into.Clear();
        if (!_files.TryGetValue(name, out RegisterFile? file) || HeadedReader.Open(() => file.Open(watch.Limits)) is not { } table)
        {
            return;
        }

        using HeadedReader closing = table;
        int column = key(table);
        for (int i = 0; table.Rows.TryRead(); i++)
        {
            if ((i & 0xFFF) == 0)
            {
                watch.Cancel.ThrowIfCancellationRequested();
            }

            if (table.Rows.IsWhole)
            {
                into[ColumnText.Text(table.Rows[column])] = value(table, table.Rows);
            }
        }
    }

    private static string? TableOf(RegisterFile file, ImportWatch watch)
    {
        using MemoryStream stream = new(file.Head(watch.Limits));
        return TableOf(HeadedReader.ReadHeads(stream) ?? []);
    }

    private sealed class RowReader : IRowReader
    {
        private readonly RrlLayout _owner;
        private readonly HeadedReader _table;
        private readonly RecordReader _rows;
        private readonly int _device, _licence, _frequency, _bandwidth, _emission, _type, _power, _powerUnit, _site, _antenna, _azimuth,
            _height, _loss, _eirp, _eirpUnit, _call, _class;

        public RowReader(HeadedReader table, RrlLayout owner)
        {
            (_owner, _table, _rows) = (owner, table, table.Rows);
            _device = table.Column("SDD_ID");
            _licence = table.Column("LICENCE_NO");
            _frequency = table.Column("FREQUENCY");
            _bandwidth = table.Column("BANDWIDTH");
            _emission = table.Column("EMISSION");
            _type = table.Column("DEVICE_TYPE");
            _power = table.Column("TRANSMITTER_POWER");
            _powerUnit = table.Column("TRANSMITTER_POWER_UNIT");
            _site = table.Column("SITE_ID");
            _antenna = table.Column("ANTENNA_ID");
            _azimuth = table.Column("AZIMUTH");
            _height = table.Column("HEIGHT");
            _loss = table.Column("FEEDER_LOSS");
            _eirp = table.Column("EIRP");
            _eirpUnit = table.Column("EIRP_UNIT");
            _call = table.Column("CALL_SIGN");
            _class = table.Column("CLASS_OF_STATION_CODE");
        }

        public long Line => _rows.Line;

        public long BytesRead => _table.BytesRead;

        public void Dispose() => _table.Dispose();

        public bool TryRead() => _rows.TryRead();

        public RejectReason Parse(ParsedRecord to)
        {
            to.Clear("acma-rrl");
            foreach (int field in (ReadOnlySpan<int>)[_device, _licence, _frequency, _type, _site])
            {
                to.Identify(_rows[field]);
            }

            to.CloseKey();
            if (!_rows.IsWhole)
            {
                return RejectReason.Malformed;
            }

            string number = ColumnText.Text(_rows[_licence]);
            if (!_owner._licences.TryGetValue(number, out (bool? InForce, DateOnly? Expires, string? Service) licence))
            {
                return RejectReason.NoLicenceRecord;
            }

            if (licence.InForce == false)
            {
                return RejectReason.NotInForce;
            }

            if (StationClasses.IsMobile(_rows[_class]))
            {
                return RejectReason.Mobile;
            }

            to.FrequencyHz = ColumnText.Hertz(_rows[_frequency], 1);
            if (to.FrequencyHz == 0)
            {
                return RejectReason.NoFrequency;
            }

            if (_owner._sites.TryGetValue(ColumnText.Text(_rows[_site]), out (double? Latitude, double? Longitude, double? Ground) site))
            {
                (to.LatitudeDegrees, to.LongitudeDegrees, to.GroundM) = site;
            }

            to.Transmits = !_rows[_type].StartsWith("R"u8);
            (to.Licence, to.Service, to.Expires) = (number, licence.Service, licence.Expires);
            to.CallSign = ColumnText.TextOrNull(_rows[_call]);
            to.StationClass = ColumnText.TextOrNull(_rows[_class]);
            to.Emission = ColumnText.TextOrNull(_rows[_emission]);
            to.SetBandwidth(ColumnText.Hertz(_rows[_bandwidth], 1));
            (double? Gain, double? Beamwidth) antenna = _owner._antennas.GetValueOrDefault(ColumnText.Text(_rows[_antenna]));
            to.HeightM = ColumnText.Number(_rows[_height]);
            to.SetBeam(ColumnText.Number(_rows[_azimuth]), antenna.Beamwidth);
            if (to.Transmits)
            {
                to.SetPower(
                    Power(to, _eirp, _eirpUnit), null, Power(to, _power, _powerUnit), antenna.Gain, ColumnText.Number(_rows[_loss]));
            }

            to.Notes |= (to.HeightM is null ? RecordNotes.NoHeight : 0) | (licence.InForce is null ? RecordNotes.StatusUnknown : 0);
            return RejectReason.None;
        }

        public string RejectText() => ColumnText.Text(_rows.Raw);

        private double? Power(ParsedRecord to, int value, int unit)
        {
            double? figure = ColumnText.Number(_rows[value]);
            string? named = ColumnText.TextOrNull(_rows[unit]);
            if (figure is not null && named is null && to.EirpDbm is null)
            {
                // Without a unit the figure says nothing.
                return null;
            }

            return PowerUnits.Dbm(figure, named);
        }
    }
}
