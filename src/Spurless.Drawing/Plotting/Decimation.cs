namespace Spurless.Drawing.Plotting;

/// <summary>Thins dense traces without losing a peak.</summary>
public static class Decimation
{
    /// <summary>
    /// Keeps, of the points in each pixel column, the first, the lowest, the highest and the last, in their own order.
    /// The drawn line then touches every pixel that the full trace touches, and an extreme is never lost.
    /// </summary>
    /// <param name="line">Vertices by ascending x; NaN interrupts the line, and a column with such a gap counts as several.</param>
    /// <param name="column">Width of a column in the picture's units, above 0.</param>
    public static IReadOnlyList<PlotPoint> PerColumn(IReadOnlyList<PlotPoint> line, double column = 1)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(column);
        List<PlotPoint> kept = [];
        int start = 0;
        while (start < line.Count)
        {
            double cell = Math.Floor(line[start].X / column);
            int low = start;
            int high = start;
            int end = start;
            bool gap = double.IsNaN(line[start].Y);
            for (; end < line.Count && Math.Floor(line[end].X / column).Equals(cell) && double.IsNaN(line[end].Y) == gap; end++)
            {
                low = line[end].Y < line[low].Y ? end : low;
                high = line[end].Y > line[high].Y ? end : high;
            }

            end = Math.Max(end, start + 1);
            int previous = -1;
            foreach (int i in (ReadOnlySpan<int>)[start, Math.Min(low, high), Math.Max(low, high), end - 1])
            {
                if (i > previous)
                {
                    kept.Add(line[i]);
                    previous = i;
                }
            }

            start = end;
        }

        return kept;
    }
}
