namespace Spurless.Circuits.Tolerance;

/// <summary>Preferred values of IEC 60063.</summary>
public static class ESeries
{
    // E24 as printed in IEC 60063 (not the rounded powers); E12, E6 and E3 take every second, fourth, eighth value.
    private static readonly double[] E24 = [1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1];

    /// <summary>The values of one decade, 1 to below 10.</summary>
    /// <param name="size">3, 6, 12, 24, 48, 96 or 192.</param>
    public static IReadOnlyList<double> Decade(int size) => size switch
    {
        3 or 6 or 12 or 24 => [.. E24.Where((_, i) => i % (24 / size) == 0)],

        // 9.20 stands for 9.19 in E192 (from memory).
        48 or 96 or 192 => [.. Enumerable.Range(0, size).Select(i => size == 192 && i == 185 ? 9.2 : Math.Round(Math.Pow(10, (double)i / size), 2))],
        _ => throw new ArgumentOutOfRangeException(nameof(size), "The E-series have 3, 6, 12, 24, 48, 96 or 192 values a decade."),
    };

    /// <summary>The bin of the series to which a value belongs: between the geometric means of its nearest preferred value and that one's neighbours.</summary>
    /// <param name="value">Value, above 0, any unit.</param>
    /// <param name="size">Values per decade.</param>
    public static (double Low, double Preferred, double High) Bin(double value, int size)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(value);
        double decade = Math.Pow(10, Math.Floor(Math.Log10(value)));
        IReadOnlyList<double> one = Decade(size);
        double[] near = [one[^1] / 10 * decade, .. one.Select(x => x * decade), 10 * decade, 10 * one[1 % one.Count] * decade];
        int best = 1;
        for (int i = 1; i < near.Length - 1; i++)
        {
            if (Math.Abs(Math.Log(near[i] / value)) < Math.Abs(Math.Log(near[best] / value)))
            {
                best = i;
            }
        }

        return (Math.Sqrt(near[best - 1] * near[best]), near[best], Math.Sqrt(near[best] * near[best + 1]));
    }
}
