namespace Spurless.Sites.Chains;

/// <summary>A course through points: straight between them, the end values held beyond.</summary>
internal static class Course
{
    /// <summary>The value at a place.</summary>
    /// <param name="places">Ascending, at least one.</param>
    /// <param name="values">One per place.</param>
    /// <param name="at">Where.</param>
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
