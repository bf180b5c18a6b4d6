namespace Spurless.Drawing.Plotting;

/// <summary>The style sheet of the drawings, as text: a report embeds it, a page serves it.</summary>
public static class DrawingStyles
{
    /// <summary>Colours of both themes and of paper, and the looks of everything drawn.</summary>
    public static string Css { get; } = Resource(typeof(DrawingStyles), "Spurless.Drawing.Plotting.drawing.css");

    /// <summary>A text embedded in the assembly of a type.</summary>
    public static string Resource(Type of, string name)
    {
        using Stream stream = of.Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The resource {name} is missing from the assembly.");
        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }
}
