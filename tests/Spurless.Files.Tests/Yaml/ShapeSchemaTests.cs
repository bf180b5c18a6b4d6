using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Json.Schema;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Yaml;

/// <summary>
/// What a shape describes and what it reads are one thing: a value that its JSON Schema allows (by a general library) is read without a
/// finding, and a number that the schema refuses is reported.
/// </summary>
public sealed class ShapeSchemaTests
{
    private static readonly Dictionary<string, Shape<object>> All = new(StringComparer.Ordinal)
    {
        ["text"] = Boxed(Shapes.Text),
        ["switch"] = Boxed(Shapes.Bool),
        ["number"] = Boxed(Shapes.Number("a number")),
        ["share"] = Boxed(Shapes.Number("a number from 0 to 1", 0, 1)),
        ["above 0"] = Boxed(Shapes.Number("a number above 0", 0, leastAllowed: false)),
        ["count"] = Boxed(Shapes.Integer("a whole number from -2 to 3", -2, 3)),
        ["word"] = Boxed(Shapes.Words(("red", 1), ("blue", 2))),
        ["list"] = Boxed(Shapes.ListOf(Shapes.Integer("a whole number from -9 to 9", -9, 9), 1, 3)),
        ["one or many"] = Boxed(Shapes.OneOrMany(Shapes.Words(("red", 1), ("blue", 2)))),
        ["names"] = Boxed(Shapes.MapOf("a name", Shapes.Number("a number from 0 to 1", 0, 1))),
        ["keys"] = Boxed(Shapes.Mapping("keys", static m =>
        {
            int? count = m.Maybe("count", Shapes.Integer("a whole number from 1 to 3", 1, 3));
            double? share = m.Maybe("share", Shapes.Number("a number from 0 to 1", 0, 1));
            string? name = m.Optional("name", Shapes.Text);
            m.AtMostOne("count", "share");
            return (count, share, name);
        })),
        ["by kind"] = Boxed(Shapes.ByKind(
            scalar: Shapes.Bool.Select(static b => b ? 1 : 0),
            sequence: Shapes.ListOf(Shapes.Bool).Select(static l => l.Count),
            mapping: Shapes.MapOf("a name", Shapes.Bool).Select(static l => l.Count))),
    };

    private static readonly Gen<JsonNode> Leaf = Gen.OneOf(
        Pick.From("red", "blue", "x", "").Select(static s => (JsonNode)JsonValue.Create(s)),
        Gen.Int[-3, 4].Select(static i => (JsonNode)JsonValue.Create(i)),
        Pick.From(-0.5, 0.25, 1.0000001, 1e300, -1e-300).Select(static d => (JsonNode)JsonValue.Create(d)),
        Gen.Bool.Select(static b => (JsonNode)JsonValue.Create(b)));

    private static readonly Gen<JsonNode> Any = Gen.OneOf(
        Leaf,
        Leaf.Array[0, 4].Select(static items => (JsonNode)new JsonArray([.. items.Select(static i => i.DeepClone())])),
        Gen.Select(Pick.From("count", "share", "name", "other"), Leaf).Array[0, 3].Select(Keyed));

    public static TheoryData<string> Names => [.. All.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void TryRead_takes_whatever_the_schema_allows(string name)
    {
        Shape<object> shape = All[name];
        JsonSchema schema = JsonSchema.FromText(shape.Describe().ToJsonString());
        int allowed = 0;
        Any.Sample(
            value =>
            {
                if (Allows(schema, value))
                {
                    Interlocked.Increment(ref allowed);
                    Assert.Equal("", Findings(shape, value));
                }
            },
            iter: 3_000);
        Assert.True(allowed > 20, $"only {allowed} of the values drawn were allowed: the test shows nothing");
    }

    [Theory]
    [InlineData("number", false)]
    [InlineData("share", true)]
    [InlineData("above 0", true)]
    [InlineData("count", true)]
    public void TryRead_refuses_exactly_the_numbers_that_the_schema_refuses(string name, bool refusesSome)
    {
        Shape<object> shape = All[name];
        JsonSchema schema = JsonSchema.FromText(shape.Describe().ToJsonString());
        int refused = 0;
        Gen.OneOf(Gen.Int[-5, 6].Select(static i => (double)i), Gen.Double[-2, 2], Gen.Double[-1e300, 1e300]).Sample(
            number =>
            {
                JsonNode value = JsonValue.Create(number);
                bool allows = Allows(schema, value);
                Interlocked.Add(ref refused, allows ? 0 : 1);
                Assert.Equal(allows, Findings(shape, value).Length == 0);
            },
            iter: 3_000);
        Assert.Equal(refusesSome, refused > 0);
    }

    private static JsonNode Keyed((string Key, JsonNode Value)[] entries) => new JsonObject(
        entries.DistinctBy(static e => e.Key).Select(static e => KeyValuePair.Create(e.Key, (JsonNode?)e.Value.DeepClone())));

    private static bool Allows(JsonSchema schema, JsonNode value) => schema.Evaluate(JsonSerializer.SerializeToElement(value)).IsValid;

    private static string Findings(Shape<object> shape, JsonNode value)
    {
        DiagnosticBag bag = new();
        YamlNode node = YamlReader.ReadNode(value.ToJsonString(), "f", bag)!;
        Assert.Empty(bag.InOrder());
        shape.TryRead(node, bag, out _);
        return string.Join("\n", bag.InOrder());
    }

    private static Shape<object> Boxed<T>(Shape<T> shape)
        where T : notnull => shape.Select(static value => (object)value);
}
