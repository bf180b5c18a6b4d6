using System.Globalization;
using System.Text.Json.Nodes;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Yaml;

public sealed class MappingReaderTests
{
    private sealed record Bench(
        string? Name,
        Metres Length,
        double? Q,
        int? Count,
        bool? On,
        Colour? Colour,
        IReadOnlyList<Metres> Steps,
        IReadOnlyList<Named<Metres>>? Free,
        double? Tall);

    private enum Colour
    {
        Red,
        Blue,
    }

    private readonly record struct Metres(double Value)
    {
        public static bool TryParse(string text, out Metres value, out string problem)
        {
            bool right = text.EndsWith(" m", StringComparison.Ordinal)
                & double.TryParse(
                    text.AsSpan(0, Math.Max(0, text.Length - 2)), NumberStyles.Float, CultureInfo.InvariantCulture, out double number);
            value = new Metres(number);
            problem = $"'{text}' has no unit; write {text} m";
            return right;
        }
    }

    private static readonly Shape<Metres> Length = Shapes.Value<Metres>("a length such as 2 m", Metres.TryParse).Check(
        m => m.Value < 0 ? new Refusal("a negative length", "write a positive one") : null);

    private static readonly Shape<Bench> Shape = Shapes.Mapping("a bench", m =>
    {
        Bench bench = new(
            m.Optional("name", Shapes.Text, "what it is called"),
            m.Required("length", Length, "how long"),
            m.Maybe("q", Shapes.Number("a plain number above 0", 0, leastAllowed: false)),
            m.Maybe("count", Shapes.Integer("a whole number from 1 to 9", 1, 9)),
            m.Maybe("on", Shapes.Bool),
            m.Maybe("colour", Shapes.Words(("red", Colour.Red), ("blue", Colour.Blue))),
            m.Or("steps", Shapes.OneOrMany(Length), []),
            m.Optional("free", Shapes.MapOf("a name", Length)),
            m.Maybe("tall", Shapes.Number("a plain number")));
        m.AtMostOne("q", "tall");
        m.AtLeastOne("add 'name: my bench'", "name", "count");
        m.Needs("on", "colour", "add 'colour: red'");
        return bench;
    });

    private static (Bench? Value, string Findings) Read(string text)
    {
        DiagnosticBag bag = new();
        Bench? value = YamlReader.Read(text, "a", bag) is { } root && Shape.TryRead(root, bag, out Bench? read) ? read : null;
        return (value, string.Join("\n", bag.InOrder()));
    }

    [Fact]
    public void TryRead_good_mapping_gives_its_values()
    {
        (Bench? value, string findings) = Read(
            "name: n\nlength: 2 m\nq: 1e2\ncount: 3\non: true\ncolour: blue\nsteps: [1 m, 2 m]\nfree: { x y: 3 m }\n");
        Assert.Equal("", findings);
        Assert.NotNull(value);
        Assert.Equal(
            ("n", 2.0, 100.0, 3, true, Colour.Blue), (value.Name, value.Length.Value, value.Q, value.Count, value.On, value.Colour));
        Assert.Equal([1.0, 2.0], value.Steps.Select(s => s.Value));
        Assert.Equal(("x y", 3.0), (value.Free![0].Name, value.Free[0].Value.Value));
        Assert.Equal([4.0], Read("count: 1\nlength: 2 m\nsteps: 4 m\n").Value!.Steps.Select(s => s.Value));
    }

    [Theory]
    [InlineData("name: n\n", "a:1:1: the key 'length' is missing; add 'length:' with a length such as 2 m")]
    [InlineData("name: n\nlength: 2\n", "a:2:9: '2' has no unit; write 2 m")]
    [InlineData("name: n\nlength: -2 m\n", "a:2:9: a negative length; write a positive one")]
    [InlineData("name: n\nlength:\n", "a:2:8: there is no value; write a length such as 2 m")]
    [InlineData("name: n\nlength: [2 m]\n", "a:2:9: a list stands here; write a length such as 2 m")]
    [InlineData("name: n\nlength: { a: 2 m }\n", "a:2:9: keys with values stand here; write a length such as 2 m")]
    [InlineData("name: n\nlength: 2 m\nq: 0\n", "a:3:4: '0' is out of range; write a plain number above 0")]
    [InlineData("name: n\nlength: 2 m\nq: 1e999\n", "a:3:4: '1e999' is not a finite number; write a plain number above 0")]
    [InlineData("name: n\nlength: 2 m\nq: NaN\n", "a:3:4: 'NaN' is not a finite number; write a plain number above 0")]
    [InlineData("name: n\nlength: 2 m\nq: 1,5\n", "a:3:4: '1,5' is not a plain number; write a plain number above 0")]
    [InlineData("name: n\nlength: 2 m\ncount: 2.5\n", "a:3:8: '2.5' is not a whole number; write a whole number from 1 to 9")]
    [InlineData("name: n\nlength: 2 m\ncount: 10\n", "a:3:8: '10' is out of range; write a whole number from 1 to 9")]
    [InlineData("name: n\nlength: 2 m\ncolour: bleu\n", "a:3:9: the word 'bleu' is not known here; write 'blue'")]
    [InlineData("name: n\nlength: 2 m\ncolour: x\n", "a:3:9: the word 'x' is not known here; write one of red, blue")]
    [InlineData("name: n\nlength: 2 m\ncolour: red\non: yes\n", "a:4:5: 'yes' is neither true nor false; write true or false")]
    [InlineData("name: n\nlength: 2 m\non: true\n", "a:3:1: 'on' stands without 'colour'; add 'colour: red'")]
    [InlineData("name: n\nlenght: 2 m\nlength: 2 m\n", "a:2:1: unknown key 'lenght'; write 'length'")]
    [InlineData(
        "name: n\nlength: 2 m\nwhatever: 1\n",
        "a:3:1: unknown key 'whatever'; the keys here are name, length, q, count, on, colour, steps, free, tall")]
    [InlineData("{ name: n, length: 2 m, q: 1,5 }\n", "a:1:28: '1,5' has a comma in the number; write 1.5")]
    [InlineData(
        "{ name: n, length: 2,5 m }\n",
        "a:1:20: '2' has no unit; write 2 m\na:1:20: '2,5 m' has a comma in the number; write 2.5 m")]
    [InlineData(
        "{ name: n, length: 2 m, 5 }\n", // no figure before the comma
        "a:1:25: unknown key '5'; the keys here are name, length, q, count, on, colour, steps, free, tall")]
    [InlineData(
        "name: n\nlength: 2 m\nq: 1\n5:\n", // a line of its own is no decimal
        "a:4:1: unknown key '5'; the keys here are name, length, q, count, on, colour, steps, free, tall")]
    [InlineData("name: n\nlength: 2 m\ntall: 1\nq: 1\n", "a:4:1: 'q' and 'tall' are two ways of saying one thing; keep one of the two")]
    [InlineData("length: 2 m\n", "a:1:1: there is neither 'name' nor 'count'; add 'name: my bench'")]
    [InlineData("name: n\nlength: 2 m\nsteps: []\n", "a:3:8: the list has 0 items; write at least 1")]
    [InlineData("name: n\nlength: 2 m\nfree: 3\n", "a:3:7: '3' is a single value; write { a name: a length such as 2 m }")]
    [InlineData(
        "name: n\nlength: 2\nq: x\nz: 1\n",
        "a:2:9: '2' has no unit; write 2 m\na:3:4: 'x' is not a plain number; write a plain number above 0\na:4:1: "
            + "unknown key 'z'; the keys here are name, length, q, count, on, colour, steps, free, tall")]
    public void TryRead_bad_mapping_reports_every_finding_with_its_place(string text, string expected)
    {
        Assert.Equal(expected, Read(text).Findings);

        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(expected, Read(text).Findings);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void TryRead_after_a_syntax_error_does_not_call_keys_missing()
    {
        string findings = Read("name: n\nq: x\ncount: { 3\n").Findings;
        Assert.DoesNotContain("is missing", findings, StringComparison.Ordinal);
        Assert.Contains("a:2:4: 'x' is not a plain number", findings, StringComparison.Ordinal);
    }

    [Fact]
    public void Describe_knows_the_keys_that_reading_knows()
    {
        JsonObject schema = Shape.Describe();
        Assert.Equal(
            ["name", "length", "q", "count", "on", "colour", "steps", "free", "tall"], schema["properties"]!.AsObject().Select(p => p.Key));
        Assert.Equal("""["length"]""", schema["required"]!.ToJsonString());
        Assert.False(schema["additionalProperties"]!.GetValue<bool>());
        Assert.Equal("how long: a length such as 2 m", schema["properties"]!["length"]!["description"]!.GetValue<string>());
        Assert.Equal(
            """{"type":"integer","description":"a whole number from 1 to 9","minimum":1,"maximum":9}""",
            schema["properties"]!["count"]!.ToJsonString());
        Assert.Equal(3, schema["allOf"]!.AsArray().Count);
    }
}
