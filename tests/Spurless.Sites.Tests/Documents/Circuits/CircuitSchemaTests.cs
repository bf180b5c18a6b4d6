using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Sites.Documents.Circuits;
using Spurless.Tests.Common;

namespace Spurless.Sites.Tests.Documents.Circuits;

/// <summary>The schema against files, by a general JSON Schema library.</summary>
public sealed class CircuitSchemaTests
{
    private static readonly JsonSchema _schema = JsonSchema.FromText(CircuitReader.Schema().ToJsonString());

    [Theory]
    [InlineData(CircuitTexts.Everything)]
    [InlineData(CircuitTemplate.Text)]
    public void Schema_holds_what_reads(string text) => Assert.True(IsValid(text));

    [Theory]
    [InlineData("L1: { inductor: 24, between: [a, b] }")]
    [InlineData("L1: { inducter: 24 nH, between: [a, b] }")]
    [InlineData("L1: { inductor: 24 nH }")]
    [InlineData("L1: { inductor: 24 nH, between: [a] }")]
    [InlineData("L1: { inductor: 24 nH, between: [a, b], q: 1 at 1 MHz, esr: 1 ohm }")]
    [InlineData("M1: { coupling: 1.5, of: [L1, L2] }")]
    public void Schema_refuses_what_does_not_read(string part) => Assert.False(IsValid(CircuitTexts.WithParts(part)));

    private static bool IsValid(string text)
    {
        DiagnosticBag bag = new();
        JsonNode? json = ToJson(YamlReader.Read(text, "x", bag)!);
        Assert.Empty(bag.InOrder());
        using JsonDocument document = JsonDocument.Parse(json!.ToJsonString());
        return _schema.Evaluate(document.RootElement).IsValid;
    }

    private static JsonNode? ToJson(YamlNode node) => node switch
    {
        YamlMapping mapping => new JsonObject(mapping.Entries.Select(e => KeyValuePair.Create(e.Key.Text, ToJson(e.Value)))),
        YamlSequence sequence => new JsonArray([.. sequence.Items.Select(ToJson)]),
        YamlScalar scalar when scalar.Style == YamlScalarStyle.Plain
            && double.TryParse(scalar.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) =>
            number,
        YamlScalar scalar => scalar.Text,
        _ => null,
    };
}
