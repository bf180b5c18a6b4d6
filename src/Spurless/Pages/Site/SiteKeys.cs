using System.Text.Json;
using Spurless.Sites.Documents;

namespace Spurless.Pages.Site;

/// <summary>A key that a receiver, an emitter or the site may have.</summary>
/// <param name="Name">The key, nested ones with a dot.</param>
/// <param name="About">What it is, in the schema's words.</param>
public sealed record SiteKey(string Name, string About);

/// <summary>All keys of the site file, taken from its schema: the page knows none by itself.</summary>
internal static class SiteKeys
{
    private static readonly Lazy<JsonElement> Schema = new(static () => JsonDocument.Parse(SiteSchema.Text()).RootElement.Clone());

    /// <summary>Keys of a receiver, save its chain.</summary>
    public static IReadOnlyList<SiteKey> Receiver { get; } = Of("receivers", "chain");

    /// <summary>Keys of an emitter.</summary>
    public static IReadOnlyList<SiteKey> Emitter { get; } = Of("emitters");

    private static SiteKey[] Of(string list, params string[] without) =>
        [.. Keys(Schema.Value.GetProperty("properties").GetProperty(list).GetProperty("items"), "").Where(k => !without.Contains(k.Name))];

    private static IEnumerable<SiteKey> Keys(JsonElement shape, string prefix)
    {
        foreach (JsonProperty property in shape.GetProperty("properties").EnumerateObject())
        {
            if (property.Value.TryGetProperty("properties", out JsonElement inner) && inner.EnumerateObject().Any())
            {
                foreach (SiteKey key in Keys(property.Value, prefix + property.Name + "."))
                {
                    yield return key;
                }
            }
            else
            {
                yield return new SiteKey(
                    prefix + property.Name, property.Value.TryGetProperty("description", out JsonElement about) ? about.GetString()! : "");
            }
        }
    }
}
