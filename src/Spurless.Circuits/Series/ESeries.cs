namespace Spurless.Circuits.Series;

/// <summary>
/// The series of preferred values of resistors and capacitors, IEC 60063 (seen in copies). E3 to E24 are a table of their own and not
/// a rounded geometric series; E48, E96 and E192 are <c>10^(i/n)</c> rounded to two decimals, but for 9.20 in E192 (from memory).
/// </summary>
public static class ESeries
{
    private static readonly double[] _e24 =
    [
        1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1,
    ];

    /// <summary>The series there are, by their number of values in a decade.</summary>
    public static IReadOnlyList<int> Sizes { get; } = [3, 6, 12, 24, 48, 96, 192];

    /// <summary>The values of one decade, from 1 to below 10.</summary>
    /// <param name="size">3, 6, 12, 24, 48, 96 or 192.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such series.</exception>
    public static IReadOnlyList<double> Decade(int size)
    {
        if (!Sizes.Contains(size))
        {
            throw new ArgumentOutOfRangeException(nameof(size), "the series are E3, E6, E12, E24, E48, E96 and E192");
        }

        return size <= 24
            ? [.. _e24.Where((_, i) => i % (24 / size) == 0)]
            : [.. Enumerable.Range(0, size).Select(i => size == 192 && i == 185 ? 9.20 : Math.Round(Math.Pow(10, (double)i / size), 2))];
    }

    /// <summary>The preferred value nearest in ratio to a wanted one.</summary>
    /// <param name="value">Wanted value in any unit, above 0, finite.</param>
    /// <param name="size">3, 6, 12, 24, 48, 96 or 192.</param>
    /// <returns>A value of the series, in the same unit.</returns>
    public static double Nearest(double value, int size)
    {
        (double below, double above) = Around(value, size);
        return value / below <= above / value ? below : above;
    }

    /// <summary>All preferred values within a range, rising.</summary>
    /// <param name="low">Least value, above 0.</param>
    /// <param name="high">Greatest value, finite.</param>
    /// <param name="size">3, 6, 12, 24, 48, 96 or 192.</param>
    public static IReadOnlyList<double> Within(double low, double high, int size)
    {
        Check(low, nameof(low));
        Check(high, nameof(high));
        IReadOnlyList<double> decade = Decade(size);
        List<double> found = [];
        for (int power = Power(low); power <= Power(high); power++)
        {
            found.AddRange(decade.Select(v => Scale(v, power)).Where(v => v >= low * (1 - 1e-12) && v <= high * (1 + 1e-12)));
        }

        return found;
    }

    /// <summary>The bin of a preferred value: everything nearer to it in ratio than to its neighbours of the series.</summary>
    /// <param name="value">A value of the series or near one, above 0, finite; the bin is that of the nearest.</param>
    /// <param name="size">3, 6, 12, 24, 48, 96 or 192.</param>
    /// <returns>The geometric means with both neighbours.</returns>
    public static (double Low, double High) Bin(double value, int size)
    {
        double nearest = Nearest(value, size);
        double below = Around(nearest * (1 - 1e-6), size).Below;
        double above = Around(nearest * (1 + 1e-6), size).Above;
        return (Math.Sqrt(below * nearest), Math.Sqrt(nearest * above));
    }

    private static (double Below, double Above) Around(double value, int size)
    {
        Check(value, nameof(value));
        IReadOnlyList<double> decade = Decade(size);
        int power = Power(value);
        double below = Scale(decade[^1], power - 1);
        foreach (double step in decade)
        {
            double candidate = Scale(step, power);
            if (candidate > value)
            {
                return (below, candidate);
            }

            below = candidate;
        }

        return (below, Scale(decade[0], power + 1));
    }

    // Through decimal text, so that 4.7 at 10^-12 is the same double as 4.7e-12 in a file.
    private static double Scale(double value, int power) =>
        double.Parse(
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{value}e{power}"),
            System.Globalization.CultureInfo.InvariantCulture);

    private static int Power(double value)
    {
        int power = (int)Math.Floor(Math.Log10(value));
        return Scale(1, power) > value ? power - 1 : Scale(1, power + 1) <= value ? power + 1 : power;
    }

    private static void Check(double value, string name)
    {
        if (!(value > 0) || !double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(name, "must be above 0 and finite");
        }
    }
}
