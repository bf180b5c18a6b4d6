namespace Spurless.Numerics;

/// <summary>Where a number lies in a rising table: the one way in which everything here interpolates linearly.</summary>
/// <param name="Below">Place of the last entry at or below the number.</param>
/// <param name="Part">How far it is on the way to the next entry, 0 to below 1; 0 on an entry.</param>
public readonly record struct GridPlace(int Below, double Part)
{
    /// <summary>The value there, of the values at the table's entries.</summary>
    /// <param name="values">One per entry.</param>
    public double Of(ReadOnlySpan<double> values) =>
        Part == 0 ? values[Below] : values[Below] + (Part * (values[Below + 1] - values[Below]));
}

/// <summary>Rising tables.</summary>
public static class Grid
{
    /// <summary>Finds a number in a table.</summary>
    /// <param name="grid">Rising entries, one at least.</param>
    /// <param name="x">The number, from the first entry to the last.</param>
    /// <returns>Its place.</returns>
    /// <exception cref="ArgumentOutOfRangeException">It lies outside, or is no number.</exception>
    public static GridPlace Locate(ReadOnlySpan<double> grid, double x)
    {
        if (grid.IsEmpty || !(x >= grid[0] && x <= grid[^1]))
        {
            throw new ArgumentOutOfRangeException(nameof(x), x, "outside the table");
        }

        int i = grid.BinarySearch(x);
        if (i >= 0)
        {
            return new GridPlace(i, 0);
        }

        int below = ~i - 1;
        return new GridPlace(below, (x - grid[below]) / (grid[below + 1] - grid[below]));
    }
}
