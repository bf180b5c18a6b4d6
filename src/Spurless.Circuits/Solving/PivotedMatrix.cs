using System.Numerics;
using System.Runtime.InteropServices;

namespace Spurless.Circuits.Solving;

/// <summary>
/// A dense complex matrix with LU by partial pivoting, its rows scaled to about 1 by powers of two, and iterative refinement of every
/// solution. The residual of every equation is held to 1e-13 of its largest coefficient times the largest unknown. Allocates only when
/// made.
/// </summary>
internal sealed class PivotedMatrix(int capacity)
{
    private readonly Complex[] _matrix = new Complex[capacity * capacity];
    private readonly Complex[] _factors = new Complex[capacity * capacity];
    private readonly double[] _scale = new double[capacity];
    private readonly int[] _rows = new int[capacity];
    private readonly Complex[] _work = new Complex[capacity];
    private readonly Complex[] _right = new Complex[capacity];
    private readonly Complex[] _permuted = new Complex[capacity];

    /// <summary>Number of unknowns now.</summary>
    public int Size { get; private set; }

    /// <summary>Begins a matrix of nothing.</summary>
    public void Clear(int size)
    {
        Size = size;
        _matrix.AsSpan(0, size * size).Clear();
    }

    /// <summary>Adds to an entry; a row or column of -1 (ground) is left out.</summary>
    public void Add(int row, int column, Complex value)
    {
        if (row >= 0 && column >= 0)
        {
            _matrix[(row * Size) + column] += value;
        }
    }

    /// <summary>Solves for a right side that is not 0 in one row alone.</summary>
    /// <returns>Whether the residual is small enough.</returns>
    public bool Solve(int row, Complex value, Span<Complex> x)
    {
        Span<Complex> right = _right.AsSpan(0, Size);
        right.Clear();
        right[row] = value;
        right.CopyTo(x);
        Substitute(x);
        for (int step = 0; step < 3; step++)
        {
            double worst = Residual(x, right);
            if (worst <= 2e-16 || step == 2 || double.IsNaN(worst))
            {
                return worst < 1e-13;
            }

            Span<Complex> correction = _work.AsSpan(0, Size);
            Substitute(correction);
            for (int i = 0; i < Size; i++)
            {
                x[i] += correction[i];
            }
        }

        return false;
    }

    /// <summary>Factors the matrix.</summary>
    /// <returns>Number of the unknown at which it is singular; -1 where it is not.</returns>
    public int Decompose()
    {
        int n = Size;
        for (int i = 0; i < n; i++)
        {
            double largest = 0;
            for (int j = 0; j < n; j++)
            {
                largest = Math.Max(largest, Magnitude(_matrix[(i * n) + j]));
            }

            if (!(largest > 0) || !double.IsFinite(largest))
            {
                return i;
            }

            // A power of two, so that scaling rounds nothing.
            _scale[i] = Math.ScaleB(1, -Math.ILogB(largest));
            _rows[i] = i;
            for (int j = 0; j < n; j++)
            {
                _factors[(i * n) + j] = _matrix[(i * n) + j] * _scale[i];
            }
        }

        for (int k = 0; k < n; k++)
        {
            int best = k;
            double size = Magnitude(_factors[(k * n) + k]);
            for (int i = k + 1; i < n; i++)
            {
                double candidate = Magnitude(_factors[(i * n) + k]);
                if (candidate > size)
                {
                    (best, size) = (i, candidate);
                }
            }

            if (!(size > 4e-16))
            {
                return k;
            }

            if (best != k)
            {
                (_rows[k], _rows[best]) = (_rows[best], _rows[k]);
                Span<Complex> a = _factors.AsSpan(k * n, n), b = _factors.AsSpan(best * n, n);
                for (int j = 0; j < n; j++)
                {
                    (a[j], b[j]) = (b[j], a[j]);
                }
            }

            Complex inverse = Complex.One / _factors[(k * n) + k];
            ReadOnlySpan<double> pivotRow = MemoryMarshal.Cast<Complex, double>(_factors.AsSpan(k * n, n));
            for (int i = k + 1; i < n; i++)
            {
                Complex below = _factors[(i * n) + k];
                if (below == Complex.Zero)
                {
                    continue;
                }

                Complex factor = below * inverse;
                _factors[(i * n) + k] = factor;
                (double fr, double fi) = (factor.Real, factor.Imaginary);
                Span<double> row = MemoryMarshal.Cast<Complex, double>(_factors.AsSpan(i * n, n));
                for (int j = 2 * (k + 1); j + 1 < row.Length; j += 2)
                {
                    (double pr, double pi) = (pivotRow[j], pivotRow[j + 1]);
                    row[j] -= (fr * pr) - (fi * pi);
                    row[j + 1] -= (fr * pi) + (fi * pr);
                }
            }
        }

        return -1;
    }

    private void Substitute(Span<Complex> x)
    {
        int n = Size;
        Span<Complex> permuted = _permuted.AsSpan(0, n);
        for (int i = 0; i < n; i++)
        {
            Complex sum = x[_rows[i]] * _scale[_rows[i]];
            for (int j = 0; j < i; j++)
            {
                sum -= _factors[(i * n) + j] * permuted[j];
            }

            permuted[i] = sum;
        }

        for (int i = n - 1; i >= 0; i--)
        {
            Complex sum = permuted[i];
            for (int j = i + 1; j < n; j++)
            {
                sum -= _factors[(i * n) + j] * permuted[j];
            }

            permuted[i] = sum / _factors[(i * n) + i];
        }

        permuted.CopyTo(x);
    }

    // Leaves the residual in the work vector and returns its worst share of the row's largest entry times the largest unknown. A row whose
    // own unknowns are all nothing (a shorted winding) is thereby measured against the others.
    private double Residual(ReadOnlySpan<Complex> x, ReadOnlySpan<Complex> right)
    {
        double worst = 0, largest = 0;
        for (int i = 0; i < Size; i++)
        {
            largest = Math.Max(largest, Magnitude(x[i]));
        }

        for (int i = 0; i < Size; i++)
        {
            Complex sum = right[i];
            for (int j = 0; j < Size; j++)
            {
                sum -= _matrix[(i * Size) + j] * x[j];
            }

            _work[i] = sum;
            double share = Magnitude(sum) * _scale[i] / largest;
            if (!(share <= worst))
            {
                worst = share;
            }
        }

        return worst;
    }

    private static double Magnitude(Complex z) => Math.Abs(z.Real) + Math.Abs(z.Imaginary);
}
