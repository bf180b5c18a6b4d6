namespace Spurless.Circuits.Coils;

/// <summary>Medhurst's tables for single-layer coils (R. G. Medhurst, Wireless Engineer, February and March 1947).</summary>
internal static class Medhurst
{
    private static readonly double[] _capacitanceLength =
    [
        0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 15, 20,
        25, 30, 40, 50,
    ];

    // Seen in a public copy that names the pages.
    private static readonly double[] _capacitance =
    [
        0.96, 0.79, 0.70, 0.64, 0.60, 0.57, 0.54, 0.52, 0.50, 0.48, 0.47, 0.46, 0.46, 0.46, 0.47, 0.50, 0.56, 0.61, 0.67, 0.72, 0.77, 0.81,
        0.92, 1.01, 1.12, 1.22, 1.32, 1.86, 2.36, 2.9, 3.4, 4.6, 5.8,
    ];

    private static readonly double[] _lengths = [0, 0.2, 0.4, 0.6, 0.8, 1, 2, 4, 6, 8, 10, double.PositiveInfinity];

    // Rows: wire diameter over pitch 0, 0.1 ... 1. Seen as quoted in several public copies, which differ in two entries: the smooth ones
    // are taken (0.4 at 0: 1.26, others 1.20; 0.7 at 10: 2.37, others 2.27). Row 0 is the lone wire.
    private static readonly double[][] _proximity =
    [
        [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1],
        [1.02, 1.02, 1.03, 1.03, 1.03, 1.03, 1.04, 1.04, 1.04, 1.04, 1.04, 1.05],
        [1.07, 1.08, 1.08, 1.10, 1.10, 1.10, 1.13, 1.15, 1.16, 1.165, 1.17, 1.19],
        [1.16, 1.19, 1.21, 1.22, 1.23, 1.24, 1.28, 1.32, 1.34, 1.34, 1.35, 1.395],
        [1.26, 1.29, 1.33, 1.38, 1.42, 1.45, 1.50, 1.54, 1.56, 1.57, 1.58, 1.65],
        [1.44, 1.48, 1.54, 1.60, 1.64, 1.67, 1.74, 1.78, 1.80, 1.81, 1.83, 1.93],
        [1.74, 1.77, 1.83, 1.89, 1.92, 1.94, 1.98, 2.01, 2.03, 2.08, 2.10, 2.22],
        [2.12, 2.20, 2.28, 2.38, 2.44, 2.47, 2.32, 2.27, 2.29, 2.34, 2.37, 2.51],
        [2.74, 2.83, 2.97, 3.10, 3.20, 3.17, 2.74, 2.60, 2.60, 2.62, 2.65, 2.815],
        [3.73, 3.84, 3.99, 4.11, 4.17, 4.10, 3.36, 3.05, 2.92, 2.90, 2.93, 3.11],
        [5.31, 5.45, 5.65, 5.80, 5.80, 5.55, 4.10, 3.54, 3.31, 3.20, 3.23, 3.41],
    ];

    /// <summary>Self-capacitance of a coil with one end earthed.</summary>
    /// <param name="lengthOverDiameter">Length over diameter; outside 0.1 to 50 the end value holds.</param>
    /// <returns>Picofarads per centimetre of diameter; between the table's entries linear over the logarithm.</returns>
    public static double PicofaradPerCentimetre(double lengthOverDiameter)
    {
        double x = Math.Clamp(lengthOverDiameter, _capacitanceLength[0], _capacitanceLength[^1]);
        int i = Math.Min(Segment(_capacitanceLength, x), _capacitanceLength.Length - 2);
        double t = Math.Log(x / _capacitanceLength[i]) / Math.Log(_capacitanceLength[i + 1] / _capacitanceLength[i]);
        return _capacitance[i] + (t * (_capacitance[i + 1] - _capacitance[i]));
    }

    /// <summary>
    /// How much the neighbouring turns raise the resistance of the wire, for coils of many turns whose skin depth is small.
    /// </summary>
    /// <param name="wireOverPitch">Wire diameter over pitch; above 1 the value at 1 holds.</param>
    /// <param name="lengthOverDiameter">Length over diameter, above 0.</param>
    /// <returns>A factor of at least 1; between the table's entries linear (beyond a length of 10 diameters, over the
    /// reciprocal).</returns>
    public static double Proximity(double wireOverPitch, double lengthOverDiameter)
    {
        double y = Math.Clamp(wireOverPitch, 0, 1) * 10;
        int row = Math.Min((int)y, 9);
        int column = Math.Min(Segment(_lengths, lengthOverDiameter), _lengths.Length - 2);
        double t = column == _lengths.Length - 2
            ? 1 - (_lengths[column] / lengthOverDiameter)
            : (lengthOverDiameter - _lengths[column]) / (_lengths[column + 1] - _lengths[column]);
        double Along(double[] r) => r[column] + (t * (r[column + 1] - r[column]));
        double low = Along(_proximity[row]);
        return low + ((y - row) * (Along(_proximity[row + 1]) - low));
    }

    private static int Segment(double[] grid, double x)
    {
        int i = Array.BinarySearch(grid, x);
        return i >= 0 ? i : ~i - 1;
    }
}
