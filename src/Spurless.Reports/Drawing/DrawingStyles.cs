namespace Spurless.Reports.Drawing;

/// <summary>The style sheet of the drawings, as text: a report embeds it, a page serves it.</summary>
public static class DrawingStyles
{
    /// <summary>Colours of both themes and of paper, and the looks of everything drawn.</summary>
    public static string Css { get; } = Resource("Spurless.Reports.Drawing.drawing.css");

    internal static string Resource(string name)
    {
        using Stream stream = typeof(DrawingStyles).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The resource {name} is missing from the assembly.");
        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }
}
