using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Spurless.Circuits.Requirements;

/// <summary>The JSON Schema (2020-12) of the requirement file, made from the same shapes that read it.</summary>
public static class RequirementSchema
{
    private static readonly JsonSerializerOptions _indented = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The schema as text.</summary>
    public static string Text()
    {
        JsonObject schema = new() { ["$schema"] = "https://json-schema.org/draft/2020-12/schema", ["title"] = "Spurless requirement file" };
        foreach ((string key, JsonNode? value) in RequirementShapes.Requirement.Describe())
        {
            schema[key] = value?.DeepClone();
        }

        return schema.ToJsonString(_indented) + "\n";
    }
}
