namespace Spurless.Reports.Plotting;

/// <summary>An upright rectangle in the picture's own units (CSS pixels, y downwards).</summary>
public readonly record struct PlotBox(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Horizontal extent.</summary>
    public double Width => Right - Left;

    /// <summary>Vertical extent.</summary>
    public double Height => Bottom - Top;

    /// <summary>A rectangle round a point.</summary>
    public static PlotBox Around(double x, double y, double halfWidth, double halfHeight) => new(x - halfWidth, y - halfHeight, x + halfWidth, y + halfHeight);

    /// <summary>Whether the two share area; touching edges do not.</summary>
    public bool Overlaps(PlotBox other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    /// <summary>Whether the other lies wholly inside.</summary>
    public bool Contains(PlotBox other) => other.Left >= Left && other.Right <= Right && other.Top >= Top && other.Bottom <= Bottom;

    /// <summary>Whether the point lies inside or on the edge.</summary>
    public bool Contains(double x, double y) => x >= Left && x <= Right && y >= Top && y <= Bottom;

    /// <summary>The rectangle grown on all sides.</summary>
    public PlotBox Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);
}
