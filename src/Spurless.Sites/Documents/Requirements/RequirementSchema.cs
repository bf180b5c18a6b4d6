namespace Spurless.Sites.Documents.Requirements;

/// <summary>The JSON Schema (2020-12) of the requirement file, made from the same shapes that read it.</summary>
public static class RequirementSchema
{
    /// <summary>The schema as text.</summary>
    public static string Text() => SchemaText.Of("Spurless requirement file", RequirementShapes.Requirement.Describe());
}
