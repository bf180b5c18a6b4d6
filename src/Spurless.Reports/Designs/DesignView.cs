using Spurless.Design.Designing;
using Spurless.Design.Tuning;
using Spurless.Drawing.Responses;
using Spurless.Sites.Designs;

namespace Spurless.Reports.Designs;

/// <summary>What a build sheet shows of one candidate.</summary>
internal sealed class DesignView
{
    private readonly DesignPicture _picture;
    private readonly PlotBand? _band;

    public DesignView(DesignReading reading, int rank)
    {
        File = reading.Files[Math.Clamp(rank, 1, reading.Files.Count) - 1];
        DesignCandidate c = File.Candidate;
        string?[] names = [.. reading.Brief.Question.Reject.Select(r =>
            reading.Brief.Needs?.Carriers.FirstOrDefault(n => r.FromHz.Equals(n.FrequencyHz))?.Emitter)];
        _picture = DesignPicture.Of(reading.Brief.Question, names, c.Circuit, null);
        _band = c.Tolerance is { Bands.Count: > 1 } spread
            ? new PlotBand(
                [.. spread.Bands.Select(static b => new PlotSpan(b.FrequencyHz, b.S21Db.P5, b.S21Db.P95))], "90 % of those built")
            : null;
    }

    public DesignedFile File { get; }

    public ResponsePlotModel Wide => Banded(_picture.Wide);

    public ResponsePlotModel Close => Banded(_picture.Close);

    private ResponsePlotModel Banded(ResponsePlotModel model) =>
        model with { CurveName = "gain", Overlay = model.Overlay with { Band = _band } };

    /// <summary>The course that a step of the alignment should show.</summary>
    public static ResponsePlotModel Curve(TuningStep step)
    {
        bool delay = step.Reading == TuningReading.ReflectionDelay;
        (double Hz, double Value)[] points = [.. step.Curve.Select(p => (p.Hz, delay ? p.Value * 1e9 : p.Value))];
        double low = Math.Min(0, points.Min(static p => p.Value)), high = points.Max(static p => p.Value);
        return new ResponsePlotModel
        {
            Title = FormattableString.Invariant($"Step {step.Number}"),
            Quantity = hz => At(points, hz),
            AxisTitle = delay ? "group delay of S11, ns" : step.Reading == TuningReading.Notch ? "loss, dB" : "return loss, dB",
            CurveName = delay ? "delay" : "loss",
            FromHz = points[0].Hz,
            ToHz = points[^1].Hz,
            Low = low < 0 ? 1.1 * low : 0,
            High = Math.Max(1, 1.1 * high),
            ChannelHz = 1e3 * Math.Round(step.AtHz / 1e3),
        };
    }

    private static double At((double Hz, double Value)[] points, double hz)
    {
        int i = 1;
        while (i < points.Length - 1 && points[i].Hz < hz)
        {
            i++;
        }

        double t = (hz - points[i - 1].Hz) / (points[i].Hz - points[i - 1].Hz);
        return points[i - 1].Value + (t * (points[i].Value - points[i - 1].Value));
    }
}
