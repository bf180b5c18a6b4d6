using System.Globalization;
using System.Numerics;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Drawing.Responses;
using Spurless.Fit;

namespace Spurless.Reports.Bench;

/// <summary>
/// What the page of a fit shows: plots of the sweep under the fitted curve, of what is left over, and the intervals drawn to scale.
/// </summary>
public sealed class FitSheetView
{
    private readonly FitResult _result;
    private readonly CircuitTwoPort? _fitted;

    /// <summary>Makes the view.</summary>
    /// <param name="result">What the fit found.</param>
    public FitSheetView(FitResult result)
    {
        _result = result;
        _fitted = CircuitSolver.TryCreate(result.Fitted, out _) is { } solver ? new CircuitTwoPort(solver) : null;
    }

    /// <summary>The plots, S-parameter by S-parameter: the curve is the fit, the dots are the sweep.</summary>
    public IEnumerable<(string Id, ResponsePlotModel Model)> Plots =>
        _result.Traces.Select((t, i) => (t.Parameter.ToString().ToLowerInvariant(), Plot(t, _result.Sweep.Traces[i])));

    /// <summary>What is left over, per S-parameter.</summary>
    public IEnumerable<(string Id, ResponsePlotModel Model)> Residuals =>
        _result.Traces.Select((t, i) => ("r" + t.Parameter.ToString().ToLowerInvariant(), Residual(t, _result.Sweep.Traces[i])));

    private double From => _result.Sweep.FrequenciesHz[0];

    private double To => _result.Sweep.FrequenciesHz[^1];

    /// <summary>An interval in words: value and per cent either way.</summary>
    public static string Spread(FittedValue v)
    {
        double down = 100 * (1 - (v.Low / v.Value)), up = 100 * ((v.High / v.Value) - 1);
        return up > 1000 || !double.IsFinite(up)
            ? "open"
            : string.Create(CultureInfo.InvariantCulture, $"\u2212{down:0.##} / +{up:0.##} %");
    }

    private ResponsePlotModel Plot(TraceFit trace, SweepTrace measured)
    {
        double low = measured.Decibels.Min(), high = Math.Max(0, measured.Decibels.Max());
        string name = FitWords.Name(trace, _result);
        return new ResponsePlotModel
        {
            Title = $"{name}: the sweep and the fitted circuit",
            Quantity = f => Db(trace.Parameter, f),
            AxisTitle = $"{trace.Parameter}, dB",
            CurveName = "fit",
            FromHz = From,
            ToHz = To,
            Low = Math.Max(-140, Math.Floor(low / 10) * 10),
            High = Math.Max(Math.Ceiling(high / 5) * 5, Math.Floor(low / 10) * 10 + 10),
            Measured = Points(measured.Decibels),
        };
    }

    private ResponsePlotModel Residual(TraceFit trace, SweepTrace measured)
    {
        double[] left =
        [
            .. Enumerable.Range(0, trace.Model.Length).Select(i => _result.Sweep.IsMagnitude
                ? trace.Model[i].Real - measured.Decibels[i]
                : 20 * Math.Log10(Math.Max(1e-9, (trace.Model[i] - measured.Values[i]).Magnitude))),
        ];
        double noise = FitWords.Level(trace.Noise, _result), low = Math.Min(noise, left.Min()), high = Math.Max(noise, left.Max());
        double step = _result.Sweep.IsMagnitude ? 0.5 : 10;
        return new ResponsePlotModel
        {
            Title = $"{FitWords.Name(trace, _result)}: what is left over, and the sweep's noise",
            Quantity = _ => noise,
            AxisTitle = _result.Sweep.IsMagnitude ? "fit less sweep, dB" : "difference, dB",
            CurveName = "noise",
            FromHz = From,
            ToHz = To,
            Low = Math.Floor(low / step) * step,
            High = (Math.Floor(high / step) + 1) * step,
            Measured = Points(left),
        };
    }

    private IReadOnlyList<(double Hertz, double Value)> Points(IReadOnlyList<double> values) =>
        [.. Enumerable.Range(0, values.Count).Select(i => (_result.Sweep.FrequenciesHz[i], values[i]))];

    private double Db(SweepParameter parameter, double hertz)
    {
        try
        {
            ScatteringMatrix s = _fitted?.At(hertz) ?? default;
            Complex value =
                parameter switch { SweepParameter.S11 => s.S11, SweepParameter.S22 => s.S22, SweepParameter.S12 => s.S12, _ => s.S21 };
            return Math.Max(-400, 20 * Math.Log10(value.Magnitude));
        }
        catch (CircuitException)
        {
            return double.NaN;
        }
    }
}
