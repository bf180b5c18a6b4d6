using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Spurless.Sites.Documents;

/// <summary>A file format's JSON Schema (2020-12) as text.</summary>
internal static class SchemaText
{
    private static readonly JsonSerializerOptions _indented = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The schema with its head, indented, with a final line feed.</summary>
    /// <param name="title">What the file is.</param>
    /// <param name="shape">What the shape that reads it says of itself.</param>
    public static string Of(string title, JsonObject shape)
    {
        JsonObject schema = new() { ["$schema"] = "https://json-schema.org/draft/2020-12/schema", ["title"] = title };
        foreach ((string key, JsonNode? value) in shape)
        {
            schema[key] = value?.DeepClone();
        }

        return schema.ToJsonString(_indented) + "\n";
    }
}
