namespace Spurless.Numerics;

/// <summary>
/// A sum of squares to be made small: <c>C(x) = sum r_i(x)^2</c> (with robust weights or prior terms where whoever asks has any), and its
/// normal equations. Summing them while the residuals' slopes are made keeps a long sweep's Jacobian from ever being stored, which a
/// library's interface does not allow.
/// </summary>
public interface ILeastSquares
{
    /// <summary>Number of unknowns.</summary>
    int Count { get; }

    /// <summary>How many of the first unknowns have a scale of 1 on which a step is cut; the others may go any way at once.</summary>
    int Scaled { get; }

    /// <summary>Lower bounds; may be minus infinity.</summary>
    ReadOnlySpan<double> Low { get; }

    /// <summary>Upper bounds; may be infinity.</summary>
    ReadOnlySpan<double> High { get; }

    /// <summary>The sum of squares at a point; infinite where there is none.</summary>
    double Cost(ReadOnlySpan<double> x);

    /// <summary>The same, with <c>J^T J</c> (row by row, whole) and <c>J^T r</c> there.</summary>
    double Normal(ReadOnlySpan<double> x, double[] normal, double[] gradient);
}
