using System.Text.Json;
using Spurless.Reports.Text;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>
/// Writes what differs between two studies as JSON, format <c>spurless-comparison/1</c>; products have the form they have in a study.
/// </summary>
public static class ComparisonJson
{
    /// <summary>Writes the comparison to a stream, in UTF-8 with a final line feed.</summary>
    public static void Write(StudyComparison comparison, Stream stream)
    {
        JsonText.Write(stream, json =>
        {
            json.WriteString("format", "spurless-comparison/1");
            json.WriteString("site", comparison.Now.Site);
            json.WriteString("against", comparison.Before.Site);
            JsonText.Objects(json, "receivers", comparison.Receivers, receiver =>
            {
                json.WriteString("name", receiver.Name);
                Products(json, "appeared", receiver.Appeared);
                Products(json, "went", receiver.Went);
                JsonText.Objects(json, "changed", receiver.Changed, changed =>
                {
                    json.WritePropertyName("was");
                    StudyJson.Write(json, changed.Before);
                    json.WritePropertyName("is");
                    StudyJson.Write(json, changed.Now);
                });
                json.WriteNumber("unchanged", receiver.Unchanged);
            });
        });
    }

    private static void Products(Utf8JsonWriter json, string name, IReadOnlyList<ProductFinding> products)
    {
        json.WriteStartArray(name);
        foreach (ProductFinding product in products)
        {
            StudyJson.Write(json, product);
        }

        json.WriteEndArray();
    }
}
