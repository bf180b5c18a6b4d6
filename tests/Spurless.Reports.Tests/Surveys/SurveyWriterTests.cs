using System.Text.Json;
using CsCheck;
using Spurless.Reports.Surveys;
using Spurless.Reports.Tests.Text;
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
