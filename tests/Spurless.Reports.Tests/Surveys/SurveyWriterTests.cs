using System.Text.Json;
using CsCheck;
using Spurless.Reports.Surveys;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Tests.Whole;
using Spurless.Reports.Text;
using Spurless.Signals.Spectra;
using Spurless.Sites.Surveys;

namespace Spurless.Reports.Tests.Surveys;

/// <summary>What a sweep shows, in every format.</summary>
public sealed class SurveyWriterTests
{
    private static readonly Gen<SpectrumLine> _line =
        from at in Gen.Double[30e6, 500e6]
        from width in Gen.OneOf<double>(Gen.Const(0.0), Gen.Double[0, 200e3])
        from level in Gen.OneOf<double>(Gen.OneOf(-0.04, 0.0), Gen.Double[-120, 0])
        from share in Gen.OneOf<double>(Gen.OneOf(1.0, 0.9999, 0.001), Gen.Double[0.001, 1])
        from sigma in Gen.Double[0.1, 5]
        from raster in Gen.Bool
        select new SpectrumLine
        {
            FrequencyHz = at,
            FrequencySigmaHz = 10 * sigma,
            BandwidthHz = width,
            BandwidthSigmaHz = sigma,
            LevelDbm = level,
            SigmaDb = sigma,
            OnShare = share,
            OnShareSigma = 0.01,
            Bins = (1, 3),
            Raster = raster ? new RasterFit((long)Math.Round(at / 12_500) * 12_500, 12_500) : null,
        };

    private static readonly Gen<LineDoubt?> _doubt = Gen.OneOf(
        (LineDoubt?)null, new LineDoubt.MiddleOfRecording(), new LineDoubt.MirrorImage(145.1314e6), new LineDoubt.SankBehindPad(),
        new LineDoubt.Mixture(75e6, 75e6, 76e6), new LineDoubt.Mixture(75e6, 77e6, 76e6), new LineDoubt.AsRead("=sum, of two"));

    private static readonly Gen<SurveyAnswer> _answer =
        from lines in _line.Array[0, 6]
        from doubtful in _doubt.Array[lines.Length]
        from inside in _line.Array[0, 3]
        from remarks in Gen.OneOf<SurveyRemark>(new SurveyRemark.AtInstrument(), new SurveyRemark.FullScaleUnknown("x")).Array[0, 2]
        select new SurveyAnswer(
            [.. lines.Zip(doubtful, static (l, d) => new SurveyedEmitter(l, d)).OrderByDescending(static e => e.Line.LevelDbm)],
            [.. inside.Select(static l => new InstrumentLine(l, 20, l.OnShare < 0.5))],
            [-111.04],
            [1000],
            remarks);

    [Fact]
    public void WriteText_of_any_sweep_agrees_in_number_and_calls_always_only_what_is_always_on() => _answer.Sample(static answer =>
    {
        using StringWriter text = new();
        SurveyWriter.WriteText(answer, text, TextInk.None);
        WrittenText.Sound(text.ToString());
        Assert.Equal(
            answer.Emitters.Count(static e => e.Line.OnShare >= 1),
            text.ToString().Split('\n').Count(static l => l.Contains("  always  ", StringComparison.Ordinal)));
        Assert.DoesNotContain("100 %", text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("  0 %", text.ToString(), StringComparison.Ordinal);
    });

    [Fact]
    public void WriteJson_and_WriteCsv_hold_the_same_lines_worst_first() => _answer.Sample(static answer =>
    {
        using MemoryStream stream = new();
        SurveyWriter.WriteJson(answer, [], stream);
        using StringWriter csv = new();
        SurveyWriter.WriteCsv(answer, csv);
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
        JsonElement[] emitters = [.. root.GetProperty("emitters").EnumerateArray()];
        Assert.Equal(rows.Count - 1, emitters.Length);
        Assert.Equal(answer.MadeInside.Count, root.GetProperty("made_in_the_instrument").GetArrayLength());
        foreach ((JsonElement json, List<string> row) in emitters.Zip(rows.Skip(1)))
        {
            Assert.Equal(rows[0].Count, row.Count);
            Assert.All(row, WrittenText.NoFormula);
            Assert.Equal(json.GetProperty("frequency_hz").GetRawText(), row[0]);
            Assert.Equal(json.GetProperty("level_dbm").GetRawText(), row[2]);
            Assert.Equal(json.GetProperty("carrier_hz").GetRawText(), row[5]);
            Assert.Equal(json.GetProperty("raster_hz") is { ValueKind: JsonValueKind.Number } n ? n.GetRawText() : "", row[6]);
            Assert.InRange(json.GetProperty("on_share").GetDouble(), 0, 1);
        }

        Assert.Equal(emitters.Select(static e => e.GetProperty("level_dbm").GetDouble()).OrderDescending(),
            emitters.Select(static e => e.GetProperty("level_dbm").GetDouble()));
    });

    [Fact]
    public void WriteText_counts_the_doubtful_among_the_emitters_and_the_instruments_lines_beside_them()
    {
        SpectrumLine line = _line.Single() with { OnShare = 1, LevelDbm = -30, FrequencyHz = 150_000_000, Raster = null };
        using StringWriter text = new();
        SurveyWriter.WriteText(
            new SurveyAnswer(
                [new(line, new LineDoubt.SankBehindPad()), new(line with { LevelDbm = -40 }, null)], [new(line, 20, true)], [-111],
                [1000], []),
            text,
            TextInk.None);
        string flat = text.ToString().ReplaceLineEndings(" ");
        Assert.Contains("2 emitters stand over the noise, the strongest on 150.0000 MHz with -30.0 dBm.", flat, StringComparison.Ordinal);
        Assert.Contains("1 of the emitters is doubtful", flat, StringComparison.Ordinal);
        Assert.Contains("1 more line was made in the instrument itself", flat, StringComparison.Ordinal);
    }

    // What a table on a page or in a text prints is the JSON's figure of the same line, to the last digit printed.
    [Fact]
    public void Page_and_text_print_the_figures_of_the_json() => _answer.Sample(
        static answer =>
        {
            if (answer.Emitters.Count == 0)
            {
                return;
            }

            using MemoryStream stream = new();
            SurveyWriter.WriteJson(answer, [], stream);
            using StringWriter text = new();
            SurveyWriter.WriteText(answer, text, TextInk.None);
            JsonElement[] emitters = [.. JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("emitters").EnumerateArray()];
            PrintedTable page = PrintedTable.OfPage(SurveyReport.RenderAsync(answer, Answered.Context).GetAwaiter().GetResult())[0];
            PrintedTable printed = PrintedTable.OfText(text.ToString())[0];
            string[][] rows = [.. printed.Rows.Where(static r => r[0].Length > 0)];
            Assert.Equal(emitters.Length, page.Rows.Count);
            Assert.Equal(emitters.Length, rows.Length);
            foreach ((JsonElement json, string[] onPage, string[] inText) in emitters.Zip(page.Rows, rows))
            {
                (string Key, double Factor)[] keys =
                    [("carrier_hz", 1e-6), ("level_dbm", 1), ("sigma_db", 1), ("bandwidth_hz", 1e-3), ("on_share", 100),
                        ("raster_hz", 1e-3)];
                for (int i = 0; i < keys.Length; i++)
                {
                    Assert.Equal(PrintedTable.Figure(onPage[i]), PrintedTable.Figure(inText[i]));

                    // A share of nearly nothing is one per cent and of nearly all 99: never none and never all.
                    double value = json.GetProperty(keys[i].Key) is { ValueKind: JsonValueKind.Number } n ? n.GetDouble() : 0;
                    if (PrintedTable.Figure(inText[i]) is { } figure && !(keys[i].Key == "on_share" && value is (< 0.01 or > 0.99)))
                    {
                        // Frequencies are whole hertz in the JSON, powers six decimals.
                        Assert.Equal(value * keys[i].Factor, figure.Value, (0.5001 * figure.LastDigit) + 0.0006);
                    }
                }
            }
        },
        iter: 30);

    // A table of sixty is what anybody reads; that there are more is said.
    [Theory]
    [InlineData(60, false)]
    [InlineData(61, true)]
    [InlineData(1_200, true)]
    public void WriteText_of_more_than_it_shows_says_how_many_there_are(int count, bool said)
    {
        SpectrumLine line = _line.Single() with { OnShare = 1, LevelDbm = -30, FrequencyHz = 150_000_000, Raster = null };
        using StringWriter text = new();
        SurveyWriter.WriteText(
            new SurveyAnswer([.. Enumerable.Repeat(new SurveyedEmitter(line, null), count)], [], [-111], [1000], []), text, TextInk.None);

        Assert.Equal(60, PrintedTable.OfText(text.ToString())[0].Rows.Count(static r => r[0] == "150.0000"));
        Assert.Equal(said, text.ToString().Contains("The strongest 60 of ", StringComparison.Ordinal));
        WrittenText.Sound(text.ToString());
    }

    [Fact]
    public void WriteJson_of_a_floor_that_is_not_known_is_null()
    {
        using MemoryStream stream = new();
        SurveyWriter.WriteJson(new SurveyAnswer([], [], [double.NaN, double.NegativeInfinity, -111.0], [1000], []), [], stream);
        Assert.Equal(
            ["null", "null", "-111"],
            JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("noise_floor_dbm").EnumerateArray().Select(static e =>
                e.GetRawText()));
    }
}
