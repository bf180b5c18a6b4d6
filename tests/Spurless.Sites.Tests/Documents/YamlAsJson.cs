using System.Globalization;
using System.Text.Json.Nodes;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Tests.Documents;

/// <summary>
/// A document as an editor's schema check sees it: plain scalars resolved by the core schema of YAML 1.2.2, section 10.3.2 (from memory).
/// </summary>
internal static class YamlAsJson
{
    public static JsonNode? Read(string text)
    {
        DiagnosticBag bag = new();
        YamlMapping? root = YamlReader.Read(text, "x", bag);
        Assert.Empty(bag.InOrder());
        return Convert(root!);
    }

    private static JsonNode? Convert(YamlNode node) => node switch
    {
        YamlMapping m => new JsonObject(m.Entries.Select(e => KeyValuePair.Create(e.Key.Text, Convert(e.Value)))),
        YamlSequence s => new JsonArray([.. s.Items.Select(Convert)]),
        YamlScalar { Style: not YamlScalarStyle.Plain } q => JsonValue.Create(q.Text),
        YamlScalar p => Plain(p.Text),
        _ => null,
    };

    private static JsonNode? Plain(string text) => text switch
    {
        "" or "~" or "null" => null,
        "true" => JsonValue.Create(true),
        "false" => JsonValue.Create(false),
        _ when long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long whole) => JsonValue.Create(whole),
        _ when double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) =>
            JsonValue.Create(number),
        _ => JsonValue.Create(text),
    };
}
