using System.Globalization;
using System.Text;
using Spurless.Register.Records;

namespace Spurless.Register.Tests.Layouts;

/// <summary>
/// Every field of every layout comes out as it went in: rows are written here by the columns that docs/checks.md, section 6, names, each
/// by its position or head, and the records in the database are compared with the stations they were written of.
/// </summary>
public sealed class FieldsOfLayoutsTests
{
    // docs/checks.md 6.2, 0-based: 14 ERP in dBW, 15 power in W, 16 losses, 23 gain, 25 beamwidth, 28 height, 29 azimuth, 42 ground.
    [Fact]
    public void Fields_of_the_licence_extract_are_those_of_its_columns() => Station.Some.Sample(
        static stations =>
        {
            using Scratch scratch = new();
            StringBuilder text = new();
            foreach (Station s in stations)
            {
                string[] row = new string[61];
                Array.Fill(row, "");
                (row[0], row[1], row[2]) = (s.Transmits ? "TX" : "RX", Station.Megahertz(s.FrequencyHz), s.Licence);
                (row[10], row[11]) = (s.ChannelHz > 0 ? Station.Text(s.ChannelHz / 1000m) : "", s.Emission ?? "");
                (row[14], row[15], row[16]) = (Station.Text(s.Erp), Station.Text(s.Watts), Station.Text(s.Loss));
                (row[23], row[25], row[28]) = (Station.Text(s.Gain), Station.Text(s.Beamwidth), Station.Text(s.Height));
                (row[29], row[33], row[35]) = (Station.Text(s.Azimuth), s.Call ?? "", "FB");
                (row[40], row[41], row[42]) = (Station.Text(s.Latitude), Station.Text(s.Longitude), Station.Text(s.Ground));
                (row[47], row[48], row[51]) = (s.Licence, s.Service ?? "", "Granted");
                text.Append(string.Join(',', row.Select(static c => Station.Cell(c, ',')))).Append('\n');
            }

            scratch.Write("TAFL_LTAF.csv", text.ToString(), Encoding.UTF8);
            Assert.NotNull(scratch.Import().Answer);
            Compare(scratch, stations, static s => s.Radiating(
                s.Record("ised-tafl") with { StationClass = "FB" },
                null,
                (double?)s.Erp + 30,
                Station.Dbm(s.Watts),
                (double?)s.Gain,
                (double?)s.Loss ?? 0));
        },
        iter: 6);

    // docs/checks.md 6.4, the newer heads, in any order and case; a hyphen for what is empty.
    [Fact]
    public void Fields_of_the_telegraphy_register_are_those_of_its_heads_in_any_order() => Station.Some.Sample(
        static stations =>
        {
            using Scratch scratch = new();
            Dictionary<string, Func<Station, string?>> columns = new()
            {
                ["Licence Number"] = static s => s.Licence,
                ["FREQUENCY (HZ)"] = static s => Station.Text(s.FrequencyHz),
                ["station type"] = static s => s.Transmits ? "T" : "R",
                ["Channel Width (Hz)"] = static s => s.ChannelHz > 0 ? Station.Text(s.ChannelHz) : null,
                ["Height Above Sea Level"] = static s => Station.Text(s.Ground),
                ["Antenna ERP"] = static s => Station.Text(s.Erp),
                ["Antenna ERP Unit"] = static _ => "dBW",
                ["Antenna ERP Type"] = static s => s.Loss is null ? "ERP" : "EIRP",
                ["Antenna AZIMUTH"] = static s => Station.Text(s.Azimuth),
                ["Horizontal Beamwidth"] = static s => Station.Text(s.Beamwidth),
                ["Antenna Height"] = static s => Station.Text(s.Height),
                ["Emission Code"] = static s => s.Emission,
                ["Licencee Surname"] = static _ => "Invented, Person",
                ["Status"] = static _ => "Live",
                ["Product Description"] = static s => s.Service,
                ["Latitude(Deg)"] = static s => Station.Text(s.Latitude),
                ["Longitude(Deg)"] = static s => Station.Text(s.Longitude),
            };
            string[] heads = [.. columns.Keys];
            new Random(stations.Length).Shuffle(heads);
            StringBuilder text = new(string.Join(',', heads) + "\r\n");
            foreach (Station s in stations)
            {
                text.Append(string.Join(',', heads.Select(h => Station.Cell(columns[h](s) is { Length: > 0 } c ? c : "-", ','))))
                    .Append("\r\n");
            }

            scratch.Write("WTR.csv", text.ToString(), Encoding.UTF8);
            Assert.NotNull(scratch.Import().Answer);

            // No call sign in this one. The unit and the kind of the power stand beside it.
            Compare(scratch, stations, static s => s.Radiating(
                s.Record("ofcom-wtr") with { CallSign = null },
                s.Loss is null ? null : (double?)s.Erp + 30,
                s.Loss is null ? (double?)s.Erp + 30 : null,
                null,
                null,
                0));
        },
        iter: 6);

    // docs/checks.md 6.3: devices refer to a site, a licence and an antenna, each in a table of its own.
    [Fact]
    public void Fields_of_the_device_tables_are_joined_by_their_numbers() => Station.Some.Sample(
        static stations =>
        {
            using Scratch scratch = new();
            StringBuilder devices = new("SDD_ID,LICENCE_NO,FREQUENCY,BANDWIDTH,EMISSION,DEVICE_TYPE,TRANSMITTER_POWER,"
                + "TRANSMITTER_POWER_UNIT,SITE_ID,ANTENNA_ID,AZIMUTH,HEIGHT,FEEDER_LOSS,EIRP,EIRP_UNIT,CALL_SIGN,CLASS_OF_STATION_CODE\n");
            StringBuilder sites = new("SITE_ID,LATITUDE,LONGITUDE,NAME,ELEVATION\n");
            StringBuilder licences = new("LICENCE_NO,LICENCE_TYPE_NAME,DATE_OF_EXPIRY,STATUS,STATUS_TEXT\n");
            StringBuilder antennas = new("ANTENNA_ID,GAIN,H_BEAMWIDTH\n");

            // The tables stand in another order than the devices that name their rows.
            foreach ((Station s, int i) in stations.Select(static (s, i) => (s, i)).Reverse())
            {
                sites.Append(CultureInfo.InvariantCulture, $"S{i},{s.Latitude},{s.Longitude},\"Hill, {i}\",{s.Ground}\n");
                licences.Append(CultureInfo.InvariantCulture,
                    $"{s.Licence},{Station.Cell(s.Service ?? "", ',')},2031-03-04,10,Granted\n");
                antennas.Append(CultureInfo.InvariantCulture, $"A{i},{s.Gain},{s.Beamwidth}\n");
            }

            foreach ((Station s, int i) in stations.Select(static (s, i) => (s, i)))
            {
                string[] row =
                [
                    Station.Text(i), s.Licence, Station.Text(s.FrequencyHz), s.ChannelHz > 0 ? Station.Text(s.ChannelHz) : "",
                    s.Emission ?? "", s.Transmits ? "T" : "R", Station.Text(s.Watts), s.Watts is null ? "" : "W", "S" + Station.Text(i),
                    "A" + Station.Text(i), Station.Text(s.Azimuth), Station.Text(s.Height), Station.Text(s.Loss), Station.Text(s.Erp),
                    s.Erp is null ? "" : "dBW", s.Call ?? "", "FB",
                ];
                devices.Append(string.Join(',', row)).Append('\n');
            }

            foreach ((string name, StringBuilder table) in
                new[] { ("device_details", devices), ("site", sites), ("licence", licences), ("antenna", antennas) })
            {
                scratch.Write(name + ".csv", table.ToString(), Encoding.UTF8);
            }

            Assert.NotNull(scratch.Import().Answer);
            Compare(scratch, stations, static s => s.Radiating(
                s.Record("acma-rrl") with { StationClass = "FB" },
                (double?)s.Erp + 30,
                null,
                Station.Dbm(s.Watts),
                (double?)s.Gain,
                (double?)s.Loss ?? 0));
        },
        iter: 6);

    // docs/checks.md 6.1, 1-based: the antenna stands before the location in AN, behind it in FR and EM; degrees, minutes and seconds.
    [Fact]
    public void Fields_of_the_public_access_files_are_joined_by_location_and_antenna() => Station.Some.Sample(
        static stations =>
        {
            using Scratch scratch = new();
            WritePublicAccess(scratch, stations);
            Assert.NotNull(scratch.Import().Answer);
            Compare(scratch, stations, static s => s.Radiating(
                s.Record("fcc-uls") with
                {
                    CallSign = s.Licence,
                    Service = "IG",
                    StationClass = "FB",
                    Transmits = true,
                    BandwidthHz = s.Emission is null ? null : s.Record("").BandwidthHz,
                },
                null,
                (double?)s.Erp + 30,
                Station.Dbm(s.Watts),
                (double?)s.Gain,
                (double?)s.Loss ?? 0), static s => s with { Transmits = true });
        },
        iter: 6);

    // docs/formats/register.md: any table, explained by its mapping file; the separator is the one the heads are written with.
    [Fact]
    public void Fields_of_a_mapped_table_are_what_its_mapping_says_in_every_unit_and_separator() => Station.Some.Sample(
        static stations =>
        {
            using Scratch scratch = new();
            char separator = ",;\t"[stations.Length % 3];
            (string Unit, decimal Hertz) frequency = new[] { ("Hz", 1m), ("kHz", 1e3m), ("MHz", 1e6m), ("GHz", 1e9m) }[stations.Length % 4];
            bool feet = stations.Length % 2 == 0, dipoles = stations.Length % 5 < 2;
            scratch.Write("any.columns.yaml", $$"""
                spurless_columns: 1
                register: invented
                columns:
                  licence: "No."
                  call_sign: Call
                  service: Service
                  emission: Emission
                  latitude: Lat
                  longitude: Lon
                  bearing: Bearing
                  beamwidth: Width
                  kind: Kind
                  frequency: { column: F, unit: {{frequency.Unit}} }
                  bandwidth: { column: Channel, unit: kHz }
                  erp: { column: ERP, unit: dBW }
                  power: { column: Power, unit: kW }
                  gain: { column: Gain, unit: {{(dipoles ? "dBd" : "dBi")}} }
                  height: { column: Height, unit: {{(feet ? "ft" : "m")}} }
                  ground: { column: Ground, unit: m }
                """);
            StringBuilder text = new(string.Join(separator, "Lon", "F", "Kind", "No.", "Owner", "Call", "Service", "Emission", "Lat",
                "Bearing", "Width", "Channel", "ERP", "Power", "Gain", "Height", "Ground") + "\n");
            foreach (Station s in stations)
            {
                string[] row =
                [
                    Station.Text(s.Longitude), Station.Text(s.FrequencyHz / frequency.Hertz), s.Transmits ? "base" : "receiver", s.Licence,
                    "Invented", s.Call ?? "", s.Service ?? "", s.Emission ?? "", Station.Text(s.Latitude), Station.Text(s.Azimuth),
                    Station.Text(s.Beamwidth), s.ChannelHz > 0 ? Station.Text(s.ChannelHz / 1000m) : "", Station.Text(s.Erp),
                    Station.Text(s.Watts / 1000), Station.Text(s.Gain), Station.Text(s.Height), Station.Text(s.Ground),
                ];
                text.Append(string.Join(separator, row.Select(c => Station.Cell(c, separator)))).Append('\n');
            }

            scratch.Write("any.csv", text.ToString(), Encoding.UTF8);
            Assert.NotNull(scratch.Import().Answer);

            // A foot is 0.3048 m by definition (international yard and pound agreement, 1959).
            Compare(scratch, stations, s => s.Radiating(
                s.Record("invented") with { HeightM = (double?)s.Height * (feet ? 0.3048 : 1) },
                null,
                (double?)s.Erp + 30,
                Station.Dbm(s.Watts),
                (double?)s.Gain + (dipoles ? 2.15 : 0),
                0));
        },
        iter: 15);

    private static void WritePublicAccess(Scratch scratch, Station[] stations)
    {
        Dictionary<string, StringBuilder> files = new()
        {
            ["HD"] = new(),
            ["LO"] = new(),
            ["AN"] = new(),
            ["FR"] = new(),
            ["EM"] = new(),
        };
        void Row(string type, int columns, int system, params (int Position, string Value)[] cells)
        {
            string[] row = new string[columns];
            Array.Fill(row, "");
            (row[0], row[1]) = (type, Station.Text(system));
            foreach ((int position, string value) in cells)
            {
                row[position - 1] = value;
            }

            files[type].Append(string.Join('|', row)).Append('\n');
        }

        foreach ((Station s, int i) in stations.Select(static (s, i) => (s, i)))
        {
            // Two locations and two antennas that are not meant stand beside those that are.
            (string location, string antenna) = (Station.Text((i % 3) + 1), Station.Text((i % 2) + 4));
            (string[] lat, string[] lon) = (Parts(s.Latitude, "NS"), Parts(s.Longitude, "EW"));
            Row("HD", 50, i, (5, s.Licence), (6, "A"), (7, "IG"), (9, "03/04/2031"));
            for (int other = 1; other <= 3; other++)
            {
                bool own = Station.Text(other) == location;
                Row("LO", 51, i, (9, Station.Text(other)), (19, own ? Station.Text(s.Ground) : "77"), (20, own ? lat[0] : "1"),
                    (21, own ? lat[1] : "1"), (22, own ? lat[2] : "1"), (23, own ? lat[3] : "N"), (24, own ? lon[0] : "1"),
                    (25, own ? lon[1] : "1"), (26, own ? lon[2] : "1"), (27, own ? lon[3] : "E"));
            }

            Row("AN", 36, i, (7, antenna), (8, location), (12, Station.Text(s.Height)), (17, Station.Text(s.Beamwidth)),
                (18, Station.Text(s.Gain)), (19, Station.Text(s.Azimuth)), (34, Station.Text(s.Loss)));
            Row("AN", 36, i, (7, location), (8, antenna), (12, "99"), (17, "9"), (18, "9"), (19, "9"), (34, "9"));
            Row("FR", 29, i, (7, location), (8, antenna), (9, "FB"), (11, Station.Megahertz(s.FrequencyHz)),
                (16, Station.Text(s.Watts)), (17, s.Erp is { } dbw ? Watts(dbw) : ""));
            if (s.Emission is { } emission)
            {
                // A narrower one, and the widest of another frequency.
                Row("EM", 16, i, (6, location), (7, antenna), (8, Station.Megahertz(s.FrequencyHz)), (10, "10H0N0N"));
                Row("EM", 16, i, (6, location), (7, antenna), (8, Station.Megahertz(s.FrequencyHz)), (10, emission));
                Row("EM", 16, i, (6, location), (7, antenna), (8, Station.Megahertz(s.FrequencyHz + 5_000)), (10, "40M0W7D"));
            }
        }

        foreach ((string type, StringBuilder text) in files)
        {
            scratch.Write(type + ".dat", text.ToString());
        }
    }

    private static void Compare(
        Scratch scratch, Station[] stations, Func<Station, RegisterRecord> expected, Func<Station, Station>? read = null)
    {
        Station[] all = [.. stations.Select(s => read?.Invoke(s) ?? s)];
        using RegisterStore store = scratch.Open();
        Station.Same([.. all.Where(static s => s.Transmits).Select(expected)], [.. store.All(true)]);
        Station.Same([.. all.Where(static s => !s.Transmits).Select(expected)], [.. store.All(false)]);
        Assert.Equal(all.Length, store.Count);
    }

    private static string[] Parts(decimal degrees, string sides)
    {
        decimal whole = decimal.Truncate(Math.Abs(degrees)), minutes = (Math.Abs(degrees) - whole) * 60;
        return
        [
            Station.Text(whole), Station.Text(decimal.Truncate(minutes)), Station.Text((minutes - decimal.Truncate(minutes)) * 60),
            sides[degrees < 0 ? 1 : 0].ToString(),
        ];
    }

    private static string Watts(decimal dbw) => Math.Pow(10, (double)dbw / 10).ToString("R", CultureInfo.InvariantCulture);
}
