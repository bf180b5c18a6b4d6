using System.Globalization;
using System.Text;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;
using Spurless.Workbench.Bench;

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
            Beside = frame.Beside?.Curve is { } other ? other.GainDb : null,
            BesideWords = frame.Beside is { } b ? b.Curve is null ? $"measured, {b.Name}" : b.Name : "",
        };
        PlotMark[] marks = [.. Needs.Select(static n => new PlotMark(n.Need.FrequencyHz, n.Letter))];
        Wide = frame.Wide with
        {
            Quantity = curve.GainDb,
            Marks = marks,
            Overlay = gain with
            {
                Measured = BenchFrame.Readings(frame.Sweep, frame.WideFrom, frame.WideTo, static s => Db(s.S21.Magnitude)),
                BesideMeasured = BenchFrame.Readings(frame.Beside?.Sweep, frame.WideFrom, frame.WideTo, static s => Db(s.S21.Magnitude)),
            },
        };
        Close = frame.Close with
        {
            Quantity = curve.GainDb,
            Marks = marks,
            Overlay = gain with
            {
                Measured = BenchFrame.Readings(frame.Sweep, frame.CloseFrom, frame.CloseTo, static s => Db(s.S21.Magnitude)),
                BesideMeasured = BenchFrame.Readings(frame.Beside?.Sweep, frame.CloseFrom, frame.CloseTo, static s => Db(s.S21.Magnitude)),
            },
        };
        ReturnLoss = frame.ReturnLoss with
        {
            Quantity = curve.ReturnLossDb,
            Overlay = new PlotOverlay
            {
                Band = Band(spread, static b => (-b.S11Db.P95, -b.S11Db.P5)),
                Measured = BenchFrame.Readings(frame.Sweep, frame.CloseFrom, frame.CloseTo, static s => -Db(s.S11.Magnitude)),
                MeasuredWords = gain.MeasuredWords,
                Beside = frame.Beside?.Curve is { } second ? second.ReturnLossDb : null,
                BesideMeasured = BenchFrame.Readings(frame.Beside?.Sweep, frame.CloseFrom, frame.CloseTo, static s => -Db(s.S11.Magnitude)),
                BesideWords = gain.BesideWords,
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
        .Select(i => Frame.CloseFrom + ((Frame.CloseTo - Frame.CloseFrom) * i / 400))
            .Select(f => (LossDb: -_curve.GainDb(f), Hertz: f))
            .MinBy(static b => b.LossDb);

    /// <summary>The picture; null where the network is singular at a frequency of it.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="network">The network with values in force.</param>
    /// <param name="spread">What tolerances do to it; null where that was not asked.</param>
    public static BenchPicture? Of(BenchFrame frame, CircuitTwoPort network, ToleranceResult? spread = null)
    {
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(network);
        return BenchCurve.Of(network, frame.WideFrom, frame.WideTo, frame.CloseFrom, frame.CloseTo) is { } curve
            ? new BenchPicture(frame, curve, spread)
            : null;
    }

    /// <summary>Frequencies in hertz at which a tolerance run has to look for the bands of the pictures.</summary>
    public static double[] SpreadFrequencies(BenchFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        IEnumerable<double> wide = Enumerable.Range(0, 121).Select(
            i => frame.WideFrom * Math.Pow(frame.WideTo / frame.WideFrom, i / 120.0));
        IEnumerable<double> close = Enumerable.Range(0, 81).Select(i => frame.CloseFrom + ((frame.CloseTo - frame.CloseFrom) * i / 80));
        return [.. wide.Concat(close).Concat(frame.ChannelHz is { } c ? [c] : []).Distinct().Order()];
    }

    /// <summary>The Smith chart of the input over the close range.</summary>
    /// <param name="width">In CSS pixels.</param>
    /// <param name="impedanceOhm">Reference in ohms.</param>
    public Scene Smith(double width, double impedanceOhm)
    {
        double main = Frame.ChannelHz ?? Best.Hertz;
        List<SmithMark> marks = [new(main, MegahertzText.InWords(main) + " MHz", true)];
        marks.AddRange(((double[])[Frame.CloseFrom, Frame.CloseTo]).Select(static f => new SmithMark(f, MegahertzText.Of(f, 1), false)));
        return SmithScene.Draw(_curve.Reflection, Frame.CloseFrom, Frame.CloseTo, impedanceOhm, marks, width, Frame.Name,
            Frame.Sweep is { } sweep && sweep.Reference1 == impedanceOhm ? Frame.Reflections(sweep) : null,
            Frame.Beside?.Curve is { } curve ? curve.Reflection : null,
            Frame.Beside?.Sweep is { } beside && beside.Reference1 == impedanceOhm ? Frame.Reflections(beside) : null);
    }

    /// <summary>
    /// How what is laid beside differs: from the sweep that is laid over where both are sweeps, else from the circuit with values in force.
    /// </summary>
    /// <returns>Null without one, and where it does not reach over the close range.</returns>
    public BesideDifference? Differs()
    {
        if (Frame.Beside is not { } beside)
        {
            return null;
        }

        bool sweeps = beside.Sweep is not null && Frame.Sweep is not null;
        Func<double, double> now = sweeps ? Gain(Frame.Sweep!) : _curve.GainDb;
        Func<double, double> other = beside.Curve is { } curve ? curve.GainDb : Gain(beside.Sweep!);

        // A sweep is compared on its own grid: a shift under half its step is none that could be told.
        double[] at = beside.Sweep is { } grid
            ? [.. grid.FrequenciesHz.ToArray().Where(f => f >= Frame.CloseFrom && f <= Frame.CloseTo)]
            : [.. Enumerable.Range(0, 401).Select(i => Frame.CloseFrom + ((Frame.CloseTo - Frame.CloseFrom) * i / 400))];
        double where = Frame.ChannelHz ?? Best.Hertz;
        if (at.Length < 3 || !double.IsFinite(now(where)) || !double.IsFinite(other(where)))
        {
            return null;
        }

        double step = (at[^1] - at[0]) / (at.Length - 1) / 2;
        double centre = Middle(at, other) - Middle(at, now);
        double? width = Width(at, other) - Width(at, now);
        return new BesideDifference(
            beside.Name,
            sweeps ? Frame.SweepName : null,
            now(where) - other(where),
            where,
            Math.Abs(centre) < step ? 0 : centre,
            width is { } w ? Math.Abs(w) < 2 * step ? 0 : w : null);
    }

    private static Func<double, double> Gain(Circuits.Measured.MeasuredTwoPort sweep) =>
        f => sweep.TryAt(f, out ScatteringMatrix m) ? Db(m.S21.Magnitude) : double.NegativeInfinity;

    /// <summary>
    /// How the sweep that is laid over differs from what is computed: on the channel, else at the computed peak, and where each is best.
    /// </summary>
    /// <returns>Loss measured over computed in dB, and measured best place over the computed one in hertz; null where the sweep has
    /// neither.</returns>
    public (double LossDb, double AtHz, double CentreHz)? Against()
    {
        if (Frame.Sweep is not { } sweep)
        {
            return null;
        }

        // The best points lie on the sweep's own grid, so that a shift under half its step is none that could be told.
        double[] within = [.. sweep.FrequenciesHz.ToArray().Where(f => f >= Frame.CloseFrom && f <= Frame.CloseTo)];
        double at = Frame.ChannelHz ?? Best.Hertz;
        if (within.Length < 3 || !sweep.TryAt(at, out ScatteringMatrix s))
        {
            return null;
        }

        double Measured(double f) => sweep.TryAt(f, out ScatteringMatrix m) ? Db(m.S21.Magnitude) : double.NegativeInfinity;
        double centre = Middle(within, Measured) - Middle(within, _curve.GainDb);
        double step = (within[^1] - within[0]) / (within.Length - 1);
        return (_curve.GainDb(at) - Db(s.S21.Magnitude), at, Math.Abs(centre) < step / 2 ? 0 : centre);
    }

    // Between where it is 3 dB down on either side; null where a side is not in the range.
    private static double? Width(double[] at, Func<double, double> gain)
    {
        double[] db = [.. at.Select(gain)];
        int peak = Array.IndexOf(db, db.Max());
        int low = Array.FindLastIndex(db, peak, d => d < db[peak] - 3);
        int high = Array.FindIndex(db, peak, d => d < db[peak] - 3);
        return low < 0 || high < 0 ? null : at[high] - at[low];
    }

    // The middle between where it is 3 dB down on either side, which is told better than a flat top; the peak where a side is not in the
    // range.
    private static double Middle(double[] at, Func<double, double> gain)
    {
        double[] db = [.. at.Select(gain)];
        int peak = Array.IndexOf(db, db.Max());
        int low = Array.FindLastIndex(db, peak, d => d < db[peak] - 3);
        int high = Array.FindIndex(db, peak, d => d < db[peak] - 3);
        return low < 0 || high < 0 ? at[peak] : (Crossing(low, low + 1) + Crossing(high, high - 1)) / 2;

        double Crossing(int outside, int inside) => at[outside] + ((at[inside] - at[outside]) * (db[peak] - 3 - db[outside]) / (
            db[inside] - db[outside]));
    }

    /// <summary>
    /// The pictures as rows for a table: frequency in hertz, gain and return loss in dB, gain of the sweep in dB or null.
    /// </summary>
    /// <param name="rows">How many rows of each range.</param>
    public IReadOnlyList<(double Hertz, double GainDb, double ReturnLossDb, double? MeasuredDb)> Rows(int rows)
    {
        double[] at =
        [
            .. Enumerable.Range(0, rows).Select(i => Frame.WideFrom * Math.Pow(Frame.WideTo / Frame.WideFrom, i / (rows - 1.0)))
                .Concat(Enumerable.Range(0, rows).Select(i => Frame.CloseFrom + ((Frame.CloseTo - Frame.CloseFrom) * i / (rows - 1))))
                .Select(f => Math.Clamp(Math.Round(f / 1e4) * 1e4, Frame.WideFrom, Frame.WideTo))
                    .Concat(Frame.ChannelHz is { } c ? [c] : [])
                    .Distinct().Order(),
        ];
        return [
            .. at.Select(
                f =>
                    (f, _curve.GainDb(f), _curve.ReturnLossDb(f), Frame.Sweep is { } sweep && sweep.TryAt(f, out ScatteringMatrix s)
                        ? (double?)Db(s.S21.Magnitude)
                        : null)),
        ];
    }

    /// <summary>The wide picture's data as CSV, and the needs.</summary>
    public string Csv()
    {
        StringBuilder csv = new("part,letter,emitter,frequency_hz,s21_db,s11_db,measured_s21_db,needed_db\n");
        foreach (double f in _curve.WideHz)
        {
            string measured = Frame.Sweep is { } sweep && sweep.TryAt(f, out ScatteringMatrix s) ? CsvFigure.Of(Db(s.S21.Magnitude)) : "";
            csv.Append(
                CultureInfo.InvariantCulture,
                $"response,,,{f:0},{CsvFigure.Of(_curve.GainDb(f))},{CsvFigure.Of(-_curve.ReturnLossDb(f))},{measured},\n");
        }

        foreach (NeedKept need in Needs)
        {
            csv.Append(
                CultureInfo.InvariantCulture,
                $"need,{need.Letter},{CsvQuoting.Quote(need.Need.Name)},{need.Need.FrequencyHz},"
                    + $"{CsvFigure.Of(-need.HasDb)},,,{CsvFigure.Of(need.Need.NeededDb)}\n");
        }

        return csv.ToString();
    }

    private static PlotBand? Band(ToleranceResult? spread, Func<ToleranceBand, (double From, double To)> of) =>
        spread is { Ranking.Count: > 0, Bands.Count: > 1 }
        ? new PlotBand(
            [
                .. spread.Bands
                    .Select(b => (b.FrequencyHz, Span: of(b)))
                    .Select(static b => new PlotSpan(b.FrequencyHz, b.Span.From, b.Span.To)),
            ],
            "90 % of those built so")
        : null;

    private static double Db(double magnitude) => Math.Max(-400, 20 * Math.Log10(magnitude));
}
