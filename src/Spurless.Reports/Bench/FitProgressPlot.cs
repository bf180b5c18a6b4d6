using System.Globalization;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Fit;

namespace Spurless.Reports.Bench;

/// <summary>How a fit that runs comes on: the best difference over the share done, and the best response so far over the sweep.</summary>
public sealed class FitProgressPlot
{
    private readonly FitSweep _sweep;
    private readonly List<(double Share, double Db)> _steps = [];

    /// <param name="sweep">The sweep that is fitted.</param>
    public FitProgressPlot(FitSweep sweep) => _sweep = sweep;

    /// <summary>The best so far; null before there is one.</summary>
    public FitSoFar? Best { get; private set; }

    /// <summary>Share done, 0 to 1.</summary>
    public double Share { get; private set; }

    /// <summary>The best response so far over the sweep; null before there is one.</summary>
    public ResponsePlotModel? Response { get; private set; }

    /// <summary>The fit has come further.</summary>
    /// <param name="progress">How far.</param>
    public void Add(FitProgress progress)
    {
        ArgumentNullException.ThrowIfNull(progress);
        Share = Math.Max(Share, progress.Fraction);
        if (progress.Best is { } best && (Best is null || best.DifferenceDb < Best.DifferenceDb))
        {
            Best = best;
            _steps.Add((Share, best.DifferenceDb));
            Response = Plot(best);
        }
    }

    /// <summary>
    /// Draws it. The scale is of decibels, and of magnitudes, whose difference is in dB itself, logarithmic: either way equal ratios are
    /// equally far apart.
    /// </summary>
    /// <param name="width">In CSS pixels, at least 300.</param>
    /// <param name="height">Of the frame, in CSS pixels.</param>
    public Scene? Draw(double width, double height)
    {
        if (Best is not { } best)
        {
            return null;
        }

        PlotBox box = new(42, 34, width - 12, 34 + height);
        double low = _steps[^1].Db, high = _steps[0].Db;
        Axis x = Axis.Linear(0, 100, box.Left, box.Right);
        Axis y = best.IsMagnitude
            ? Axis.Logarithmic(Math.Max(low, 1e-6) / 1.5, Math.Max(high, 1e-6) * 1.5, box.Bottom, box.Top)
            : Axis.Linear((Math.Floor(low / 10) * 10) - 5, (Math.Ceiling(high / 10) * 10) + 5, box.Bottom, box.Top);
        List<SceneItem> items =
            [new SceneText("", 0, box.Top - 22, best.IsMagnitude ? "best difference, dB rms (log)" : "best difference, dB rms")];
        foreach (Tick tick in y.Ticks(28).Where(static t => t.Labelled))
        {
            double at = y.Map(tick.Value);
            items.Add(new ScenePath("grid", SvgPath.Segment(box.Left, at, box.Right, at)));
            items.Add(
                new SceneText(
                    "",
                    box.Left - 6,
                    at + 4,
                    (tick.Value < 0 ? "\u2212" : "") + Math.Abs(tick.Value).ToString("0.####", CultureInfo.InvariantCulture),
                    TextAnchor.End));
        }

        items.Add(
            new ScenePath("axis", new SvgPath().Move(box.Left, box.Top).Line(box.Left, box.Bottom).Line(box.Right, box.Bottom).ToString()));
        foreach (Tick tick in x.Ticks(44))
        {
            double at = x.Map(tick.Value);
            items.Add(new ScenePath("axis", SvgPath.Segment(at, box.Bottom, at, box.Bottom + 5)));
            items.Add(new SceneText("", at, box.Bottom + 17, tick.Value.ToString("0", CultureInfo.InvariantCulture), TextAnchor.Middle));
        }

        items.Add(new SceneText("", box.Right, box.Bottom + 31, "done, %", TextAnchor.End));
        SvgPath path = new SvgPath().Move(x.Map(100 * _steps[0].Share), y.Map(_steps[0].Db));
        for (int i = 1; i < _steps.Count; i++)
        {
            path.Line(x.Map(100 * _steps[i].Share), y.Map(_steps[i - 1].Db)).Line(x.Map(100 * _steps[i].Share), y.Map(_steps[i].Db));
        }

        items.Add(new ScenePath("curve", path.Line(x.Map(100 * Math.Max(Share, _steps[^1].Share)), y.Map(low)).ToString()));
        return new Scene
        {
            Width = width,
            Height = box.Bottom + 36,
            Title = "The best difference so far",
            Description = string.Create(
                CultureInfo.InvariantCulture,
                $"The best rms difference between circuit and sweep over the share done: "
                    + $"from {high:0.0#} dB to {low:0.0#} dB at {100 * Share:0} %."),
            Items = items,
        };
    }

    // The S-parameter that a filter is made for: the transmission where there is one.
    private ResponsePlotModel? Plot(FitSoFar best)
    {
        SweepTrace measured = _sweep.Traces.FirstOrDefault(static t => t.Parameter == SweepParameter.S21) ?? _sweep.Traces[0];
        if (CircuitSolver.TryCreate(best.Circuit, out _) is not { } solver || _sweep.FrequenciesHz.Length < 2)
        {
            return null;
        }

        CircuitTwoPort circuit = new(solver);
        double low = Math.Max(-140, Math.Floor(measured.Decibels.Min() / 10) * 10);
        return new ResponsePlotModel
        {
            Title = $"{measured.Parameter}: the sweep, and the circuit with the best values so far",
            Quantity = Db,
            AxisTitle = $"{measured.Parameter}, dB",
            CurveName = "best so far",
            FromHz = _sweep.FrequenciesHz[0],
            ToHz = _sweep.FrequenciesHz[^1],
            Low = low,
            High = Math.Max(Math.Ceiling(Math.Max(0, measured.Decibels.Max()) / 5) * 5, low + 10),
            Measured = [.. measured.Decibels.Select((db, i) => (_sweep.FrequenciesHz[i], db))],
        };

        double Db(double hertz)
        {
            try
            {
                ScatteringMatrix s = circuit.At(hertz);
                return Math.Max(-400, 20 * Math.Log10((measured.Parameter == SweepParameter.S21 ? s.S21 : s.S11).Magnitude));
            }
            catch (CircuitException)
            {
                return double.NaN;
            }
        }
    }
}
