using System.Text.Json;
using Spurless.Radio.Paths;
using Spurless.Register.Records;
using Spurless.Reports.Html;
using Spurless.Reports.Registers;
using Spurless.Reports.Surveys;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Signals.Spectra;
using Spurless.Sites.Levels;
using Spurless.Sites.Matching;
using Spurless.Sites.Registers;
using Spurless.Sites.Surveys;

namespace Spurless.Reports.Tests.Registers;

/// <summary>Joined emitters in every format, and the pages of survey, near and screen. All records are invented.</summary>
public sealed class MatchWriterTests
{
    private static readonly ReportContext Made = new()
    {
        GeneratedAt = new DateTimeOffset(2031, 3, 4, 12, 0, 0, TimeSpan.Zero),
        ProgramVersion = "1.2.3",
    };

    private static NearEmitter Licensed(string call, long hertz, double level) => new()
    {
        Record = new RegisterRecord
        {
            Register = "invented extract",
            Licence = "INV-" + call,
            CallSign = call,
            Transmits = true,
            FrequencyHz = hertz,
            Place = GeoPoint.Of(40.5, -35.2),
            EirpDbm = 48,
        },
        DistanceM = 4_000,
        BearingDegrees = 72,
        LevelDbm = level,
        SigmaDb = 8,
        Assumed = [new LevelNote.NothingGiven()],
        InSite = false,
    };

    private static SurveyedEmitter Line(double hertz, double level, bool relative = false) => new(
        new SpectrumLine
        {
            FrequencyHz = hertz,
            FrequencySigmaHz = 100,
            BandwidthHz = 11_200,
            BandwidthSigmaHz = 500,
            LevelDbm = level,
            SigmaDb = 1.5,
            OnShare = 1,
            OnShareSigma = 0,
            Bins = (0, 1),
        },
        null)
    {
        IsRelative = relative,
    };

    private static readonly NearAnswer Near = new(
        "Quernmoss <hill>", "repeater input", 25_000,
        [Licensed("QQA1", 153_350_000, -40), Licensed("QQB2", 155_000_000, -50), Licensed("QQC3", 155_000_000, -51)]);

    private static readonly MatchAnswer Match = MatchService.Run(
        MatchService.OfSurvey([Line(153_350_100, -41), Line(155_000_000, -50), Line(170_000_000, -60)]), Near);

    [Fact]
    public void WriteText_says_what_is_joined_what_is_ambiguous_and_what_is_neither()
    {
        using StringWriter text = new();

        MatchWriter.WriteText(Match, text, TextInk.None);

        string said = text.ToString();
        WrittenText.Sound(said);
        Assert.Contains("Of 3 measured emitters 1 is joined with a licence, 1 is ambiguous", said, StringComparison.Ordinal);
        Assert.Contains("QQA1 153.35 MHz, licence", said, StringComparison.Ordinal);
        Assert.Contains("ambiguous: QQB2 155 MHz", said, StringComparison.Ordinal);
        Assert.Contains("no licence on its frequency", said, StringComparison.Ordinal);
    }

    [Fact]
    public void WriteJson_holds_the_matches_with_weights_that_add_up_to_one()
    {
        using MemoryStream stream = new();

        NearWriter.WriteJson(Near, [], stream, Match);

        JsonElement[] matches = [.. JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("matches").EnumerateArray()];
        Assert.Equal(["joined", "ambiguous", "unexplained"], matches.Select(static m => m.GetProperty("outcome").GetString()));
        Assert.All(matches, static m => Assert.Equal(
            1,
            m.GetProperty("other_weight").GetDouble()
                + m.GetProperty("candidates").EnumerateArray().Sum(static c => c.GetProperty("weight").GetDouble()),
            1e-5));
        Assert.Equal(100, matches[0].GetProperty("candidates")[0].GetProperty("off_hz").GetDouble());
        Assert.Equal(-1, matches[0].GetProperty("candidates")[0].GetProperty("over_predicted_db").GetDouble(), 1e-9);

        using MemoryStream without = new();
        NearWriter.WriteJson(Near, [], without);
        Assert.False(JsonDocument.Parse(without.ToArray()).RootElement.TryGetProperty("matches", out _));
    }

    [Fact]
    public async Task Page_of_near_has_the_map_the_list_and_what_is_joined_and_nothing_from_outside()
    {
        string page = await NearReport.RenderAsync(Near, [MatchWriter.Table(Match)], Made);

        Closed(page);
        Assert.Contains("What is licensed round Quernmoss &lt;hill&gt;", page, StringComparison.Ordinal);
        Assert.Contains("<svg class=\"pic", page, StringComparison.Ordinal);
        Assert.Contains(MatchWriter.Title, page, StringComparison.Ordinal);
        Assert.Contains("ambiguous: QQB2 155 MHz", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_of_a_survey_says_which_levels_are_not_known()
    {
        SurveyAnswer answer = new(
            [Line(145_100_000, -60), Line(146_000_000, -23.4, relative: true)],
            [new InstrumentLine(Line(147_000_000, -80).Line, 30, IsBound: true)],
            [-110],
            [1_000],
            [new SurveyRemark.AtInstrument()]);

        string page = await SurveyReport.RenderAsync(answer, Made);

        Closed(page);
        Assert.Contains("2 emitters stand over the noise, the strongest on 145.1", page, StringComparison.Ordinal);
        Assert.Contains("23.4 dB under full scale", page, StringComparison.Ordinal);
        Assert.Contains("not known", page, StringComparison.Ordinal);
        Assert.Contains("at least 30.0", page, StringComparison.Ordinal);
        Assert.Contains("Levels are those at the instrument: give", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_of_a_screening_lists_the_worst_first_and_counts_all()
    {
        string[] lines =
        [
            ScreenWriter.Head,
            .. Enumerable.Range(0, 1_500).Select(static i => ScreenWriter.Row(new ScreenRow(
                $"r{i}", 40, -35, 145_050_000, i % 3 == 0 ? 1 : 0, i % 2, i % 3 == 0 ? i / 100.0 : null,
                i % 3 == 0 ? [(2, "a <b>", 150_000_000L), (-1, "c", 154_950_000L)] : [], 0, i != 7, false))),
        ];
        using StringWriter to = new();

        await ScreenReport.WriteAsync(to, lines, Made);

        string page = to.ToString();
        Closed(page);
        Assert.Contains("receivers have a harmful mixture, 500 more a marginal one.", page, StringComparison.Ordinal);
        Assert.True(
            page.IndexOf(">r1497<", StringComparison.Ordinal) < page.IndexOf(">r1494<", StringComparison.Ordinal)
                && page.IndexOf(">r1497<", StringComparison.Ordinal) > 0);
        Assert.Contains("a &lt;b&gt;", page, StringComparison.Ordinal);
        Assert.Contains("more mixtures than are counted", page, StringComparison.Ordinal);
    }

    private static void Closed(string page)
    {
        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
        Assert.Contains("default-src", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", page.Replace("http://www.w3.org", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("Cautions", page, StringComparison.Ordinal);
    }
}
