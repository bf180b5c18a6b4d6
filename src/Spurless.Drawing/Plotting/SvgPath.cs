using System.Globalization;
using System.Text;

namespace Spurless.Drawing.Plotting;

/// <summary>Builds SVG path data with one decimal, which is a tenth of a pixel.</summary>
public sealed class SvgPath
{
    private readonly StringBuilder _data = new();

    /// <summary>A coordinate with one decimal at most and without a negative zero.</summary>
    public static string Number(double value)
    {
        double rounded = Math.Round(value, 1, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("0.#", CultureInfo.InvariantCulture);
    }

    /// <summary>Begins at a point.</summary>
    public SvgPath Move(double x, double y) => Add('M', x, y);

    /// <summary>A straight line to a point.</summary>
    public SvgPath Line(double x, double y) => Add('L', x, y);

    /// <summary>A cubic curve.</summary>
    public SvgPath Curve(double x1, double y1, double x2, double y2, double x, double y)
    {
        Add('C', x1, y1);
        _data.Append(' ').Append(Number(x2)).Append(' ').Append(Number(y2)).Append(' ').Append(Number(x)).Append(' ').Append(Number(y));
        return this;
    }

    /// <summary>A circular arc to a point.</summary>
    /// <param name="radius">Of the circle.</param>
    /// <param name="large">Whether the longer of the two arcs.</param>
    /// <param name="clockwise">Whether it turns clockwise on the screen.</param>
    /// <param name="x">End.</param>
    /// <param name="y">End.</param>
    public SvgPath Arc(double radius, bool large, bool clockwise, double x, double y)
    {
        _data.Append('A').Append(Number(radius)).Append(' ').Append(Number(radius)).Append(" 0 ").Append(large ? '1' : '0').Append(' ')
            .Append(clockwise ? '1' : '0').Append(' ').Append(Number(x)).Append(' ').Append(Number(y));
        return this;
    }

    /// <summary>Back to the beginning.</summary>
    public SvgPath Close()
    {
        _data.Append('Z');
        return this;
    }

    /// <summary>A polyline.</summary>
    public SvgPath Through(IReadOnlyList<PlotPoint> points)
    {
        for (int i = 0; i < points.Count; i++)
        {
            Add(i == 0 ? 'M' : 'L', points[i].X, points[i].Y);
        }

        return this;
    }

    /// <summary>A single segment.</summary>
    public static string Segment(double x1, double y1, double x2, double y2) => new SvgPath().Move(x1, y1).Line(x2, y2).ToString();

    /// <summary>A triangle that points up, centred.</summary>
    public static string TriangleUp(double x, double y, double half) =>
        new SvgPath().Move(x, y - (half * 1.05)).Line(x + half, y + (half * 0.75)).Line(x - half, y + (half * 0.75)).Close().ToString();

    /// <summary>A triangle that points down, centred.</summary>
    public static string TriangleDown(double x, double y, double half) =>
        new SvgPath().Move(x, y + (half * 1.05)).Line(x + half, y - (half * 0.75)).Line(x - half, y - (half * 0.75)).Close().ToString();

    /// <summary>A diamond, centred.</summary>
    public static string Diamond(double x, double y, double half) =>
        new SvgPath().Move(x, y - half).Line(x + half, y).Line(x, y + half).Line(x - half, y).Close().ToString();

    /// <inheritdoc/>
    public override string ToString() => _data.ToString();

    private SvgPath Add(char command, double x, double y)
    {
        _data.Append(command).Append(Number(x)).Append(' ').Append(Number(y));
        return this;
    }
}
