namespace Spurless.Mixing.Screening;

/// <summary>Cuts emitters in halves by where they stand.</summary>
internal static class ScreenCuts
{
    /// <summary>
    /// Cuts points in halves, along the axis in which they are widest, until no more than <see cref="ScreenTree.Lanes"/> are left; orders
    /// them so.
    /// </summary>
    /// <param name="points">The points; ordered anew.</param>
    /// <param name="items">What stands at them; ordered alike.</param>
    /// <returns>The parts, the whole first: where each begins and ends, a multiple of <see cref="ScreenTree.Lanes"/> but for the end of
    /// all, and where its first half stands, the second behind it; -1 for none.</returns>
    public static List<(int From, int To, int Half)> Of(EarthPoint[] points, int[] items)
    {
        List<(int From, int To, int Half)> parts = [(0, points.Length, -1)];
        for (int i = 0; i < parts.Count; i++)
        {
            (int from, int to, _) = parts[i];
            if (to - from <= ScreenTree.Lanes)
            {
                continue;
            }

            int axis = Widest(points.AsSpan(from, to - from), out double width);
            if (width > 0)
            {
                Sort(points.AsSpan(from, to - from), items.AsSpan(from, to - from), axis);
            }

            int unit = Unit(to - from);
            int units = (to - from + unit - 1) / unit;
            int middle = from + ((units + 1) / 2 * unit);
            parts[i] = (from, to, parts.Count);
            parts.Add((from, middle, -1));
            parts.Add((middle, to, -1));
        }

        return parts;
    }

    /// <summary>What so many are cut down to before anything smaller: the greatest power of eight under their number, so that at most
    /// eight are side by side and all but the last are full.</summary>
    public static int Unit(int count)
    {
        int unit = ScreenTree.Lanes;
        while ((long)unit * ScreenTree.Lanes < count)
        {
            unit *= ScreenTree.Lanes;
        }

        return unit;
    }

    private static void Sort(Span<EarthPoint> points, Span<int> items, int axis)
    {
        double[] keys = new double[points.Length];
        int[] order = new int[points.Length];
        for (int k = 0; k < keys.Length; k++)
        {
            (keys[k], order[k]) = (axis == 0 ? points[k].X : axis == 1 ? points[k].Y : points[k].Z, k);
        }

        Array.Sort(keys, order);
        EarthPoint[] sortedPoints = new EarthPoint[keys.Length];
        int[] sortedItems = new int[keys.Length];
        for (int k = 0; k < keys.Length; k++)
        {
            (sortedPoints[k], sortedItems[k]) = (points[order[k]], items[order[k]]);
        }

        sortedPoints.CopyTo(points);
        sortedItems.CopyTo(items);
    }

    private static int Widest(ReadOnlySpan<EarthPoint> points, out double width)
    {
        (double minX, double maxX, double minY, double maxY, double minZ, double maxZ) =
            (double.MaxValue, double.MinValue, double.MaxValue, double.MinValue, double.MaxValue, double.MinValue);
        foreach (ref readonly EarthPoint p in points)
        {
            (minX, maxX) = (Math.Min(minX, p.X), Math.Max(maxX, p.X));
            (minY, maxY) = (Math.Min(minY, p.Y), Math.Max(maxY, p.Y));
            (minZ, maxZ) = (Math.Min(minZ, p.Z), Math.Max(maxZ, p.Z));
        }

        (double x, double y, double z) = (maxX - minX, maxY - minY, maxZ - minZ);
        width = Math.Max(x, Math.Max(y, z));
        return width == x ? 0 : width == y ? 1 : 2;
    }
}
