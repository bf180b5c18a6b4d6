namespace Spurless.Drawing.Plotting;

/// <summary>An upright rectangle in the picture's own units (CSS pixels, y downwards).</summary>
public readonly record struct PlotBox(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Horizontal extent.</summary>
    public double Width => Right - Left;

    /// <summary>Vertical extent.</summary>
    public double Height => Bottom - Top;

    /// <summary>A rectangle round a point.</summary>
    public static PlotBox Around(double x, double y, double halfWidth, double halfHeight) =>
        new(x - halfWidth, y - halfHeight, x + halfWidth, y + halfHeight);

    /// <summary>Whether the two share area; touching edges do not.</summary>
    public bool Overlaps(PlotBox other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    /// <summary>Whether the other lies wholly inside.</summary>
    public bool Contains(PlotBox other) => other.Left >= Left && other.Right <= Right && other.Top >= Top && other.Bottom <= Bottom;

    /// <summary>Whether the point lies inside or on the edge.</summary>
    public bool Contains(double x, double y) => x >= Left && x <= Right && y >= Top && y <= Bottom;

    /// <summary>Whether any of a straight line lies inside; a line along an edge does not.</summary>
    public bool Meets(PlotPoint a, PlotPoint b)
    {
        // The stretch of the line inside each pair of edges, narrowed to what is inside both.
        (double from, double to) = (0, 1);
        return Narrow(a.X, b.X - a.X, Left, Right, ref from, ref to) && Narrow(a.Y, b.Y - a.Y, Top, Bottom, ref from, ref to);

        static bool Narrow(double at, double step, double low, double high, ref double from, ref double to)
        {
            if (step == 0)
            {
                return at > low && at < high;
            }

            (double one, double other) = ((low - at) / step, (high - at) / step);
            from = Math.Max(from, Math.Min(one, other));
            to = Math.Min(to, Math.Max(one, other));
            return from < to;
        }
    }

    /// <summary>The rectangle grown on all sides.</summary>
    public PlotBox Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);
}
