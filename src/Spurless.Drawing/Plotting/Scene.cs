namespace Spurless.Drawing.Plotting;

/// <summary>Which part of a text stands at its coordinate.</summary>
public enum TextAnchor
{
    /// <summary>Its beginning.</summary>
    Start,

    /// <summary>Its middle.</summary>
    Middle,

    /// <summary>Its end.</summary>
    End,
}

/// <summary>
/// One thing to draw. <see cref="Class"/> names its look in drawing.css; <see cref="Target"/> says what is picked with it.
/// </summary>
public abstract record SceneItem(string Class)
{
    /// <summary>What a reader picks with it (<c>finding 3</c>, <c>carrier 5</c>, <c>part C1</c>), or null.</summary>
    public string? Target { get; init; }

    /// <summary>
    /// The middle of what is picked with it, which takes a pointer a little beside it too; null for the thing itself alone.
    /// </summary>
    public (double X, double Y)? Middle { get; init; }

    /// <summary>The area that takes the pointer for it, where that is more than the thing itself; null for none.</summary>
    public PlotBox? Reach { get; init; }
}

/// <summary>A path in SVG path data.</summary>
public sealed record ScenePath(string Class, string Data) : SceneItem(Class);

/// <summary>A circle.</summary>
public sealed record SceneCircle(string Class, double X, double Y, double Radius) : SceneItem(Class);

/// <summary>An upright rectangle; <see cref="Hatched"/> fills it with the drawing's hatch.</summary>
public sealed record SceneRect(string Class, PlotBox Box, bool Hatched = false) : SceneItem(Class);

/// <summary>A line of text.</summary>
public sealed record SceneText(
    string Class, double X, double Y, string Text, TextAnchor Anchor = TextAnchor.Start, double Size = 11, bool Bold = false)
    : SceneItem(Class)
{
    /// <summary>The room it takes: its width in its typeface, cap height above and descender below the base line.</summary>
    public PlotBox Box
    {
        get
        {
            double width = IsItalic ? TextWidth.OfItalic(Text, Size) : TextWidth.Of(Text, Size, Bold);
            double left = Anchor switch { TextAnchor.Start => X, TextAnchor.Middle => X - (width / 2), _ => X - width };
            return new PlotBox(left, Y - (0.86 * Size), left + width, Y + (0.24 * Size));
        }
    }

    // The look 'say' of drawing.css: the italic serif that names a curve or a region.
    private bool IsItalic => Class == "say" || Class.StartsWith("say ", StringComparison.Ordinal)
        || Class.EndsWith(" say", StringComparison.Ordinal) || Class.Contains(" say ", StringComparison.Ordinal);

    /// <summary>The same text elsewhere.</summary>
    public SceneText At(double x, double y, TextAnchor anchor) => this with { X = x, Y = y, Anchor = anchor };
}

/// <summary>
/// A drawing for one width: what stands where, in drawing order, with its name and description for those who do not see it.
/// </summary>
public sealed record Scene
{
    /// <summary>Width in CSS pixels.</summary>
    public required double Width { get; init; }

    /// <summary>Height in CSS pixels.</summary>
    public required double Height { get; init; }

    /// <summary>What the picture is, in a line.</summary>
    public required string Title { get; init; }

    /// <summary>What there is to see in it.</summary>
    public required string Description { get; init; }

    /// <summary>In drawing order.</summary>
    public required IReadOnlyList<SceneItem> Items { get; init; }

    /// <summary>What is picked at present: the items of this target are drawn as selected.</summary>
    public string? Selected { get; init; }

    /// <summary>Words for a target, read to those who do not see the picture.</summary>
    public IReadOnlyDictionary<string, string> TargetNames { get; init; } = new Dictionary<string, string>();
}
