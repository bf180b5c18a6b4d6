using System.Globalization;
using System.Net;
using System.Text.Json;
using CsCheck;
using Spurless.Radio.Terrain;
using Spurless.Reports.Html;
using Spurless.Reports.Paths;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Levels;
using Spurless.Sites.Paths;
using Spurless.Sites.Terrain;

namespace Spurless.Reports.Tests.Paths;

/// <summary>A path over invented ground, in every format: what is printed adds up, and what it says is what was computed.</summary>
public sealed class PathWriterTests
{
    private static readonly Gen<PathAnswer> _answer =
        from length in Gen.Double[600, 90_000]
        from heights in Gen.Double[-40, 700].Array[5]
        from antennas in Gen.Double[2, 60].Array[2]
        from megahertz in Gen.Double[30, 500]
        from time in Gen.OneOf(50.0, 10.0, 1.0)
        from power in Gen.Double[10, 60].Nullable(0.3)
        from measured in Gen.Double[-120, -10].Nullable(0.5)
        select Answer(length, heights, antennas, megahertz * 1e6, time, power, measured);

    [Fact]
    public void WriteText_of_any_ground_prints_a_sum_that_adds_up() => _answer.Sample(
        static answer =>
        {
            using StringWriter text = new();
            PathWriter.WriteText(answer, text, TextInk.None);
            WrittenText.Sound(text.ToString());
            (string What, string Figure)[] rows = [.. PathWriter.SumRows(answer)];
            decimal[] figures = [.. rows.Select(static r => decimal.Parse(r.Figure, CultureInfo.InvariantCulture))];
            Assert.Equal(figures[^1], figures[..^1].Sum());
            // The total is what the sentence says.
            string total = answer.Level is null
                ? $"the path loses {rows[^1].Figure} dB"
                : $"That makes {rows[^1].Figure} dBm at the antenna";
            Assert.Contains(total, PathWords.Answer(answer), StringComparison.Ordinal);
            // So is what the ground adds, which rounding moved by a tenth beside the sentence before.
            string ground = rows.Single(static r => r.What.StartsWith("the ground", StringComparison.Ordinal)).Figure;
            string side = (answer.Level is null) == ground.StartsWith('-') ? "less" : "more";
            string adds = $"{ground.TrimStart('-')} dB {side} than free space";
            Assert.Contains(ground == "0.0" ? "as much as free space" : adds, PathWords.Answer(answer), StringComparison.Ordinal);
        },
        iter: 60);

    [Fact]
    public void Way_says_hidden_of_what_stands_in_the_line_and_clear_of_what_does_not() => _answer.Sample(
        static answer =>
        {
            SightLine sight = answer.Prediction.Sight!;
            string says = PathWords.Way(sight);
            Assert.Equal(!sight.IsClear, says.StartsWith("The ground hides", StringComparison.Ordinal));
            WrittenText.Figures(says);
            WrittenText.Agree(says);
            if (sight.IsClear)
            {
                Assert.Equal(sight.Worst.ClearanceInRadii >= 1, says.Contains("the whole first Fresnel zone", StringComparison.Ordinal));
                // 60 % of the radius is enough (ITU-R P.526, 'obstacle-free').
                Assert.Equal(
                    sight.Worst.ClearanceInRadii is >= 0.6 and < 1, says.Contains("is free there, enough", StringComparison.Ordinal));
            }
        },
        iter: 100);

    [Fact]
    public void WriteJson_of_any_ground_agrees_with_its_own_sentence() => _answer.Sample(
        static answer =>
        {
            using MemoryStream stream = new();
            PathWriter.WriteJson(answer, stream);
            JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
            Assert.Equal(answer.Prediction.LossDb!.Value, root.GetProperty("loss_db").GetDouble(), 1e-6);
            Assert.Equal(answer.Prediction.Sight!.IsClear, root.GetProperty("line_of_sight").GetBoolean());
            Assert.Equal(answer.Level?.AtAntennaDbm is null, root.GetProperty("level_dbm").ValueKind == JsonValueKind.Null);
            double last = 0;
            foreach (JsonElement edge in root.GetProperty("edges").EnumerateArray())
            {
                Assert.InRange(edge.GetProperty("distance_m").GetDouble(), last, answer.Profile.LengthM);
                last = edge.GetProperty("distance_m").GetDouble();
            }

            Assert.Equal(PathWords.Answer(answer), root.GetProperty("says").GetString());
        },
        iter: 60);

    [Fact]
    public async Task Render_of_a_path_says_the_same_as_the_text()
    {
        PathAnswer answer = Answer(20_000, [40, 60, 320, 30, 10], [20, 12], 145e6, 50, 40, null);
        string html = WebUtility.HtmlDecode(await PathReport.RenderAsync(
            answer, new ReportContext { GeneratedAt = new DateTimeOffset(2031, 3, 4, 0, 0, 0, TimeSpan.Zero), ProgramVersion = "0.1.0" }));
        Assert.Contains(Figure(answer.Prediction.LossDb!.Value), html, StringComparison.Ordinal);
        Assert.Contains(Figure(answer.Level!.AtAntennaDbm).Replace('-', '\u2212'), html.Replace('-', '\u2212'), StringComparison.Ordinal);

        // Behind the styles: a typeface in base64 may spell anything.
        Assert.DoesNotContain("NaN", html[html.LastIndexOf("</style>", StringComparison.Ordinal)..], StringComparison.Ordinal);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
    }

    private static string Figure(double db) =>
        Math.Round(db, 1, MidpointRounding.AwayFromZero).ToString("0.0", CultureInfo.InvariantCulture);

    private static PathAnswer Answer(
        double length, double[] heights, double[] antennas, double hertz, double time, double? power, double? measured)
    {
        // A polygon through five heights.
        double[] d = [.. Enumerable.Range(0, 81).Select(i => length * i / 80)];
        double[] h = [.. Enumerable.Range(0, 81).Select(i => i == 80
            ? heights[4]
            : heights[i / 20] + ((heights[(i / 20) + 1] - heights[i / 20]) * (i % 20) / 20.0))];
        Assert.True(TerrainProfile.TryCreate(d, h, [], [], out TerrainProfile profile, out ProfileProblem problem), problem.Text);
        PathQuestion question = new()
        {
            FrequencyHz = hertz,
            TransmitterHeightM = antennas[0],
            ReceiverHeightM = antennas[1],
            LatitudeDegrees = 40.5,
            TimePercent = time,
        };
        TerrainPrediction prediction = TerrainPrediction.Of(profile, question.Conditions, 5);
        Assert.Null(prediction.Refused);
        return new PathAnswer
        {
            From = power is null ? null : "valley relay",
            To = power is null ? null : "hill input",
            Question = question,
            Profile = profile,
            Prediction = prediction,
            Level = power is { } p ? new PathLevel(p, 2.15, 0, p + 2.15 - prediction.LossDb!.Value, 6, measured) : null,
            Assumed = [new LevelNote.VerticalTaken()],
            Inputs = [],
        };
    }
}
