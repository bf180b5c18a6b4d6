namespace Spurless.Drawing.Plotting;

/// <summary>One way to write a label: what it says, where, and the leader to it.</summary>
/// <param name="Text">The line of text where it would stand.</param>
/// <param name="Leader">From the mark to the text; null where it stands at its mark.</param>
/// <param name="Cost">How much worse than the best way; 0 or more.</param>
internal sealed record LabelWay(SceneText Text, (PlotPoint From, PlotPoint To)? Leader, double Cost)
{
    /// <summary>The room of its text.</summary>
    public PlotBox Box { get; } = Text.Box.Grown(0.5);

    /// <summary>Whether the two cannot both be drawn.</summary>
    public bool Meets(LabelWay other) => Box.Overlaps(other.Box)
        || (Leader is { } own && other.Box.Meets(own.From, own.To))
        || (other.Leader is { } theirs && Box.Meets(theirs.From, theirs.To))
        || (Leader is { } a && other.Leader is { } b && Cross(a, b));

    private static bool Cross((PlotPoint From, PlotPoint To) a, (PlotPoint From, PlotPoint To) b) =>
        Side(a.From, a.To, b.From) * Side(a.From, a.To, b.To) < 0 && Side(b.From, b.To, a.From) * Side(b.From, b.To, a.To) < 0;

    private static double Side(PlotPoint from, PlotPoint to, PlotPoint point) =>
        ((to.X - from.X) * (point.Y - from.Y)) - ((to.Y - from.Y) * (point.X - from.X));
}
