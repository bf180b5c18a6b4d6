using Spurless.Drawing.Plotting;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>
/// The shapes of verdicts: a triangle up is over the noise, a diamond marginal, a triangle down under it. Hollow is before, solid after.
/// </summary>
public static class Marks
{
    /// <summary>The style of a verdict.</summary>
    public static string Style(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => "harm",
        Verdict.Marginal => "marg",
        _ => "quiet",
    };

    /// <summary>Path data of a verdict's mark.</summary>
    public static string Shape(Verdict verdict, double x, double y, double half) => verdict switch
    {
        Verdict.Harmful => SvgPath.TriangleUp(x, y, half),
        Verdict.Marginal => SvgPath.Diamond(x, y, half),
        // Neither over nor under: a ring.
        Verdict.Unknown =>
            new SvgPath()
                .Move(x - (half * 0.8), y)
                .Arc(half * 0.8, true, true, x + (half * 0.8), y)
                .Arc(half * 0.8, true, true, x - (half * 0.8), y)
                .Close()
                .ToString(),
        _ => SvgPath.TriangleDown(x, y, half),
    };

    /// <summary>An arrow head that points down, its tip at a point.</summary>
    public static string TipDown(double x, double y) => new SvgPath().Move(x, y).Line(x - 4, y - 8).Line(x + 4, y - 8).Close().ToString();

    /// <summary>An arrow head that points along a direction.</summary>
    public static string Tip(double x, double y, double dx, double dy)
    {
        double length = Math.Max(1e-9, Math.Sqrt((dx * dx) + (dy * dy)));
        (double ux, double uy) = (dx / length, dy / length);
        return new SvgPath().Move(x, y)
            .Line(x - (8 * ux) - (3.6 * uy), y - (8 * uy) + (3.6 * ux))
            .Line(x - (8 * ux) + (3.6 * uy), y - (8 * uy) - (3.6 * ux))
            .Close().ToString();
    }
}
