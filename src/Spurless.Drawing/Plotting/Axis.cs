namespace Spurless.Drawing.Plotting;

/// <summary>One mark on an axis.</summary>
/// <param name="Value">In the axis' unit.</param>
/// <param name="Labelled">Whether it may carry a number.</param>
public readonly record struct Tick(double Value, bool Labelled);

/// <summary>Maps a quantity to a coordinate of the picture. Immutable.</summary>
public sealed class Axis
{
    private readonly double _low;
    private readonly double _scale;

    private Axis(bool isLogarithmic, double minimum, double maximum, double from, double to)
    {
        if (!double.IsFinite(minimum) || !double.IsFinite(maximum) || maximum <= minimum || (isLogarithmic && minimum <= 0))
        {
            throw new ArgumentOutOfRangeException(nameof(minimum), $"An axis from {minimum} to {maximum} cannot be drawn.");
        }

        IsLogarithmic = isLogarithmic;
        (Minimum, Maximum, From, To) = (minimum, maximum, from, to);
        _low = isLogarithmic ? Math.Log10(minimum) : minimum;
        _scale = (to - from) / ((isLogarithmic ? Math.Log10(maximum) : maximum) - _low);
    }

    /// <summary>Whether equal ratios, not equal differences, are equally far apart.</summary>
    public bool IsLogarithmic { get; }

    /// <summary>Smallest value shown.</summary>
    public double Minimum { get; }

    /// <summary>Greatest value shown.</summary>
    public double Maximum { get; }

    /// <summary>Coordinate of <see cref="Minimum"/>.</summary>
    public double From { get; }

    /// <summary>Coordinate of <see cref="Maximum"/>; less than <see cref="From"/> for an axis that grows upwards.</summary>
    public double To { get; }

    /// <summary>An axis on which equal differences are equally far apart.</summary>
    public static Axis Linear(double minimum, double maximum, double from, double to) => new(false, minimum, maximum, from, to);

    /// <summary>An axis on which equal ratios are equally far apart; <paramref name="minimum"/> above 0.</summary>
    public static Axis Logarithmic(double minimum, double maximum, double from, double to) => new(true, minimum, maximum, from, to);

    /// <summary>The value's coordinate; beyond the ends for values outside.</summary>
    public double Map(double value) => From + (((IsLogarithmic ? Math.Log10(value) : value) - _low) * _scale);

    /// <summary>The value at a coordinate.</summary>
    public double Unmap(double coordinate)
    {
        double u = _low + ((coordinate - From) / _scale);
        return IsLogarithmic ? Math.Pow(10, u) : u;
    }

    /// <summary>Whether the value is on the axis, ends included.</summary>
    public bool Shows(double value) => value >= Minimum && value <= Maximum;

    /// <summary>
    /// Round ticks: 1-2-5 steps on a linear axis, 1-2-3-5-7 a decade on a logarithmic one with the digits between unlabelled.
    /// A logarithmic axis too short for three of those gets the linear steps.
    /// </summary>
    /// <param name="spacing">Least distance of two labelled ticks in the picture's units.</param>
    public IReadOnlyList<Tick> Ticks(double spacing = 48)
    {
        if (IsLogarithmic)
        {
            List<Tick> decades = [];
            int first = (int)Math.Floor(Math.Log10(Minimum));
            int last = (int)Math.Ceiling(Math.Log10(Maximum));
            for (int decade = first; decade <= last; decade++)
            {
                for (int digit = 1; digit <= 9; digit++)
                {
                    double value = digit * Math.Pow(10, decade);
                    if (ShowsAbout(value))
                    {
                        decades.Add(new Tick(value, digit is 1 or 2 or 3 or 5 or 7));
                    }
                }
            }

            if (decades.Count(static t => t.Labelled) >= 3)
            {
                return decades;
            }
        }

        return Linearly(spacing);
    }

    /// <summary>Ticks at the multiples of a given step, for offsets in steps of a channel.</summary>
    /// <param name="step">Above 0, in the axis' unit.</param>
    /// <param name="spacing">Least distance of two labelled ticks in the picture's units.</param>
    public IReadOnlyList<Tick> TicksEvery(double step, double spacing = 48)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step);
        int every = 1;
        while (Math.Abs(_scale) * step * every < spacing && every < 1 << 20)
        {
            every = every == 1 ? 2 : every == 2 ? 5 : every * 2;
        }

        List<Tick> ticks = [];
        for (long n = (long)Math.Ceiling((Minimum / step) - 1e-9); n * step <= Maximum + (1e-9 * step) && ticks.Count < 1000; n++)
        {
            if (n % every == 0)
            {
                ticks.Add(new Tick(n * step, true));
            }
        }

        return ticks;
    }

    /// <summary>The 1-2-5 step whose multiples are at least <paramref name="least"/> apart.</summary>
    /// <param name="least">Above 0.</param>
    public static double RoundStep(double least)
    {
        double decade = Math.Pow(10, Math.Floor(Math.Log10(least)));
        double digit = least / decade;
        return decade * (digit <= 1 + 1e-9 ? 1 : digit <= 2 + 1e-9 ? 2 : digit <= 5 + 1e-9 ? 5 : 10);
    }

    private List<Tick> Linearly(double spacing)
    {
        double length = Math.Abs(To - From);
        double step = RoundStep((Maximum - Minimum) / Math.Max(1, length / spacing));
        List<Tick> ticks = [];
        for (double n = Math.Ceiling((Minimum / step) - 1e-9); n * step <= Maximum + (1e-9 * step); n++)
        {
            // The product of a whole number and a step of one digit, rounded to the step's own digits: 0.3, not 0.30000000000000004.
            int digits = Math.Clamp((int)Math.Ceiling(-Math.Log10(step)), 0, 12);
            ticks.Add(new Tick(Math.Round(n * step, digits) + 0.0, true));
        }

        return ticks;
    }

    private bool ShowsAbout(double value) => value >= Minimum * (1 - 1e-12) && value <= Maximum * (1 + 1e-12);
}
