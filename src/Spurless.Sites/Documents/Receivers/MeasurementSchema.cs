namespace Spurless.Sites.Documents.Receivers;

/// <summary>The JSON Schema (2020-12) of the file of a receiver's measurements, made from the same shapes that read it.</summary>
public static class MeasurementSchema
{
    /// <summary>The schema as text.</summary>
    public static string Text() => SchemaText.Of("Spurless measurements of a receiver", MeasurementShapes.Measurements.Describe());
}
