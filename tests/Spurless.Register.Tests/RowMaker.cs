using System.Globalization;
using System.Text;
using Spurless.Register.Layouts;

namespace Spurless.Register.Tests;

/// <summary>
/// Makes register files in each of the four layouts with every trap, and counts what should come of them. Invented licences throughout.
/// Columns by
/// the definitions that the layouts' docs name.
/// </summary>
internal sealed class RowMaker(int seed)
{
    private readonly Random _random = new(seed);
    private readonly Dictionary<RejectReason, long> _counts = [];

    public string Expected =>
        string.Create(CultureInfo.InvariantCulture, $"{_counts.Values.Sum()} {_counts.GetValueOrDefault(RejectReason.None)} ")
        + string.Join(' ', RejectReasons.All.Where(_counts.ContainsKey)
            .Select(r => FormattableString.Invariant($"{r.Word()}={_counts[r]}")));

    /// <summary>The public access files: HD, LO, AN, FR, EM, EN.</summary>
    public void Uls(Scratch to, int licences)
    {
        StringBuilder hd = new(), lo = new(), an = new(), fr = new(), em = new(), en = new();
        for (int i = 1; i <= licences; i++)
        {
            string call = FormattableString.Invariant($"WZ{i:0000}");
            bool missing = i % 17 == 0;
            bool cancelled = i % 13 == 0;
            bool expired = i % 19 == 0;
            if (!missing)
            {
                hd.Append(Piped("HD", 50, i, call, (6, cancelled ? "C" : "A"), (7, "IG"), (8, "03/01/2025"),
                    (9, expired ? "03/03/2031" : "03/04/2031"))).Append(End());
            }

            // A person's name with an accent and a line feed within it.
            en.Append(Piped("EN", 27, i, call, (6, "L"), (8, "Jos\u00e9 Invented\nand Sons"), (9, "Jos\u00e9"))).Append('\n');
            for (int place = 1; place <= 2; place++)
            {
                bool noPosition = place == 2 && i % 7 == 0;
                bool impossible = place == 2 && i % 11 == 0;
                if (!(place == 2 && i % 23 == 0))
                {
                    lo.Append(Piped(
                        "LO", 51, i, call, (8, "F"), (9, N(place)), (12, "1 \"Quoted\" Street"), (19, i % 5 == 0 ? "" : "120.5"),
                        (20, noPosition ? "" : "40"), (21, impossible ? "75" : "26"), (22, "46.3"), (23, "N"), (24, "79"),
                            (25, N(place + (i % 50))), (26, "56.0"), (27, "W"))).Append(End());
                }

                an.Append(Piped("AN", 36, i, call, (7, "1"), (8, N(place)), (12, "30.5"), (17, i % 4 == 0 ? "65" : ""), (18, "6.1"),
                    (19, i % 4 == 0 ? "120" : ""))).Append(End());
                for (int k = 0; k < 3; k++)
                {
                    long hertz = 450_000_000 + (i * 6_250L) + (k * 5_000_000L);
                    string mhz = (hertz / 1e6m).ToString("0.00000000", CultureInfo.InvariantCulture);
                    bool mobile = k == 2;
                    bool noFrequency = k == 1 && i % 29 == 0;
                    bool malformed = k == 1 && i % 31 == 0;
                    (int, string)[] cells =
                    [
                        (7, N(place)), (8, "1"), (9, mobile ? "MO" : k == 1 ? "FB2T" : "FB"), (11, noFrequency ? "0.00000000" : mhz),
                        (12, k == 1 && i % 6 == 0 ? ((hertz + 25_000) / 1e6m).ToString("0.00000000", CultureInfo.InvariantCulture) : ""),
                        (16, "50.000"), (17, k == 0 ? "100.000" : ""), (21, k == 0 && i % 3 == 0 ? "55.0" : ""), (27, N(k + 1)),
                    ];
                    string row = Piped("FR", 29, i, call, cells);
                    RejectReason reason = malformed ? RejectReason.Malformed : missing ? RejectReason.NoLicenceRecord : cancelled
                        || expired ? RejectReason.NotInForce
                        : mobile ? RejectReason.Mobile : noFrequency ? RejectReason.NoFrequency
                        : noPosition || impossible || (place == 2 && i % 23 == 0) ? RejectReason.NoPosition : RejectReason.None;
                    fr.Append(malformed ? row[..(row.Length / 3)] : i % 8 == 0 ? Broken(row) : row).Append(End());
                    Count(reason);
                    if (i % 37 == 0 && k == 0)
                    {
                        fr.Append(row).Append(End());
                        Count(reason == RejectReason.None ? RejectReason.Duplicate : reason);
                    }

                    foreach (string emission in new[] { "11K2F3E", "16K0F3E", "8K10F1D" })
                    {
                        em.Append(Piped("EM", 16, i, call, (6, N(place)), (7, "1"), (8, mhz), (10, emission))).Append(End());
                    }
                }
            }
        }

        foreach ((string name, StringBuilder text) in new[] { ("HD", hd), ("LO", lo), ("AN", an), ("FR", fr), ("EM", em), ("EN", en) })
        {
            to.Write(name + ".dat", text.ToString());
        }
    }

    /// <summary>TAFL_LTAF.csv: no head, 61 columns.</summary>
    public void Tafl(Scratch to, int rows)
    {
        StringBuilder text = new();
        for (int i = 1; i <= rows; i++)
        {
            string[] cells = new string[61];
            Array.Fill(cells, "");
            bool receiver = i % 5 == 0;
            bool mobile = i % 7 == 0, cancelled = i % 11 == 0, noFrequency = i % 13 == 0, noPosition = i % 17 == 0, malformed = i % 19 == 0;
            cells[0] = receiver ? "RX" : "TX";
            cells[1] = noFrequency ? "" : (460 + (i * 0.0125m)).ToString(CultureInfo.InvariantCulture);
            cells[2] = "F" + N(i);
            cells[10] = "12.5";
            cells[11] = "10K0F1D";
            cells[14] = i % 3 == 0 ? "" : "23.35";
            cells[15] = "100";
            cells[23] = "3";
            cells[28] = i % 4 == 0 ? "" : "45.5";
            cells[29] = i % 9 == 0 ? "210" : "";
            cells[25] = i % 9 == 0 ? "65" : "360";
            cells[31] = i % 6 == 0 ? "Mount \"Invented\", west" : "Mount Invented";
            cells[33] = "XZ" + N(i);
            cells[35] = mobile ? "ML" : "FB";
            cells[40] = noPosition ? "" : "49.2525";
            cells[41] = "-117.6625";
            cells[42] = "517";
            cells[47] = "0100" + N(i);
            cells[51] = cancelled ? "Cancelled" : "Granted";
            cells[54] = "A Person Invented";
            cells[55] = "7 Nowhere Road";
            RejectReason reason = malformed ? RejectReason.Malformed : cancelled ? RejectReason.NotInForce : mobile
                ? RejectReason.Mobile : noFrequency ? RejectReason.NoFrequency
                : noPosition ? RejectReason.NoPosition : RejectReason.None;

            // Quoted as the file has it, one column bare; a stray quote within a quoted field now and then.
            string row = string.Join(',', cells.Select((c, n) => n == 39 ? c : i % 6 == 0 && n == 31 ? "\"" + c + "\"" : "\""
                + c.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""));
            row = malformed ? row[..(row.Length / 2)] : row;
            text.Append(i % 8 == 0 && !malformed ? row.Insert(row.IndexOf("Mount", StringComparison.Ordinal) + 3, "\n") : row)
                .Append(End());
            Count(reason);
            if (i % 23 == 0 && !malformed)
            {
                text.Append(row).Append(End());
                Count(reason == RejectReason.None ? RejectReason.Duplicate : reason);
            }
        }

        to.Write("TAFL_LTAF.csv", text.ToString());
    }

    /// <summary>Bulk files with heads in Australia's layout.</summary>
    public void Rrl(Scratch to, int rows)
    {
        const string deviceHeads =
            "SDD_ID,LICENCE_NO,DEVICE_REGISTRATION_IDENTIFIER,FORMER_DEVICE_IDENTIFIER,AUTHORISATION_DATE,CERTIFICATION_METHOD," +
            "GROUP_FLAG,SITE_RADIUS,FREQUENCY,BANDWIDTH,CARRIER_FREQ,EMISSION,DEVICE_TYPE,TRANSMITTER_POWER,TRANSMITTER_POWER_UNIT," +
            "SITE_ID,ANTENNA_ID,POLARISATION,AZIMUTH,HEIGHT,TILT,FEEDER_LOSS,LEVEL_OF_PROTECTION,EIRP,EIRP_UNIT,SV_ID,SS_ID,EFL_ID," +
            "EFL_FREQ_IDENT,EFL_SYSTEM,LEQD_MODE,RECEIVER_THRESHOLD,AREA_AREA_ID,CALL_SIGN,AREA_DESCRIPTION,AP_ID,CLASS_OF_STATION_CODE," +
            "SUPPLIMENTAL_FLAG,EQ_FREQ_RANGE_MIN,EQ_FREQ_RANGE_MAX,NATURE_OF_SERVICE_ID,HOURS_OF_OPERATION,SA_ID,RELATED_EFL_ID,EQP_ID," +
            "ANTENNA_MULTI_MODE,POWER_IND,LPON_CENTER_LONGITUDE,LPON_CENTER_LATITUDE,TCS_ID,TECH_SPEC_ID,DROPTHROUGH_ID,STATION_TYPE," +
            "STATION_NAME";
        string[] heads = deviceHeads.Split(',');
        int At(string head) => Array.IndexOf(heads, head);
        StringBuilder devices = new(deviceHeads + "\r\n");
        StringBuilder sites = new("SITE_ID,LATITUDE,LONGITUDE,NAME,STATE,LICENSING_AREA_ID,POSTCODE,SITE_PRECISION,ELEVATION,HCIS_L2\r\n");
        StringBuilder licences =
            new("LICENCE_NO,CLIENT_NO,SV_ID,SS_ID,LICENCE_TYPE_NAME,LICENCE_CATEGORY_NAME,DATE_ISSUED,DATE_OF_EFFECT,DATE_OF_EXPIRY," +
            "STATUS,STATUS_TEXT,AP_ID,AP_PRJ_IDENT,SHIP_NAME,BSL_NO\r\n");
        sites.Append("\"S1\",-37.95103,144.42487,\"Invented Hill, \"\"north\"\"\",VIC,1,3000,Within 10 m,250,X\r\n");
        sites.Append("S2,,,Nowhere,VIC,1,3000,,,X\r\n");
        for (int i = 1; i <= rows; i++)
        {
            bool noLicence = i % 7 == 0, expired = i % 5 == 0, noFrequency = i % 11 == 0, noPosition = i % 13 == 0, malformed = i % 17 == 0;
            if (!noLicence)
            {
                licences.Append(CultureInfo.InvariantCulture,
                    $"L{i},C{i},1,1,Land Mobile,Land " +
                    $"Mobile,2025-01-01,2025-01-01,{(expired ? "2031-03-03" : "2031-03-04")},10,Granted,1,,,\r\n");
            }

            string[] cells = new string[heads.Length];
            Array.Fill(cells, "");
            cells[At("SDD_ID")] = N(i);
            cells[At("LICENCE_NO")] = "L" + N(i);
            cells[At("FREQUENCY")] = noFrequency ? "0" : N(160_000_000 + (i * 12_500));
            cells[At("BANDWIDTH")] = "10100";
            cells[At("EMISSION")] = "10K1F3E";
            cells[At("DEVICE_TYPE")] = i % 4 == 0 ? "R" : "T";
            cells[At("TRANSMITTER_POWER")] = "25";
            cells[At("TRANSMITTER_POWER_UNIT")] = "W";
            cells[At("EIRP")] = i % 2 == 0 ? "83" : "";
            cells[At("EIRP_UNIT")] = i % 2 == 0 ? "W" : "";
            cells[At("SITE_ID")] = noPosition ? (i % 2 == 0 ? "S2" : "S9") : "S1";
            cells[At("HEIGHT")] = "30";
            cells[At("CALL_SIGN")] = i % 3 == 0 ? "" : "VZ" + N(i);
            cells[At("STATION_NAME")] = i % 6 == 0 ? "\"Broken\r\nname, of two\"" : "Plain";
            string row = string.Join(',', cells);
            devices.Append(malformed ? row[..20] : row).Append("\r\n");
            Count(malformed ? RejectReason.Malformed : noLicence ? RejectReason.NoLicenceRecord : expired ? RejectReason.NotInForce
                : noFrequency ? RejectReason.NoFrequency
                : noPosition ? RejectReason.NoPosition : RejectReason.None);
        }

        to.Write("device_details.csv", devices.ToString());
        to.Write("site.csv", sites.ToString());
        to.Write("licence.csv", licences.ToString());
    }

    /// <summary>WTR.csv in its newer set of heads.</summary>
    public void Wtr(Scratch to, int rows)
    {
        const string headText =
            "Licence Number,License Issue " +
            "Date,SID_LAT_N_S,SID_LAT_DEG,SID_LAT_MIN,SID_LAT_SEC,SID_LONG_E_W,SID_LONG_DEG,SID_LONG_MIN,SID_LONG_SEC,NGR,Frequency " +
            "(Hz),Station Type,Channel Width (Hz),Height Above Sea Level,Antenna ERP,Antenna ERP Unit,Antenna ERP Type,Antenna " +
            "Type,Antenna Gain,Antenna AZIMUTH,Horizontal Elements,Vertical Elements,Antenna Height,Antenna " +
            "Location,EFL_UPPER_LOWER,Antenna Direction,Antenna Elevation,Antenna Polarisation,Antenna Name,Feeding Loss,Fade " +
            "Margin,Emission Code,Licencee Surname,Licencee First Name,Licencee Company,Status,Tradeable,Publishable,Product " +
            "Code,Product Description,Latitude(Deg),Longitude(Deg)";
        string[] heads = headText.Split(',');
        int At(string head) => Array.IndexOf(heads, head);
        StringBuilder text = new(headText + "\n");
        for (int i = 1; i <= rows; i++)
        {
            bool ended = i % 5 == 0, noFrequency = i % 7 == 0, noPosition = i % 11 == 0, malformed = i % 13 == 0, byDms = i % 3 == 0;
            string[] cells = new string[heads.Length];
            Array.Fill(cells, "-");
            cells[0] = FormattableString.Invariant($"{i:0000000}/1");
            if (byDms && !noPosition)
            {
                (cells[2], cells[3], cells[4], cells[5]) = ("N", "51", "36", "5.15");
                (cells[6], cells[7], cells[8], cells[9]) = ("W", "0", "2", "48.5");
            }

            cells[At("Frequency (Hz)")] = noFrequency ? "-" : N(461_925_000 + (i * 12_500));
            cells[At("Station Type")] = i % 4 == 0 ? "R" : "T";
            cells[At("Channel Width (Hz)")] = "12500";
            cells[At("Antenna ERP")] = "13.98";
            cells[At("Antenna ERP Unit")] = "dBW";
            cells[At("Antenna ERP Type")] = "ERP";
            cells[At("Antenna Height")] = "15";
            cells[At("Emission Code")] = "11K0G3EJN";
            cells[At("Licencee Surname")] = "\"Surname, Invented\"";
            cells[At("Licencee First Name")] = "Zo\u00eb";
            cells[At("Status")] = ended ? "Revoked" : "Live";
            cells[At("Latitude(Deg)")] = byDms || noPosition ? "-" : "51.60809863";
            cells[At("Longitude(Deg)")] = byDms || noPosition ? "-" : "-0.04679522";
            string row = string.Join(',', cells);
            text.Append(malformed ? string.Join(',', cells.Take(30)) : row).Append('\n');
            RejectReason reason = malformed ? RejectReason.Malformed : ended ? RejectReason.NotInForce : noFrequency
                ? RejectReason.NoFrequency : noPosition ? RejectReason.NoPosition : RejectReason.None;
            Count(reason);
            if (i % 17 == 0 && !malformed)
            {
                text.Append(row).Append('\n');
                Count(reason == RejectReason.None ? RejectReason.Duplicate : reason);
            }
        }

        to.Write("WTR.csv", text.ToString());
    }

    private static string N(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Piped(string type, int columns, int system, string call, params (int Position, string Value)[] cells)
    {
        string[] all = new string[columns];
        Array.Fill(all, "");
        (all[0], all[1], all[4]) = (type, N(system), call);
        foreach ((int position, string value) in cells)
        {
            all[position - 1] = value;
        }

        return string.Join('|', all);
    }

    private void Count(RejectReason reason) => _counts[reason] = _counts.GetValueOrDefault(reason) + 1;

    private string End() => _random.Next(2) == 0 ? "\n" : "\r\n";

    /// <summary>A line feed within a field that nobody reads.</summary>
    private static string Broken(string row) => row.Insert(row.LastIndexOf('|') - 1, "\n");
}
