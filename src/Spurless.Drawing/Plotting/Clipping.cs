namespace Spurless.Drawing.Plotting;

/// <summary>A point of a picture.</summary>
public readonly record struct PlotPoint(double X, double Y);

/// <summary>Cuts lines at the edge of a frame, so that nothing is drawn outside it and nothing is clamped to it.</summary>
public static class Clipping
{
    /// <summary>The parts of a polyline inside a box, in order. Cut ends lie on the box' edge.</summary>
    /// <param name="line">Vertices; NaN interrupts the line.</param>
    /// <param name="box">The frame.</param>
    public static IReadOnlyList<IReadOnlyList<PlotPoint>> Polyline(IReadOnlyList<PlotPoint> line, PlotBox box)
    {
        List<IReadOnlyList<PlotPoint>> parts = [];
        List<PlotPoint> part = [];
        for (int i = 1; i < line.Count; i++)
        {
            if (!Segment(line[i - 1], line[i], box, out PlotPoint a, out PlotPoint b))
            {
                Close();
                continue;
            }

            if (part.Count == 0)
            {
                part.Add(a);
            }
            else if (part[^1] != a)
            {
                Close();
                part.Add(a);
            }

            part.Add(b);
            if (b != line[i])
            {
                Close();
            }
        }

        Close();
        return parts;

        void Close()
        {
            if (part.Count > 1)
            {
                parts.Add([.. part]);
            }

            part.Clear();
        }
    }

    /// <summary>The part of a segment inside a box (Liang and Barsky's parametric method, from memory).</summary>
    /// <returns>Whether any of it is inside.</returns>
    public static bool Segment(PlotPoint from, PlotPoint to, PlotBox box, out PlotPoint a, out PlotPoint b)
    {
        (a, b) = (from, to);
        double dx = to.X - from.X;
        double dy = to.Y - from.Y;
        if (!double.IsFinite(dx) || !double.IsFinite(dy))
        {
            return false;
        }

        double enter = 0;
        double leave = 1;
        if (!Cut(-dx, from.X - box.Left, ref enter, ref leave) || !Cut(dx, box.Right - from.X, ref enter, ref leave)
            || !Cut(-dy, from.Y - box.Top, ref enter, ref leave) || !Cut(dy, box.Bottom - from.Y, ref enter, ref leave))
        {
            return false;
        }

        a = enter > 0 ? new PlotPoint(from.X + (enter * dx), from.Y + (enter * dy)) : from;
        b = leave < 1 ? new PlotPoint(from.X + (leave * dx), from.Y + (leave * dy)) : to;
        return true;
    }

    private static bool Cut(double direction, double distance, ref double enter, ref double leave)
    {
        if (direction == 0)
        {
            return distance >= 0;
        }

        double at = distance / direction;
        if (direction < 0)
        {
            enter = Math.Max(enter, at);
        }
        else
        {
            leave = Math.Min(leave, at);
        }

        return enter <= leave;
    }
}
