namespace Spurless.Numerics;

/// <summary>Values between points.</summary>
public static class Interpolation
{
    /// <summary>Straight between the points, the end values held beyond them.</summary>
    /// <param name="places">Where the points are, ascending and different, at least one.</param>
    /// <param name="values">Their values, one per place.</param>
    /// <param name="at">Where the value is wanted, in the unit of the places.</param>
    /// <returns>The value, in the unit of the values. Straight over a logarithm: hand in the logarithms of places and of
    /// <paramref name="at"/>.</returns>
    public static double Held(ReadOnlySpan<double> places, ReadOnlySpan<double> values, double at)
    {
        if (at <= places[0])
        {
            return values[0];
        }

        for (int i = 1; i < places.Length; i++)
        {
            if (at <= places[i])
            {
                double part = (at - places[i - 1]) / (places[i] - places[i - 1]);
                return values[i - 1] + (part * (values[i] - values[i - 1]));
            }
        }

        return values[^1];
    }
}
