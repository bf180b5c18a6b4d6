using System.Text;
using Spurless.Radio.Paths;
using Spurless.Register.Importing;
using Spurless.Register.Records;

namespace Spurless.Register.Tests;

public sealed class ImportTests
{
    // Each maker counts the rows it makes by what the layouts' rules say of them, independently of the readers.
    public static TheoryData<string> Layouts => ["uls", "tafl", "rrl", "wtr"];

    internal static string Make(string layout, Scratch to, int size)
    {
        RowMaker maker = new(7);
        switch (layout)
        {
            case "uls":
                maker.Uls(to, size);
                break;
            case "tafl":
                maker.Tafl(to, size);
                break;
            case "rrl":
                maker.Rrl(to, size);
                break;
            default:
                maker.Wtr(to, size);
                break;
        }

        return maker.Expected;
    }

    [Theory]
    [MemberData(nameof(Layouts))]
    public void Import_counts_every_row_by_reason(string layout)
    {
        using Scratch scratch = new();
        string expected = Make(layout, scratch, 500);

        ImportOutcome outcome = scratch.Import();

        Assert.NotNull(outcome.Answer);
        Assert.Equal(expected, Scratch.Counts(outcome.Answer));
        using RegisterStore store = scratch.Open();
        Assert.Equal(outcome.Answer.Accepted, store.Count);
    }

    [Theory]
    [MemberData(nameof(Layouts))]
    public void Import_from_a_zip_file_gives_the_same_content(string layout)
    {
        using Scratch scratch = new();
        Make(layout, scratch, 120);
        scratch.Import();
        string first;
        using (RegisterStore store = scratch.Open())
        {
            first = store.ContentHash();
        }

        File.Delete(scratch.Database);
        ImportOutcome zipped = scratch.Import(scratch.Zip());

        Assert.NotNull(zipped.Answer);
        using RegisterStore again = scratch.Open();
        Assert.Equal(first, again.ContentHash());
    }

    [Theory]
    [MemberData(nameof(Layouts))]
    public void Import_twice_replaces_every_record_by_itself(string layout)
    {
        using Scratch scratch = new();
        Make(layout, scratch, 120);
        ImportAnswer first = scratch.Import().Answer!;
        string hash;
        using (RegisterStore store = scratch.Open())
        {
            hash = store.ContentHash();
        }

        ImportAnswer second = scratch.Import().Answer!;

        Assert.Equal(Scratch.Counts(first), Scratch.Counts(second));
        Assert.Equal(first.Accepted, second.Replaced);
        using RegisterStore again = scratch.Open();
        Assert.Equal(hash, again.ContentHash());
        Assert.Equal(first.Accepted, again.Count);
    }

    [Theory]
    [MemberData(nameof(Layouts))]
    public void Import_keeps_no_names_of_persons(string layout)
    {
        using Scratch scratch = new();
        Make(layout, scratch, 120);
        scratch.Import();

        foreach (string file in Directory.GetFiles(scratch.Folder))
        {
            string bytes = Encoding.Latin1.GetString(File.ReadAllBytes(file));
            foreach (string name in new[] { "Person Invented", "Nowhere Road", "Surname", "Zo\u00eb", "Jos\u00e9", "Sons" })
            {
                Assert.DoesNotContain(name, bytes, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Import_writes_each_rejected_row_with_its_line_and_reason()
    {
        using Scratch scratch = new();
        scratch.Write("HD.dat", "HD|1|||WZ1|A" + new string('|', 44) + "\n");
        scratch.Write("LO.dat", "LO|1|||WZ1|||F|1|||||||||||40|26|46.3|N|79|58|56.0|W" + new string('|', 24) + "\n");
        string good = "FR|1|||WZ1||1|1|FB||155.5" + new string('|', 18);
        string mobile = good.Replace("|FB|", "|MO|", StringComparison.Ordinal);
        scratch.Write("FR.dat", good + "\n" + mobile + "\nFR|1|short\n" + good + "\n");

        ImportAnswer answer = scratch.Import().Answer!;

        Assert.Equal("4 1 malformed=1 mobile=1 duplicate=1", Scratch.Counts(answer));
        string[] lines = File.ReadAllLines(answer.Rejects!);
        Assert.Equal("file,line,reason,text", lines[0]);
        Assert.Contains("FR.dat\",2,mobile,", lines[1], StringComparison.Ordinal);
        Assert.Contains("FR.dat\",3,malformed,\"FR|1|short\"", lines[2], StringComparison.Ordinal);
        Assert.Contains("FR.dat\",4,duplicate,", lines[3], StringComparison.Ordinal);
    }

    [Fact]
    public void Record_of_the_public_access_files_holds_what_the_rows_say()
    {
        using Scratch scratch = new();
        new RowMaker(1).Uls(scratch, 6);
        scratch.Import();
        using RegisterStore store = scratch.Open();

        RegisterRecord[] all = [.. store.All(true).Where(static r => r.CallSign == "WZ0004")];

        // 40 26 46.3 N = 40.446194, computed by degrees + minutes / 60 + seconds / 3600; longitude 79 deg (1 + 4) min 56 s W.
        RegisterRecord first = all[0];
        Assert.Equal(40 + (26 / 60.0) + (46.3 / 3600), first.Place.LatitudeDegrees, 1e-7);
        Assert.Equal(-(79 + (5 / 60.0) + (56.0 / 3600)), first.Place.LongitudeDegrees, 1e-7);
        Assert.Equal(450_025_000, first.FrequencyHz);
        Assert.Equal("WZ0004 450.025 MHz", first.Name);

        // 100 W ERP is 50 dBm, and EIRP 2.15 dB more (a half-wave dipole's gain, ITU-R definition of ERP).
        Assert.Equal(52.15, first.EirpDbm!.Value, 1e-9);
        Assert.True(first.Notes.HasFlag(RecordNotes.FromErp));
        Assert.Equal("16K0F3E", first.Emission);
        Assert.Equal(16_000, first.BandwidthHz);
        Assert.Equal((30.5, 120.5, 120.0, 65.0), (first.HeightM, first.GroundM, first.AzimuthDegrees, first.BeamwidthDegrees));
        Assert.Equal("IG", first.Service);

        // 50 W with the record's 6.1 dB of gain: 46.99 + 6.1.
        RegisterRecord second = all[1];
        Assert.Equal((10 * Math.Log10(50)) + 30 + 6.1, second.EirpDbm!.Value, 1e-6);
        Assert.True(second.Notes.HasFlag(RecordNotes.FromPower));
        Assert.True(second.Notes.HasFlag(RecordNotes.Temporary));

        // The EIRP field wins where it is there; a block has an upper edge.
        RegisterRecord[] third = [.. store.All(true).Where(static r => r.CallSign == "WZ0003")];
        Assert.Equal(55.0, third[0].EirpDbm);
        RegisterRecord block = store.All(true).First(static r => r.CallSign == "WZ0006" && r.UpperEdgeHz is not null);
        Assert.Equal(25_000, block.UpperEdgeHz - block.FrequencyHz);
    }

    [Fact]
    public void Record_without_power_has_none_and_no_zero()
    {
        using Scratch scratch = new();
        scratch.Write("HD.dat", "HD|1|||WZ1|A" + new string('|', 44) + "\n");
        scratch.Write("LO.dat", "LO|1|||WZ1|||F|1|||||||||||40|26|46.3|N|79|58|56.0|W" + new string('|', 24) + "\n");
        string[] cells = ("FR|1|||WZ1||1|1|FB||155.5" + new string('|', 18)).Split('|');
        (cells[15], cells[16]) = ("0.000", "0.000");
        scratch.Write("FR.dat", string.Join('|', cells) + "\n");
        scratch.Import();
        using RegisterStore store = scratch.Open();

        RegisterRecord record = store.All(true).Single();

        Assert.Null(record.EirpDbm);
        Assert.Null(record.HeightM);
        Assert.True(record.Notes.HasFlag(RecordNotes.NoHeight));
    }

    [Fact]
    public void Record_that_is_cancelled_later_is_taken_out()
    {
        using Scratch scratch = new();
        scratch.Write("HD.dat", "HD|1|||WZ1|A" + new string('|', 44) + "\n");
        scratch.Write("LO.dat", "LO|1|||WZ1|||F|1|||||||||||40|26|46.3|N|79|58|56.0|W" + new string('|', 24) + "\n");
        scratch.Write("FR.dat", "FR|1|||WZ1||1|1|FB||155.5" + new string('|', 18) + "\n");
        scratch.Import();
        scratch.Write("HD.dat", "HD|1|||WZ1|C" + new string('|', 44) + "\n");

        ImportAnswer answer = scratch.Import().Answer!;

        Assert.Equal((0L, 1L), (answer.Accepted, answer.Withdrawn));
        using RegisterStore store = scratch.Open();
        Assert.Equal(0, store.Count);
    }

    [Fact]
    public void Import_of_a_table_with_a_mapping_reads_units_datum_and_angles()
    {
        using Scratch scratch = new();
        scratch.Write("county.columns.yaml", """
            spurless_columns: 1
            register: county list
            datum: NAD27
            columns:
              licence: No
              call_sign: Call
              latitude: Lat
              longitude: Long
              expires: Until
              frequency: { column: Freq, unit: MHz }
              erp: { column: Power, unit: W }
              height: { column: Height, unit: ft }
            """);
        scratch.Write("county.csv", """
            No;Call;Freq;Power;Lat;Long;Height;Until;Owner
            7;QZ1;155,5;100;40 26 46.3 N;79 58 56.0 W;100;2032-01-01;A Person
            8;QZ2;155.5;100;40°26'46.3"N;W79 58 56.0;100;2032-01-01;A Person
            9;QZ3;155.5;100;40.446194;-79.982222;;2031-03-03;A Person
            """);

        ImportAnswer answer = scratch.Import().Answer!;

        // A decimal comma is no number; the third has run out the day before.
        Assert.Equal("3 1 not in force=1 no frequency=1", Scratch.Counts(answer));
        using RegisterStore store = scratch.Open();
        RegisterRecord record = store.All(true).Single();
        Assert.Equal(("county list", "8", "QZ2"), (record.Register, record.Licence, record.CallSign));
        Assert.Equal(40.446194, record.Place.LatitudeDegrees, 1e-6);
        Assert.Equal(-79.982222, record.Place.LongitudeDegrees, 1e-6);
        Assert.Equal(30.48, record.HeightM!.Value, 1e-9);
        Assert.True(record.Notes.HasFlag(RecordNotes.Nad27));
    }

    [Fact]
    public void Import_of_the_older_set_of_heads_reads_the_unit_of_the_frequency()
    {
        using Scratch scratch = new();
        const string head =
            "Licence Number,Licence issue date,SID_LAT_N_S,SID_LAT_DEG,SID_LAT_MIN,SID_LAT_SEC,SID_LONG_E_W,SID_LONG_DEG," +
            "SID_LONG_MIN,SID_LONG_SEC,NGR," +
            "Frequency,Frequency Type,Station Type,Channel Width,Channel Width type,Height above sea level,Antenna ERP," +
            "Antenna ERP type,Emission Code,Licencee Surname,Status\n";
        scratch.Write("old.csv", head + """
            0000001/1,01/01/2025,N,51,36,29.15,W,0,2,48.46,-,461.925,MHz,T,12.5,kHz,20,5,dBW,11K0G3EJN,Invented,Live
            0000002/1,01/01/2025,N,51,36,29.15,W,0,2,48.46,-,461925,kHz,T,12500,Hz,20,-,-,-,Invented,Live
            """);

        Assert.Equal("2 2 ", Scratch.Counts(scratch.Import().Answer!));

        using RegisterStore store = scratch.Open();
        RegisterRecord[] all = [.. store.All(true)];
        Assert.All(all, static r => Assert.Equal(461_925_000, r.FrequencyHz));
        Assert.Equal((11_000L, 12_500L), (all[0].BandwidthHz, all[1].BandwidthHz));
        Assert.Equal(37.15, all[0].EirpDbm!.Value, 1e-9);
        Assert.True(all[0].Notes.HasFlag(RecordNotes.PowerKindAssumed));
        Assert.Null(all[1].EirpDbm);
        Assert.Equal(new GeoPoint().LatitudeDegrees + 51.608097, all[0].Place.LatitudeDegrees, 1e-6);
    }
}
