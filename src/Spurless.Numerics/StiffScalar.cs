namespace Spurless.Numerics;

/// <summary>The right-hand side of one ordinary differential equation <c>y' = f(t, y)</c> with its partial derivatives.</summary>
public interface IScalarSlope
{
    /// <summary>Value and derivatives at a place.</summary>
    /// <param name="t">Where, in the unit of the independent variable.</param>
    /// <param name="y">The value there.</param>
    /// <returns><c>f</c>, <c>df/dy</c> and <c>df/dt</c>.</returns>
    (double F, double ByY, double ByT) At(double t, double y);
}

/// <summary>
/// One stiff ordinary differential equation with error control: the modified Rosenbrock formula of order 2 with an estimate of order 3
/// (Shampine and Reichelt, SIAM Journal on Scientific Computing 18 (1997), 1-22, equations of section 3.1). L-stable: where the solution
/// has died down to a quasi-steady one, the step grows without regard to the fast rate.
/// </summary>
/// <typeparam name="TSlope">The equation; a struct, so that calls are not virtual.</typeparam>
/// <param name="slope">The equation.</param>
/// <param name="startT">Where it starts.</param>
/// <param name="startY">The value there.</param>
public sealed class StiffScalar<TSlope>(TSlope slope, double startT, double startY)
    where TSlope : IScalarSlope
{
    private const double D = 0.29289321881345254; // 1 / (2 + sqrt 2)
    private const double E32 = 7.414213562373095; // 6 + sqrt 2
    private const double Safety = 0.8;
    private const double LeastChange = 0.1;
    private const double MostChange = 4;

    private (double F, double ByY, double ByT) _now = slope.At(startT, startY);
    private double _step;

    /// <summary>Where it stands.</summary>
    public double T { get; private set; } = startT;

    /// <summary>The value there.</summary>
    public double Y { get; private set; } = startY;

    /// <summary>The value at the start of the last step.</summary>
    public double BeforeY { get; private set; } = startY;

    /// <summary>Where the last step started.</summary>
    public double BeforeT { get; private set; } = startT;

    /// <summary>The derivative by y where it stands.</summary>
    public double ByY => _now.ByY;

    /// <summary>Goes one step on, whose local error is at most the tolerance.</summary>
    /// <param name="to">Not beyond this; the step ends there where it would come near.</param>
    /// <param name="tolerance">Absolute error allowed in the step, above 0, in the unit of y.</param>
    /// <param name="longest">The longest step, above 0.</param>
    /// <returns>False where no step, however short, keeps the tolerance: the equation has no solution beyond.</returns>
    public bool TryStep(double to, double tolerance, double longest)
    {
        double left = to - T;
        double step = Math.Min(_step > 0 ? _step : Math.Min(longest, left) / 16, Math.Min(longest, left));
        for (int tries = 0; tries < 60; tries++)
        {
            bool last = step >= 0.999 * left;
            step = last ? left : step;
            double w = 1 / (1 - (step * D * _now.ByY));
            double k1 = w * (_now.F + (step * D * _now.ByT));
            double middle = slope.At(T + (step / 2), Y + (step / 2 * k1)).F;
            double k2 = (w * (middle - k1)) + k1;
            double y = Y + (step * k2);
            (double F, double ByY, double ByT) end = slope.At(T + step, y);
            double k3 = w * (end.F - (E32 * (k2 - middle)) - (2 * (k1 - _now.F)) + (step * D * _now.ByT));
            double error = Math.Abs(step / 6 * (k1 - (2 * k2) + k3));
            double change = double.IsFinite(error)
                ? Math.Clamp(Safety * Math.Cbrt(tolerance / Math.Max(error, tolerance * 1e-6)), LeastChange, MostChange)
                : LeastChange;
            if (error <= tolerance)
            {
                (BeforeT, BeforeY) = (T, Y);
                (T, Y, _now) = (last ? to : T + step, y, end);
                _step = last ? Math.Max(_step, step * change) : step * change;
                return true;
            }

            step *= Math.Min(change, 0.9);
        }

        return false;
    }

    /// <summary>Tells that the equation has a break here: the derivatives are taken anew and the step begins short.</summary>
    public void Break()
    {
        _now = slope.At(T, Y);
        _step = 0;
    }
}
