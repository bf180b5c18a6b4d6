namespace Spurless.Sites.Documents.Bypasses;

/// <summary>The JSON Schema (2020-12) of the file of a bypass relay, made from the same shapes that read it.</summary>
public static class BypassSchema
{
    /// <summary>The schema as text.</summary>
    public static string Text() => SchemaText.Of("Spurless bypass relay", BypassShapes.Bypass.Describe());
}
