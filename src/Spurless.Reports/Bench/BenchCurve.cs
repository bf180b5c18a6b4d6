using System.Numerics;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Numerics;

namespace Spurless.Reports.Bench;

/// <summary>
/// A network's S-parameters over two ranges, wide and close, computed at once: what a moving slider redraws from. Between the points they
/// are interpolated in a straight line, real and imaginary part each.
/// </summary>
internal sealed class BenchCurve
{
    /// <summary>Points of the wide range, evenly over the logarithm.</summary>
    public const int WidePoints = 801;

    private const int ClosePoints = 401;

    private readonly double[] _wideHz;
    private readonly double[] _closeHz;
    private readonly ScatteringMatrix[] _wide;
    private readonly ScatteringMatrix[] _close;

    private BenchCurve(double[] wideHz, ScatteringMatrix[] wide, double[] closeHz, ScatteringMatrix[] close) =>
        (_wideHz, _wide, _closeHz, _close) = (wideHz, wide, closeHz, close);

    /// <summary>Frequencies of the wide range in hertz.</summary>
    public IReadOnlyList<double> WideHz => _wideHz;

    /// <summary>Computes it; null where the network is singular somewhere.</summary>
    public static BenchCurve? Of(CircuitTwoPort network, double wideFrom, double wideTo, double closeFrom, double closeTo)
    {
        double[] wideHz = FrequencyGrid.Logarithmic(wideFrom, wideTo, WidePoints);
        double[] closeHz = FrequencyGrid.Linear(closeFrom, closeTo, ClosePoints);
        ScatteringMatrix[] wide = new ScatteringMatrix[wideHz.Length];
        ScatteringMatrix[] close = new ScatteringMatrix[closeHz.Length];
        return network.TryAt(wideHz, wide) is null && network.TryAt(closeHz, close) is null
            ? new BenchCurve(wideHz, wide, closeHz, close)
            : null;
    }

    /// <summary>Gain in dB at a frequency in hertz; NaN outside both ranges.</summary>
    public double GainDb(double hertz) => At(hertz) is { } s ? Math.Max(-400, 20 * Math.Log10(s.S21.Magnitude)) : double.NaN;

    /// <summary>Return loss of the input in dB; NaN outside both ranges.</summary>
    public double ReturnLossDb(double hertz) => At(hertz) is { } s ? -20 * Math.Log10(Math.Max(1e-10, s.S11.Magnitude)) : double.NaN;

    /// <summary>Reflection of the input; 0 outside both ranges.</summary>
    public Complex Reflection(double hertz) => At(hertz)?.S11 ?? Complex.Zero;

    private ScatteringMatrix? At(double hertz) => Within(_closeHz, _close, hertz) ?? Within(_wideHz, _wide, hertz);

    private static ScatteringMatrix? Within(double[] at, ScatteringMatrix[] s, double hertz)
    {
        if (hertz < at[0] || hertz > at[^1])
        {
            return null;
        }

        GridPlace place = Grid.Locate(at, hertz);
        return place.Part == 0 ? s[place.Below] : ScatteringMatrix.Between(s[place.Below], s[place.Below + 1], place.Part);
    }
}
