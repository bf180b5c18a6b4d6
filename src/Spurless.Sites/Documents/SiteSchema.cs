namespace Spurless.Sites.Documents;

/// <summary>The JSON Schema (2020-12) of the site file, made from the same shapes that read it.</summary>
public static class SiteSchema
{
    /// <summary>The schema as text.</summary>
    public static string Text() => SchemaText.Of("Spurless site file", SiteShapes.Site.Describe());
}
