using System.Globalization;
using System.Numerics;
using System.Text;
using System.Text.Json;
using CsCheck;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Response;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Responses;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Responses;

namespace Spurless.Reports.Tests.Responses;

/// <summary>A response in every format: what is written is what was measured, whatever that was.</summary>
public sealed class ResponseWriterTests
{
    // Passive or not, matched or not: a sweep is used as it stands.
    private static readonly Gen<(double, double)> _s = Gen.Select(
        Gen.OneOf<double>(Gen.Double[0, 1], Gen.OneOf(0.0, 1.0, 0.9999, 1e-12, 1.5)), Gen.Double[-180, 180]);

    private static readonly Gen<ResponseAnswer> _answer =
        from points in Gen.Select(_s, _s, _s, _s).Array[1, 30]
        from step in Gen.Double[0.01, 10]
        from lowest in Gen.Double[1, 500]
        from ohms in Gen.OneOf(50.0, 75.0, 12.5)
        from ports in Gen.Int[1, 2]
        from name in Gen.OneOf("a.s2p", "sweep of a, b.s2p", "\u001b[2Jx.s2p")
        select Answer(points, lowest, step, ohms, ports, name);

    [Fact]
    public void WriteText_of_any_sweep_has_no_broken_figure() => _answer.Sample(static answer =>
    {
        using StringWriter text = new();
        ResponseWriter.WriteText(answer, text, TextInk.None);
        WrittenText.Sound(text.ToString());
        // The conclusion, then of what it is.
        string[] parts = text.ToString().Split("\n\n");
        Assert.Equal(TextFlow.Printable(ResponseWriter.Answer(answer)), Flat(parts[0]));
        Assert.StartsWith(TextFlow.Printable(answer.Result.Name) + ", ", parts[1], StringComparison.Ordinal);
    });

    [Fact]
    public void WriteJson_of_any_sweep_reads_back_to_what_was_measured() => _answer.Sample(static answer =>
    {
        using MemoryStream stream = new();
        ResponseWriter.WriteJson(answer, stream);
        JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
        JsonElement[] points = [.. root.GetProperty("points").EnumerateArray()];
        Assert.Equal(answer.Result.Points.Length, points.Length);
        foreach ((ResponsePoint point, JsonElement json) in answer.Result.Points.Zip(points))
        {
            Assert.Equal(point.FrequencyHz, json.GetProperty("frequency_hz").GetDouble());
            Assert.Equal(point.S.S11, Pair(json.GetProperty("s11")));
            Assert.Equal(answer.Result.Ports == 2, json.TryGetProperty("s21", out JsonElement s21));
            if (answer.Result.Ports == 2)
            {
                Assert.Equal(point.S.S21, Pair(s21));
                Assert.Equal(point.S.S12, Pair(json.GetProperty("s12")));
                Assert.Equal(point.S.S22, Pair(json.GetProperty("s22")));
            }
        }
    });

    [Fact]
    public void WriteCsv_of_any_sweep_is_the_decibels_of_its_points() => _answer.Sample(static answer =>
    {
        using StringWriter text = new();
        ResponseWriter.WriteCsv(answer, text);
        List<List<string>> rows = WrittenText.Csv(text.ToString());
        Assert.Equal(answer.Result.Points.Length, rows.Count - 1);
        foreach ((ResponsePoint point, List<string> row) in answer.Result.Points.Zip(rows.Skip(1)))
        {
            Assert.Equal(answer.Result.Ports + 1, row.Count);
            Assert.Equal(point.FrequencyHz, double.Parse(row[0], CultureInfo.InvariantCulture));
            // 20 lg |S|, held at -400 dB for nothing at all.
            double s11 = Math.Max(-400, 20 * Math.Log10(point.S.S11.Magnitude));
            Assert.Equal(s11, double.Parse(row[^1], CultureInfo.InvariantCulture), 0.51e-6);
            Assert.All(row, static c => Assert.DoesNotContain("-0.000000", c, StringComparison.Ordinal));
        }
    });

    [Fact]
    public void Touchstone_of_any_sweep_reads_back_to_what_was_measured() => _answer.Sample(static answer =>
    {
        Assert.Null(ResponseWriter.Touchstone(answer, out string text));
        DiagnosticBag findings = new();
        using MemoryStream stream = new(Encoding.ASCII.GetBytes(text));
        TouchstoneData? data = TouchstoneReader.Read(stream, $"x.s{answer.Result.Ports}p", findings);
        Assert.False(findings.HasErrors, string.Join('\n', findings.InOrder()));
        MeasuredTwoPort back = MeasuredTwoPort.From(data!);
        foreach (ResponsePoint point in answer.Result.Points)
        {
            Assert.Equal(0, (back.At(point.FrequencyHz).S11 - point.S.S11).Magnitude, 1e-9 * Math.Max(1, point.S.S11.Magnitude));
            if (answer.Result.Ports == 2)
            {
                Assert.Equal(0, (back.At(point.FrequencyHz).S21 - point.S.S21).Magnitude, 1e-9 * Math.Max(1, point.S.S21.Magnitude));
            }
        }
    });

    private static string Flat(string text) => string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    private static Complex Pair(JsonElement pair) => new(pair[0].GetDouble(), pair[1].GetDouble());

    private static ResponseAnswer Answer(
        ((double, double), (double, double), (double, double), (double, double))[] points, double from, double step, double ohms, int ports,
        string name)
    {
        StringBuilder text = new(string.Create(CultureInfo.InvariantCulture, $"# MHz S MA R {ohms}\n"));
        for (int i = 0; i < points.Length; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{from + (step * i):F6} {points[i].Item1.Item1:R} {points[i].Item1.Item2:R}");
            foreach ((double size, double angle) in ports == 1
                ? ((double, double)[])[] : [points[i].Item2, points[i].Item3, points[i].Item4])
            {
                text.Append(CultureInfo.InvariantCulture, $" {size:R} {angle:R}");
            }

            text.Append('\n');
        }

        DiagnosticBag findings = new();
        using MemoryStream stream = new(Encoding.ASCII.GetBytes(text.ToString()));
        MeasuredTwoPort network = MeasuredTwoPort.From(TouchstoneReader.Read(stream, $"x.s{ports}p", findings)!);
        Assert.False(findings.HasErrors, string.Join('\n', findings.InOrder()));
        ResponseResult result = ResponseCalculator.Compute(network, name, ResponseCalculator.DefaultFrequencies(network));
        return new ResponseAnswer { Result = result, Network = network, Circuit = null };
    }
}
