using System.Globalization;
using System.Text;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;
using Spurless.Reports.Drawing.Responses;
using Spurless.Reports.Plotting;
using Spurless.Reports.Studies;
using Spurless.Sites.Bench;

namespace Spurless.Reports.Bench;

/// <summary>How a circuit stands to what a site needs at one carrier.</summary>
/// <param name="Need">The need.</param>
/// <param name="Letter">The carrier's letter.</param>
/// <param name="HasDb">Insertion loss there in dB; NaN where it is not known.</param>
public sealed record NeedKept(CarrierNeed Need, string Letter, double HasDb)
{
    /// <summary>What is missing in dB; 0 where enough is there.</summary>
    public double ShortDb => Math.Max(0, Need.NeededDb - HasDb);

    /// <summary>Whether enough is there.</summary>
    public bool Kept => ShortDb <= 0;
}

/// <summary>The pictures of a circuit with values in force, in a frame that stays.</summary>
public sealed class BenchPicture
{
    private readonly BenchCurve _curve;

    private BenchPicture(BenchFrame frame, BenchCurve curve, ToleranceResult? spread)
    {
        (Frame, _curve) = (frame, curve);
        Needs = [.. (frame.Needs?.Needs ?? []).Select(n => new NeedKept(n, frame.LetterOf(n), -curve.GainDb(n.FrequencyHz)))];
        PlotOverlay gain = new()
        {
            Band = Band(spread, static b => (b.S21Db.P5, b.S21Db.P95)),
            Demands = [.. Needs.Select(static n => new PlotDemand(n.Need.FrequencyHz, n.Need.FrequencyHz, -n.Need.NeededDb, Below: true))],
            MeasuredWords = frame.SweepName is { } name ? $"measured, {name}" : "measured",
        };
        PlotMark[] marks = [.. Needs.Select(static n => new PlotMark(n.Need.FrequencyHz, n.Letter))];
        Wide = frame.Wide with { Quantity = curve.GainDb, Marks = marks, Overlay = gain with { Measured = frame.Readings(frame.WideFrom, frame.WideTo, static s => Db(s.S21.Magnitude)) } };
        Close = frame.Close with { Quantity = curve.GainDb, Marks = marks, Overlay = gain with { Measured = frame.Readings(frame.CloseFrom, frame.CloseTo, static s => Db(s.S21.Magnitude)) } };
        ReturnLoss = frame.ReturnLoss with
        {
            Quantity = curve.ReturnLossDb,
            Overlay = new PlotOverlay
            {
                Band = Band(spread, static b => (-b.S11Db.P95, -b.S11Db.P5)),
                Measured = frame.Readings(frame.CloseFrom, frame.CloseTo, static s => -Db(s.S11.Magnitude)),
                MeasuredWords = gain.MeasuredWords,
            },
        };
    }

    /// <summary>The frame.</summary>
    public BenchFrame Frame { get; }

    /// <summary>The site's needs and how they are kept, by ascending frequency.</summary>
    public IReadOnlyList<NeedKept> Needs { get; }

    /// <summary>Gain over a wide range.</summary>
    public ResponsePlotModel Wide { get; }

    /// <summary>Gain round the pass-band.</summary>
    public ResponsePlotModel Close { get; }

    /// <summary>Return loss round the pass-band.</summary>
    public ResponsePlotModel ReturnLoss { get; }

    /// <summary>Loss on the channel in dB; null without a site.</summary>
    public double? ChannelLossDb => Frame.ChannelHz is { } channel ? -_curve.GainDb(channel) : null;

    /// <summary>Least loss of the close range in dB, and where in hertz.</summary>
    public (double LossDb, double Hertz) Best => Enumerable.Range(0, 401)
        .Select(i => Frame.CloseFrom + ((Frame.CloseTo - Frame.CloseFrom) * i / 400)).Select(f => (LossDb: -_curve.GainDb(f), Hertz: f)).MinBy(static b => b.LossDb);

    /// <summary>The picture; null where the network is singular at a frequency of it.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="network">The network with values in force.</param>
    /// <param name="spread">What tolerances do to it; null where that was not asked.</param>
    public static BenchPicture? Of(BenchFrame frame, CircuitTwoPort network, ToleranceResult? spread = null)
    {
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(network);
        return BenchCurve.Of(network, frame.WideFrom, frame.WideTo, frame.CloseFrom, frame.CloseTo) is { } curve ? new BenchPicture(frame, curve, spread) : null;
    }

    /// <summary>Frequencies in hertz at which a tolerance run has to look for the bands of the pictures.</summary>
    public static double[] SpreadFrequencies(BenchFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        IEnumerable<double> wide = Enumerable.Range(0, 121).Select(i => frame.WideFrom * Math.Pow(frame.WideTo / frame.WideFrom, i / 120.0));
        IEnumerable<double> close = Enumerable.Range(0, 81).Select(i => frame.CloseFrom + ((frame.CloseTo - frame.CloseFrom) * i / 80));
        return [.. wide.Concat(close).Concat(frame.ChannelHz is { } c ? [c] : []).Distinct().Order()];
    }

    /// <summary>The Smith chart of the input over the close range.</summary>
    /// <param name="width">In CSS pixels.</param>
    /// <param name="impedanceOhm">Reference in ohms.</param>
    public Scene Smith(double width, double impedanceOhm)
    {
        double main = Frame.ChannelHz ?? Best.Hertz;
        List<SmithMark> marks = [new(main, string.Create(CultureInfo.InvariantCulture, $"{main / 1e6:0.00##} MHz"), true)];
        marks.AddRange(((double[])[Frame.CloseFrom, Frame.CloseTo]).Select(static f => new SmithMark(f, string.Create(CultureInfo.InvariantCulture, $"{f / 1e6:0.0}"), false)));
        return SmithScene.Draw(_curve.Reflection, Frame.CloseFrom, Frame.CloseTo, impedanceOhm, marks, width, Frame.Name);
    }

    /// <summary>The pictures as rows for a table: frequency in hertz, gain and return loss in dB, gain of the sweep in dB or null.</summary>
    /// <param name="rows">How many rows of each range.</param>
    public IReadOnlyList<(double Hertz, double GainDb, double ReturnLossDb, double? MeasuredDb)> Rows(int rows)
    {
        double[] at =
        [
            .. Enumerable.Range(0, rows).Select(i => Frame.WideFrom * Math.Pow(Frame.WideTo / Frame.WideFrom, i / (rows - 1.0)))
                .Concat(Enumerable.Range(0, rows).Select(i => Frame.CloseFrom + ((Frame.CloseTo - Frame.CloseFrom) * i / (rows - 1))))
                .Select(f => Math.Clamp(Math.Round(f / 1e4) * 1e4, Frame.WideFrom, Frame.WideTo)).Concat(Frame.ChannelHz is { } c ? [c] : []).Distinct().Order(),
        ];
        return [.. at.Select(f => (f, _curve.GainDb(f), _curve.ReturnLossDb(f), Frame.Sweep is { } sweep && sweep.TryAt(f, out ScatteringMatrix s) ? (double?)Db(s.S21.Magnitude) : null))];
    }

    /// <summary>The wide picture's data as CSV, and the needs.</summary>
    public string Csv()
    {
        StringBuilder csv = new("part,letter,emitter,frequency_hz,s21_db,s11_db,measured_s21_db,needed_db\n");
        foreach (double f in _curve.WideHz)
        {
            string measured = Frame.Sweep is { } sweep && sweep.TryAt(f, out ScatteringMatrix s) ? Number(Db(s.S21.Magnitude)) : "";
            csv.Append(CultureInfo.InvariantCulture, $"response,,,{f:0},{Number(_curve.GainDb(f))},{Number(-_curve.ReturnLossDb(f))},{measured},\n");
        }

        foreach (NeedKept need in Needs)
        {
            csv.Append(CultureInfo.InvariantCulture, $"need,{need.Letter},{CsvCell.Quote(need.Need.Name)},{need.Need.FrequencyHz},{Number(-need.HasDb)},,,{Number(need.Need.NeededDb)}\n");
        }

        return csv.ToString();
    }

    private static PlotBand? Band(ToleranceResult? spread, Func<ToleranceBand, (double From, double To)> of) => spread is { Ranking.Count: > 0, Bands.Count: > 1 }
        ? new PlotBand([.. spread.Bands.Select(b => (b.FrequencyHz, Span: of(b))).Select(static b => new PlotSpan(b.FrequencyHz, b.Span.From, b.Span.To))], "90 % of those built so")
        : null;

    private static double Db(double magnitude) => Math.Max(-400, 20 * Math.Log10(magnitude));

    private static string Number(double value) => double.IsFinite(value) ? value.ToString("F6", CultureInfo.InvariantCulture) : "";
}
