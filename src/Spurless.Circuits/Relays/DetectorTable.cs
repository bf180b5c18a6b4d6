namespace Spurless.Circuits.Relays;

/// <summary>
/// The mean current into the smoothing capacitor over line amplitude and smoothing voltage, tabulated. Its places are by how far the
/// smoothing voltage stands under that of an ideal detector, where the current bends always at the same place, and by the smoothing
/// voltage. Monotone cubics over the one (Fritsch and Carlson, SIAM Journal on Numerical Analysis 17 (1980), 238-246), straight over the
/// other.
/// </summary>
public sealed class DetectorTable
{
    private const double FirstUnder = -0.4;
    private const double FineTo = 2;
    private const double FineStep = 0.06;
    private const double Growth = 1.22;
    private const double FirstSmoothing = 0.15;
    private const double SmoothingGrowth = 1.5;

    private readonly RelayDetector _detector;
    private readonly double _open;
    private readonly double[] _under;
    private readonly double[] _smoothing;
    private readonly double[][] _current;
    private readonly double[][] _slope;

    private DetectorTable(RelayDetector detector, double mostPeakV, CancellationToken cancellation)
    {
        _detector = detector;
        _open = detector.OpenShare;
        double most = _open * mostPeakV;
        List<double> under = [];
        for (double at = FirstUnder; at < FineTo; at += FineStep)
        {
            under.Add(at);
        }

        for (double at = FineTo; at < most * Growth; at *= Growth)
        {
            under.Add(at);
        }

        List<double> smoothing = [0];
        for (double at = FirstSmoothing; smoothing.Count < 2 || at < most * SmoothingGrowth; at *= SmoothingGrowth)
        {
            smoothing.Add(at);
        }

        (_under, _smoothing) = ([.. under], [.. smoothing]);
        (_current, _slope) = (new double[_smoothing.Length][], new double[_smoothing.Length][]);
        for (int row = 0; row < _smoothing.Length; row++)
        {
            cancellation.ThrowIfCancellationRequested();
            _current[row] = Row(_smoothing[row]);
            _slope[row] = Slopes(_under, _current[row]);
        }
    }

    /// <summary>Tabulates a detector; a few hundred periods are solved.</summary>
    /// <param name="detector">The detector.</param>
    /// <param name="mostPeakV">The greatest amplitude on the line that will be asked for, in volts, above 0.</param>
    /// <param name="cancellation">Stops it.</param>
    public static DetectorTable Of(RelayDetector detector, double mostPeakV, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(detector);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mostPeakV);
        return new DetectorTable(detector, mostPeakV, cancellation);
    }

    /// <summary>Mean current into the smoothing capacitor in amperes, with its slopes in siemens.</summary>
    /// <param name="peakV">Amplitude on the line in volts, up to that tabulated; beyond it goes on straight.</param>
    /// <param name="smoothingV">Smoothing voltage in volts, at least 0.</param>
    public (double Amperes, double BySmoothing, double ByPeak) At(double peakV, double smoothingV)
    {
        double under = (_open * peakV) - smoothingV;
        int row = Place(_smoothing, smoothingV);
        double width = _smoothing[row + 1] - _smoothing[row];
        double part = Math.Clamp((smoothingV - _smoothing[row]) / width, 0, 1);
        int column = Place(_under, under);
        (double low, double lowSlope) = Cubic(row, column, under);
        (double high, double highSlope) = Cubic(row + 1, column, under);
        double byUnder = lowSlope + (part * (highSlope - lowSlope));
        double along = smoothingV >= _smoothing[^1] ? 0 : (high - low) / width;
        return (low + (part * (high - low)), along - byUnder, _open * byUnder);
    }

    private static int Place(double[] places, double at)
    {
        int found = Array.BinarySearch(places, at);
        found = found >= 0 ? found : ~found - 1;
        return Math.Clamp(found, 0, places.Length - 2);
    }

    private (double Value, double Slope) Cubic(int row, int column, double at)
    {
        double[] y = _current[row], m = _slope[row];
        if (at <= _under[0])
        {
            return (y[0], 0); // nothing but reverse current, which a voltage hardly changes
        }

        if (at >= _under[^1])
        {
            return (y[^1] + (m[^1] * (at - _under[^1])), m[^1]);
        }

        double h = _under[column + 1] - _under[column], s = (at - _under[column]) / h;
        double a = y[column], b = y[column + 1], p = h * m[column], q = h * m[column + 1];
        double c = (3 * (b - a)) - (2 * p) - q, d = (2 * (a - b)) + p + q;
        return (a + (s * (p + (s * (c + (s * d))))), (p + (s * ((2 * c) + (3 * s * d)))) / h);
    }

    private double[] Row(double smoothingV)
    {
        double[] row = new double[_under.Length];
        for (int i = 0; i < row.Length; i++)
        {
            double peak = (_under[i] + smoothingV) / _open;
            row[i] = peak >= 0 ? DetectorCycle.MeanCurrent(_detector, peak, smoothingV) : double.NaN;
        }

        // Amplitudes under 0 are none: what stands at 0 holds there.
        for (int i = row.Length - 2; i >= 0; i--)
        {
            row[i] = double.IsNaN(row[i]) ? row[i + 1] : row[i];
        }

        return row;
    }

    private static double[] Slopes(double[] x, double[] y)
    {
        int n = x.Length;
        double[] slopes = new double[n];
        for (int i = 1; i < n - 1; i++)
        {
            double left = (y[i] - y[i - 1]) / (x[i] - x[i - 1]), right = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
            if (left * right > 0)
            {
                double hl = x[i] - x[i - 1], hr = x[i + 1] - x[i];
                slopes[i] = 3 * (hl + hr) / ((((2 * hr) + hl) / left) + ((hr + (2 * hl)) / right));
            }
        }

        slopes[n - 1] = (y[n - 1] - y[n - 2]) / (x[n - 1] - x[n - 2]);
        return slopes;
    }
}
