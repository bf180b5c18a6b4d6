using System.Text;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Register.Importing;
using Spurless.Register.Layouts;
using Spurless.Register.Layouts.Mapped;
using Spurless.Register.Records;

namespace Spurless.Register.Tests.Layouts;

/// <summary>Rules of single layouts: statuses, units that are not there, figures that cannot be, wrong mapping files, rejects.</summary>
public sealed class LayoutRulesTests
{
    // Words of the registers' own status columns (from memory), and forms of them.
    [Theory]
    [InlineData(null, true)]
    [InlineData("  ", true)]
    [InlineData("Live", true)]
    [InlineData(" GRANTED ", true)]
    [InlineData("In force", true)]
    [InlineData("Not in force", false)]
    [InlineData("Cancelled", false)]
    [InlineData("canceled by the holder", false)]
    [InlineData("Expired 2030", false)]
    [InlineData("Inactive", false)]
    [InlineData("Liveliness", null)]
    [InlineData("on hold", null)]
    public void Status_in_words_is_in_force_ended_or_not_known(string? status, bool? inForce) =>
        Assert.Equal(inForce, ImportWatch.IsInForce(status));

    [Fact]
    public void Record_of_a_status_that_is_not_known_is_kept_and_says_so()
    {
        RegisterRecord[] records = Mapped("L,F,Lat,Lon,S\n1,1000000,50,1,on hold\n2,1000000,50,1,live\n3,1000000,50,1,revoked\n",
            "status: S");

        Assert.Equal(["1", "2"], records.Select(static r => r.Licence));
        Assert.Equal([true, false], records.Select(static r => r.Notes.HasFlag(RecordNotes.StatusUnknown)));
    }

    // An ERP without a unit is taken as dBW and one without a kind as ERP, and both are said (docs/checks.md 6.4: older heads).
    [Theory]
    [InlineData("10", "dBW", "ERP", 42.15, RecordNotes.FromErp)]
    [InlineData("10", "dBW", "EIRP", 40.0, RecordNotes.None)]
    [InlineData("10", "W", "ERP", 42.15, RecordNotes.FromErp)]
    [InlineData("10", "-", "ERP", 42.15, RecordNotes.FromErp | RecordNotes.PowerUnitAssumed)]
    [InlineData("10", "-", "W", 42.15, RecordNotes.FromErp | RecordNotes.PowerKindAssumed)]
    [InlineData("10", "-", "-", 42.15, RecordNotes.FromErp | RecordNotes.PowerUnitAssumed | RecordNotes.PowerKindAssumed)]
    [InlineData("-", "dBW", "ERP", null, RecordNotes.None)]
    [InlineData("0", "W", "ERP", null, RecordNotes.None)]
    public void Power_of_the_telegraphy_register_says_what_was_assumed_of_it(
        string figure, string unit, string kind, double? eirpDbm, RecordNotes notes)
    {
        using Scratch scratch = new();
        scratch.Write("WTR.csv", "Licence Number,Frequency (Hz),Station Type,Antenna ERP,Antenna ERP Unit,Antenna ERP Type,Antenna Height,"
            + $"Latitude(Deg),Longitude(Deg)\n1/1,461925000,T,{figure},{unit},{kind},12,51.6,-0.05\n");

        RegisterRecord record = Assert.Single(Records(scratch));

        Assert.Equal(eirpDbm is null, record.EirpDbm is null);
        Assert.Equal(eirpDbm ?? 0, record.EirpDbm ?? 0, 1e-9);
        Assert.Equal(notes, record.Notes);
    }

    // A transmitter's power without its unit is none that is known: the record stays, its power does not.
    [Fact]
    public void Power_of_a_device_without_a_unit_is_not_known()
    {
        using Scratch scratch = new();
        scratch.Write("site.csv", "SITE_ID,LATITUDE,LONGITUDE\n1,-37.95,144.42\n");
        scratch.Write("licence.csv", "LICENCE_NO,DATE_OF_EXPIRY,STATUS\n7,2031-03-04,Granted\n8,2031-03-03,Granted\n");
        scratch.Write("device_details.csv", """
            SDD_ID,LICENCE_NO,FREQUENCY,SITE_ID,DEVICE_TYPE,TRANSMITTER_POWER,TRANSMITTER_POWER_UNIT,EIRP,EIRP_UNIT
            1,7,160000000,1,T,25,,,
            2,7,160000000,1,T,25,W,,
            3,7,160000000,1,T,25,,14,
            4,8,160000000,1,T,25,W,,
            5,9,160000000,1,T,25,W,,
            6,7,160000000,2,T,25,W,,
            7,7,160000000,1,T,25000,mW,,
            """ + "\n");

        ImportAnswer answer = scratch.Import().Answer!;

        Assert.Equal("7 4 no licence record=1 not in force=1 no position=1", Scratch.Counts(answer));
        using RegisterStore store = scratch.Open();

        // 25 W are 43.979 dBm, and 2.15 dB of a dipole more.
        double?[] found = [.. store.All(true).Select(static r => r.EirpDbm)];
        Assert.Equal((null, null), (found[0], found[2]));
        Assert.Equal((10 * Math.Log10(25_000)) + 2.15, found[1]!.Value, 1e-9);
        Assert.Equal(found[1]!.Value, found[3]!.Value, 1e-9);
    }

    // A height beyond every number that a record can hold is a slip of the pen, and stops no import.
    [Theory]
    [InlineData("1e30")]
    [InlineData("-1e38")]
    [InlineData("1e300")]
    [InlineData("99999999999999999999999999999999")]
    [InlineData("NaN")]
    [InlineData("high")]
    public void Figures_that_cannot_be_are_not_known_and_stop_nothing(string figure)
    {
        using Scratch scratch = new();
        scratch.Write("HD.dat", "HD|1|||WZ1|A" + new string('|', 44) + "\n");
        scratch.Write("LO.dat", "LO|1|||WZ1|||F|1||||||||||" + figure + "|40|26|46.3|N|79|58|56.0|W" + new string('|', 24) + "\n");
        string[] antenna = new string[36];
        Array.Fill(antenna, figure);
        (antenna[0], antenna[1], antenna[6], antenna[7]) = ("AN", "1", "1", "1");
        scratch.Write("AN.dat", string.Join('|', antenna) + "\n");
        string[] row = ("FR|1|||WZ1||1|1|FB||155.5" + new string('|', 18)).Split('|');
        row[15] = "25";
        scratch.Write("FR.dat", string.Join('|', row) + "\n");

        RegisterRecord record = Assert.Single(Records(scratch));

        Assert.Equal((null, null, null, null), (record.HeightM, record.GroundM, record.AzimuthDegrees, record.BeamwidthDegrees));
        Assert.True(record.Notes.HasFlag(RecordNotes.NoHeight));

        // Its gain and its loss are not known either: a dipole's gain stands in.
        Assert.True(record.Notes.HasFlag(RecordNotes.GainAssumed));
        Assert.Equal((10 * Math.Log10(25_000)) + 2.15, record.EirpDbm!.Value, 1e-9);
    }

    // The day of the question counts itself: what runs out on it is in force on it.
    [Theory]
    [InlineData("2031-03-04", true)]
    [InlineData("04/03/2031", true)]
    [InlineData("4.3.2031", true)]
    [InlineData("4-Mar-31", true)]
    [InlineData("2031-03-03", false)]
    [InlineData("03/03/2031", false)]
    [InlineData("no date", true)]
    [InlineData("", true)]
    public void A_licence_is_in_force_up_to_the_end_of_its_last_day(string expires, bool inForce) =>
        Assert.Equal(inForce ? 1 : 0, Mapped($"L,F,Lat,Lon,E\n1,1000000,50,1,{expires}\n", "expires: E").Length);

    // NAD83, ETRS89 and GDA differ from WGS-84 by a metre or two; NAD27 by up to 200 (docs/formats/register.md).
    [Theory]
    [InlineData("WGS-84", RecordNotes.None)]
    [InlineData("wgs 84", RecordNotes.None)]
    [InlineData("NAD 83", RecordNotes.None)]
    [InlineData("ETRS89", RecordNotes.None)]
    [InlineData("EPSG:4326", RecordNotes.None)]
    [InlineData("-", RecordNotes.None)]
    [InlineData("nad-27", RecordNotes.Nad27)]
    [InlineData("AGD66", RecordNotes.OtherDatum)]
    public void Datum_of_a_row_is_said_where_it_is_another(string datum, RecordNotes notes) => Assert.Equal(
        notes,
        Assert.Single(Mapped($"L,F,Lat,Lon,D\n1,1000000,50,1,{datum}\n", "datum: D")).Notes & (RecordNotes.Nad27 | RecordNotes.OtherDatum));

    // Exactly nothing north and nothing east is a form left empty; a degree that cannot be is no place.
    [Theory]
    [InlineData("0", "0", false)]
    [InlineData("0", "0.0001", true)]
    [InlineData("90", "180", true)]
    [InlineData("-90", "-180", true)]
    [InlineData("90.001", "0", false)]
    [InlineData("51", "180.5", false)]
    [InlineData("51 30 N", "0 7 30 W", true)]
    [InlineData("", "1", false)]
    public void A_place_is_where_one_can_be(string latitude, string longitude, bool place) =>
        Assert.Equal(place ? 1 : 0, Mapped($"L,F,Lat,Lon\n1,1000000,{latitude},{longitude}\n").Length);

    [Fact]
    public void Mapping_with_errors_says_all_of_them_with_their_places()
    {
        DiagnosticBag bag = new();

        ColumnMapping? mapping = ColumnMapping.Read("""
            spurless_columns: 2
            register: invented
            columns:
              latitude: Lat
              frequency: { column: F, unit: furlong }
              hight: { column: H, unit: m }
              erp: { column: P }
            """u8, "a.columns.yaml", bag);

        Assert.Null(mapping);
        Diagnostic[] errors = [.. bag.InOrder()];
        Assert.All(errors, static d => Assert.Equal("a.columns.yaml", d.File));
        int[] lines = [.. errors.Select(static d => d.Line).Distinct().Order()];
        Assert.Equal([1, 5, 6, 7], lines.Where(static l => l is 1 or 5 or 6 or 7));
        Assert.Contains(errors, static d => d.ToString().Contains("longitude", StringComparison.Ordinal));
        Assert.Contains(errors, static d => d.ToString().Contains("MHz", StringComparison.Ordinal));
    }

    // A foot is 0.3048 m (1959); the others are decimal prefixes.
    [Theory]
    [InlineData("kHz", 1e3)]
    [InlineData("MHz", 1e6)]
    [InlineData("GHz", 1e9)]
    [InlineData("Hz", 1)]
    [InlineData("ft", 0.3048)]
    [InlineData("m", 1)]
    public void Scale_of_a_unit_is_its_size_in_SI(string unit, double size) => Assert.Equal(size, ColumnMapping.Scale(unit));

    [Fact]
    public void Check_of_a_mapping_counts_its_columns_and_a_mapping_without_a_table_says_so()
    {
        byte[] bytes = Encoding.UTF8.GetBytes(
            "spurless_columns: 1\nregister: x\ncolumns: { latitude: A, longitude: B, licence: C, frequency: { column: F, unit: Hz } }\n");
        Assert.Equal(4, RegisterMapping.Check(bytes, "a.columns.yaml", new DiagnosticBag()));
        using Scratch scratch = new();
        scratch.Write("a.columns.yaml", Encoding.UTF8.GetString(bytes));

        ImportOutcome outcome = scratch.Import();

        Assert.Null(outcome.Answer);
        Assert.Contains(outcome.Diagnostics, static d => d.What == "there is no table for this mapping");
    }

    // Rows as they were, whatever stood in them: read back here by the rule of RFC 4180, written out by hand.
    [Fact]
    public void Rejected_rows_read_back_as_they_were_and_what_was_not_committed_is_cut_off() =>
        Gen.Select(
            Gen.String[Gen.OneOf('a', ',', '"', '\n', '|', '\u00FC'), 0, 9].Array[1, 6],
            Gen.String[Gen.OneOf('b', ',', '"'), 0, 9].Array[1, 6],
            Gen.Int[0, 6]).Sample(static (first, second, committed) =>
        {
            using Scratch scratch = new();
            string path = Path.Combine(scratch.Folder, "rejects.csv");
            long kept = 0;
            using (RejectFile file = new(path, 0))
            {
                for (int i = 0; i < first.Length; i++)
                {
                    file.Add("a, \"b\".csv", i + 1, RejectReason.Mobile, first[i]);
                    kept = i + 1 == committed ? file.Commit() : kept;
                }
            }

            using (RejectFile file = new(path, kept))
            {
                for (int i = 0; i < second.Length; i++)
                {
                    file.Add("c.csv", i + 1, RejectReason.NoPosition, second[i]);
                }

                file.Commit();
                file.Finish();
            }

            string[][] wanted =
            [
                ["file", "line", "reason", "text"],
                .. first.Take(kept > 0 ? committed : 0).Select(static (t, i) => (string[])["a, \"b\".csv", $"{i + 1}", "mobile", t]),
                .. second.Select(static (t, i) => (string[])["c.csv", $"{i + 1}", "no position", t]),
            ];
            Assert.Equal(wanted, Parsed(File.ReadAllText(path)));
        });

    [Fact]
    public void Rejects_of_an_earlier_import_are_cleared_away_where_nothing_is_rejected()
    {
        using Scratch scratch = new();
        string path = Path.Combine(scratch.Folder, "rejects.csv");
        File.WriteAllText(path, "old");
        using RejectFile file = new(path, 0);

        Assert.Equal(0, file.Commit());
        file.Finish();

        Assert.False(File.Exists(path));
    }

    [Fact]
    public void Pool_gives_every_text_back_by_its_number_and_one_number_to_one_text() =>
        Gen.String[Gen.Char['a', 'd'], 0, 2].Array[1, 60].Sample(static texts =>
        {
            StringPool pool = new();
            int[] numbers = [.. texts.Select(t => pool.Add(Encoding.Latin1.GetBytes(t)))];
            Assert.Equal(texts, numbers.Select(n => pool[n]));
            Assert.Equal(texts.Distinct().Count(), numbers.Distinct().Count());
            Assert.Equal(0, pool.Add(default));
        });

    private static RegisterRecord[] Mapped(string table, string more = "service: L")
    {
        using Scratch scratch = new();
        scratch.Write("a.columns.yaml",
            "spurless_columns: 1\nregister: invented\ncolumns:\n  licence: L\n  latitude: Lat\n  longitude: Lon\n"
            + "  frequency: { column: F, unit: Hz }\n  " + more + "\n");
        scratch.Write("a.csv", table);
        return Records(scratch);
    }

    private static RegisterRecord[] Records(Scratch scratch)
    {
        ImportOutcome outcome = scratch.Import();
        Assert.True(outcome.Answer is not null, string.Join('\n', outcome.Diagnostics));
        using RegisterStore store = scratch.Open();
        return [.. store.All(true)];
    }

    private static List<string[]> Parsed(string text)
    {
        List<string[]> rows = [];
        List<string> row = [];
        StringBuilder cell = new();
        bool quoted = false;
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '"' && quoted && i + 1 < text.Length && text[i + 1] == '"')
            {
                cell.Append(text[i++]);
            }
            else if (text[i] == '"')
            {
                quoted = !quoted;
            }
            else if (!quoted && text[i] is ',' or '\n')
            {
                row.Add(cell.ToString());
                cell.Clear();
                if (text[i] == '\n')
                {
                    rows.Add([.. row]);
                    row.Clear();
                }
            }
            else
            {
                cell.Append(text[i]);
            }
        }

        return rows;
    }
}
