using System.Globalization;
using System.Text.Json;
using CsCheck;
using Spurless.Radio.Paths;
using Spurless.Register.Importing;
using Spurless.Register.Layouts;
using Spurless.Register.Records;
using Spurless.Reports.Registers;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Levels;
using Spurless.Sites.Registers;

namespace Spurless.Reports.Tests.Registers;

/// <summary>What comes of a register: an import, what stands near a site, a screening. All records are invented.</summary>
public sealed class RegisterWritersTests
{
    private static readonly Gen<string> _name = Gen.OneOf<string>(
        Gen.String[Gen.Char['a', 'z'], 1, 12],
        Gen.OneOf("=call", "-1+1", "a, b", "with \"quotes\"", "Zwölf; Türme", "turn\nround", "tab\there", "carriage\rreturn", "x"));

    private static readonly Gen<NearAnswer> _near =
        from names in _name.Array[0, 45]
        from levels in Gen.Double[-140, -10].Nullable(0.3).Array[names.Length]
        from bearings in Gen.Double[0, 359.999].Array[names.Length]
        from there in Gen.Bool.Array[names.Length]
        select new NearAnswer(
            "Quernmoss",
            "repeater input",
            25_000,
            [
                .. names.Select((n, i) => new NearEmitter
                {
                    Record = new RegisterRecord
                    {
                        Register = "invented extract", Licence = n, CallSign = n, Transmits = true, FrequencyHz = 153_350_000 + i,
                        UpperEdgeHz = i % 3 == 0 ? 153_400_000 : null, Place = GeoPoint.Of(40.5, -35.2), Service = n,
                        EirpDbm = levels[i] is null ? null : 48,
                    },
                    DistanceM = 100 * (i + 1), BearingDegrees = bearings[i], LevelDbm = levels[i],
                    SigmaDb = levels[i] is null ? null : 8, InSite = there[i],
                    Assumed = [new LevelNote.NothingGiven(), new LevelNote.FilterEnds(n)],
                }).OrderByDescending(static e => e.LevelDbm ?? double.NegativeInfinity),
            ]);

    private static readonly Gen<ScreenRow> _row =
        from name in _name
        from latitude in Gen.Double[-90, 90]
        from longitude in Gen.Double[-180, 180]
        from terms in Gen.Select(Gen.OneOf(-2, -1, 1, 2), _name, Gen.Long[30_000_000, 500_000_000]).Array[0, 3]
        from worst in Gen.Double[-30, 60].Nullable(0.3)
        from complete in Gen.Bool
        from saturated in Gen.Bool
        where terms.Length == 0 || terms.Any(static t => t.Item1 > 0)
        select new ScreenRow(name, latitude, longitude, 145_050_000, terms.Length, 1, worst, terms, terms.Length, complete, saturated);

    [Fact]
    public void Near_of_any_answer_agrees_in_number_and_names_no_bearing_of_360() => _near.Sample(static answer =>
    {
        using StringWriter text = new();
        NearWriter.WriteText(answer, text, TextInk.None);
        WrittenText.Sound(text.ToString());
        Assert.DoesNotContain("  360  ", text.ToString(), StringComparison.Ordinal);
    });

    [Fact]
    public void Near_in_every_format_lists_the_same_records() => _near.Sample(static answer =>
    {
        using StringWriter csv = new();
        NearWriter.WriteCsv(answer, csv);
        using MemoryStream stream = new();
        NearWriter.WriteJson(answer, [], stream);
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        JsonElement[] emitters = [.. JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("emitters").EnumerateArray()];
        Assert.Equal(answer.Emitters.Count, rows.Count - 1);
        Assert.Equal(answer.Emitters.Count, emitters.Length);
        foreach ((NearEmitter emitter, JsonElement json, List<string> row) in answer.Emitters.Zip(emitters, rows.Skip(1)))
        {
            Assert.Equal(rows[0].Count, row.Count);
            Assert.All(row, WrittenText.NoFormula);
            Assert.Equal(emitter.Name, json.GetProperty("name").GetString());
            Assert.Equal(json.GetProperty("frequency_hz").GetRawText(), row[3]);
            Assert.Equal(json.GetProperty("level_dbm") is { ValueKind: JsonValueKind.Number } n ? n.GetRawText() : "", row[9]);
            Assert.Equal(emitter.LevelDbm is null, row[9].Length == 0);
        }
    });

    [Fact]
    public void Near_of_nothing_and_of_one_says_so()
    {
        NearAnswer none = new("Quernmoss", "repeater input", 10_000, []);
        Assert.Equal("No licensed transmitter stands within 10 km of Quernmoss.\n", Near(none));
        NearEmitter one = new()
        {
            Record = new RegisterRecord
            {
                Register = "invented extract",
                Licence = "INV-1",
                Transmits = true,
                FrequencyHz = 153_350_000,
                Place = GeoPoint.Of(40, -35),
            },
            DistanceM = 900,
            BearingDegrees = 359.7,
            LevelDbm = null,
            SigmaDb = null,
            Assumed = [new LevelNote.NothingGiven()],
            InSite = true,
        };
        Assert.StartsWith(
            "1 licensed transmitter stands within 10 km of Quernmoss; it is in the site file. Its level is not known.",
            Near(none with { Emitters = [one] }).ReplaceLineEndings(" "),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Row_of_any_receiver_is_one_line_whose_mixture_adds_up() => _row.Sample(static row =>
    {
        // A screening is resumed and turned to GeoJSON line by line: a name must not make two of one.
        string line = ScreenWriter.Row(row);
        Assert.DoesNotContain(line, static c => c is '\n' or '\r');
        List<string> cells = Assert.Single(WrittenText.Csv(line + "\n"));
        Assert.Equal(ScreenWriter.Head.Split(',').Length, cells.Count);
        Assert.All(cells, WrittenText.NoFormula);
        if (row.Terms.Count > 0)
        {
            PrintedArithmetic.AddsUp(cells[7]);
        }
    });

    [Fact]
    public void WriteGeoJson_of_any_rows_is_json_with_a_point_each() => _row.Array[0, 6].Sample(static rows =>
    {
        using StringWriter text = new();
        ScreenWriter.WriteGeoJson(text, [ScreenWriter.Head, .. rows.Select(ScreenWriter.Row)]);
        JsonElement root = JsonDocument.Parse(text.ToString()).RootElement;
        Assert.Equal("FeatureCollection", root.GetProperty("type").GetString());
        JsonElement[] features = [.. root.GetProperty("features").EnumerateArray()];
        Assert.Equal(rows.Length, features.Length);
        foreach ((ScreenRow row, JsonElement feature) in rows.Zip(features))
        {
            // RFC 7946, 3.1.1: longitude first.
            JsonElement at = feature.GetProperty("geometry").GetProperty("coordinates");
            Assert.Equal(row.LongitudeDegrees, at[0].GetDouble(), 1e-7);
            Assert.Equal(row.LatitudeDegrees, at[1].GetDouble(), 1e-7);
            JsonElement p = feature.GetProperty("properties");
            Assert.Equal(row.Harmful, p.GetProperty("harmful").GetInt64());
            Assert.Equal(row.IsComplete, p.GetProperty("complete").GetBoolean());
            Assert.Equal(row.WorstOverNoiseDb is null, p.GetProperty("worst_over_noise_db").ValueKind == JsonValueKind.Null);
            Assert.Contains(TextFlow.Printable(row.Name), p.GetProperty("name").GetString()!, StringComparison.Ordinal);
        }
    });

    [Fact]
    public void Screening_and_import_of_any_counts_agree_in_number() => Gen.OneOf<long>(
        Gen.Long[0, 2], Gen.Long[0, 2_000_000]).Array[9].Sample(
        static n =>
        {
            using StringWriter text = new();
            ScreenWriter.WriteText(
                new ScreenAnswer
                {
                    Emitters = n[0],
                    WithoutPower = n[1],
                    Receivers = n[2],
                    Harmed = Math.Min(n[2], n[3]),
                    WithUnknown = n[4],
                    Incomplete = n[5],
                    Tiles = ((int)n[6], (int)n[7]),
                    Assumed = [new ScreenAssumption.GainAlike()],
                },
                "screen.csv",
                text);
            ImportWriter.WriteText(
                new ImportAnswer
                {
                    Registers = ["invented extract"],
                    Read = n[0] + n[1],
                    Accepted = n[0],
                    Replaced = n[2],
                    Withdrawn = n[3],
                    Resumed = n[4],
                    Rejected = n[1] == 0 ? [] : [(RejectReason.Mobile, n[1])],
                    Rejects = "rejects.csv",
                },
                "register.db",
                text,
                TextInk.None);
            WrittenText.Sound(text.ToString());
        });

    [Fact]
    public void Import_says_why_of_every_reason_in_words_of_its_own()
    {
        using StringWriter text = new();
        ImportWriter.WriteText(
            new ImportAnswer
            {
                Registers = ["invented extract"],
                Read = 28,
                Accepted = 0,
                Rejects = "rejects.csv",
                Rejected = [.. RejectReasons.All.Select(static (r, i) => (r, i + 1L))],
            },
            "register.db",
            text,
            TextInk.None);
        string[] reasons = [.. text.ToString().Split('\n').Where(static l => l.Length > 0 && l[..8].Trim().All(char.IsAsciiDigit)
            && l[..8].Trim().Length == 1).Select(static l => l[8..].Trim())];
        Assert.Equal(RejectReasons.All.Count, reasons.Distinct().Count());
        foreach ((RejectReason reason, string said) in RejectReasons.All.Zip(reasons))
        {
            Assert.StartsWith(reason.Word(), said, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Rate_of_a_moment_is_not_said_and_of_a_minute_is()
    {
        Assert.Equal("", ImportWriter.Rate(1000, TimeSpan.FromMilliseconds(400)));
        Assert.Equal("2,000 rows a second", ImportWriter.Rate(120_000, TimeSpan.FromMinutes(1)));
    }

    private static string Near(NearAnswer answer)
    {
        using StringWriter text = new(CultureInfo.InvariantCulture);
        NearWriter.WriteText(answer, text, TextInk.None);
        return text.ToString();
    }
}
