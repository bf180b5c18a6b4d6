using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;

namespace Spurless.Files.Tests.Yaml;

/// <summary>
/// Many edits one after the other on a document with comments, against a model that knows no text: the same edits on a tree of JSON. After
/// each edit the document says what the tree says.
/// </summary>
public sealed class EditSequenceTests
{
    private const string Head = "# head of the file";

    private static readonly Gen<JsonNode> Leaf = Pick
        .From("a", "b c", "-3 dBm", "5 %", "x: y", "# z", "'q'", "", "1e3", "true", "é 𐌰", "- d")
        .Select(static w => (JsonNode)JsonValue.Create(w));

    private static readonly Gen<JsonNode> Inner = Gen.OneOf(
        Leaf,
        Leaf.Array[0, 3].Select(Listed),
        Leaf.Array[0, 3].Select(static items => (JsonNode)Keyed(items)));

    private static readonly Gen<JsonNode> Tree = Gen.OneOf(
        Inner,
        Inner.Array[1, 4].Select(Listed),
        Inner.Array[1, 4].Select(static items => (JsonNode)Keyed(items)));

    private static readonly Gen<(int Kind, int Where, int Index, JsonNode Value)> Edit = Gen.Select(
        Gen.Int[0, 3], Gen.Int[0, 9_999], Gen.Int[0, 99], Inner);

    /// <summary>JSON in one line is YAML (YAML 1.2, section 1.2), given that no string holds what JSON escapes differently.</summary>
    private static JsonSerializerOptions Plain { get; } = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    [Fact]
    public void Edits_one_after_the_other_say_what_the_same_edits_of_a_tree_say() =>
        Gen.Select(Tree.Array[1, 4].Select(Keyed), Edit.Array[1, 8], Gen.Bool).Sample(
            static (start, edits, windows) =>
            {
                JsonObject model = (JsonObject)start.DeepClone();
                string text = Written(model);
                text = windows ? text.ReplaceLineEndings("\r\n") : text;
                foreach ((int kind, int where, int index, JsonNode value) in edits)
                {
                    (text, model) = Apply(text, model, kind, where, index, value);
                    Assert.StartsWith(Head, text, StringComparison.Ordinal);
                    Assert.Equal(windows ? text.Count(static c => c == '\n') : 0, text.Count(static c => c == '\r'));
                }
            },
            iter: 1_000);

    /// <summary>What was put in and taken out again leaves the text as it was, to the last blank.</summary>
    [Fact]
    public void Key_put_in_and_taken_out_again_leaves_the_text_as_it_was() => Gen.Select(Tree.Array[1, 4].Select(Keyed), Inner).Sample(
        static (model, value) =>
        {
            string text = Written(model);
            Assert.True(YamlEditor.TryInsertKey(text, YamlPath.Root, "new", Value(value), out string? with, out string? problem), problem);
            Assert.True(YamlEditor.TryRemove(with, YamlPath.Root.Key("new"), out string? without, out problem), problem);
            Assert.Equal(text, without);
        },
        iter: 500);

    /// <summary>Setting what stands there already may change quotes, and nothing else.</summary>
    [Fact]
    public void Value_set_to_what_it_is_keeps_every_line() => Tree.Array[1, 4].Select(Keyed).Sample(
        static model =>
        {
            string text = Written(model);
            foreach (YamlPath path in Paths(model, YamlPath.Root).Where(p => Find(model, p) is JsonValue))
            {
                string value = Find(model, path)!.GetValue<string>();
                Assert.True(YamlEditor.TrySet(text, path, value, out string? same, out string? problem), problem);
                Assert.Equal(text.Split('\n').Length, same.Split('\n').Length);
                Assert.Equal(model.ToJsonString(), Read(same).ToJsonString());
            }
        },
        iter: 300);

    [Theory]
    [InlineData("list[3]")]
    [InlineData("list[-1]")]
    [InlineData("none")]
    [InlineData("site.deeper")]
    public void Place_that_is_not_there_is_refused(string path)
    {
        const string Text = "site: Hill\nlist: [a, b, c]\n";
        const string Expected = "there is no such place in the file; read the file again";
        YamlPath at = Parse(path);
        Assert.Equal(path, at.ToString());
        Assert.False(YamlEditor.TrySet(Text, at, "x", out string? edited, out string? problem));
        Assert.Equal((null, Expected), (edited, problem));
        Assert.False(YamlEditor.TryRemove(Text, at, out edited, out problem));
        Assert.Equal((null, Expected), (edited, problem));
    }

    [Fact]
    public void Document_with_errors_is_not_touched()
    {
        Assert.False(YamlEditor.TrySet("a: [1\n", YamlPath.Root.Key("a"), "x", out _, out string? problem));
        Assert.Equal("the file has errors of form; correct them in a text editor first", problem);
        Assert.False(YamlEditor.TryRemove("a: 1\n", YamlPath.Root, out _, out problem));
        Assert.Equal("there is no such place in the file; read the file again", problem);
    }

    [Fact]
    public void Parent_of_a_path_is_one_step_shorter_and_the_root_its_own()
    {
        YamlPath path = YamlPath.Root.Key("a").Item(2).Key("b");
        Assert.Equal("a[2].b", path.ToString());
        Assert.Equal("a[2]", path.Parent.ToString());
        Assert.Equal("the document", path.Parent.Parent.Parent.ToString());
        Assert.Equal("the document", path.Parent.Parent.Parent.Parent.ToString());
    }

    private static (string Text, JsonObject Model) Apply(string text, JsonObject model, int kind, int where, int index, JsonNode value)
    {
        YamlPath[] all = [.. Paths(model, YamlPath.Root)];
        YamlPath path = all[where % all.Length];
        JsonObject next = (JsonObject)model.DeepClone();
        JsonNode at = Find(next, path)!;
        bool done;
        string? edited;
        string? problem;
        switch (kind)
        {
            case 0 when !path.Steps.IsEmpty:
                Put(next, path, value.DeepClone());
                done = YamlEditor.TrySet(text, path, Value(value), out edited, out problem);
                break;
            case 1 when at is JsonObject keys:
                string key = "n" + index.ToString(CultureInfo.InvariantCulture);
                if (keys.ContainsKey(key))
                {
                    return (text, model);
                }

                keys.Add(key, value.DeepClone());
                done = YamlEditor.TryInsertKey(text, path, key, Value(value), out edited, out problem);
                break;
            case 2 when at is JsonArray list:
                int place = index % (list.Count + 1);
                list.Insert(place, value.DeepClone());
                done = YamlEditor.TryInsertItem(text, path, place, Value(value), out edited, out problem);
                break;
            case 3 when path.Steps.Length > 1:
                Take(Find(next, path.Parent)!, path.Steps[^1]);
                done = YamlEditor.TryRemove(text, path, out edited, out problem);
                break;
            default:
                return (text, model);
        }

        Assert.True(done, $"{path}: {problem}\n{text}");
        Assert.Equal(next.ToJsonString(), Read(edited!).ToJsonString());
        return (edited!, next);
    }

    private static JsonNode Listed(JsonNode[] items) => new JsonArray([.. items.Select(static i => i.DeepClone())]);

    private static JsonObject Keyed(JsonNode[] items) => new(items.Select(static (item, i) =>
        KeyValuePair.Create("k" + i.ToString(CultureInfo.InvariantCulture), (JsonNode?)item.DeepClone())));

    /// <summary>A document as a person writes one: a comment above each key, lists and mappings of the first level as blocks.</summary>
    private static string Written(JsonObject model)
    {
        List<string> lines = [Head];
        foreach ((string key, JsonNode? value) in model)
        {
            lines.Add($"# about {key}");
            switch (value)
            {
                case JsonArray { Count: > 0 } list:
                    lines.Add(key + ":");
                    lines.AddRange(list.Select(static item => "  - " + item!.ToJsonString(Plain)));
                    break;
                case JsonObject { Count: > 0 } keys:
                    lines.Add(key + ":   # its parts");
                    lines.AddRange(keys.Select(static e => $"  {e.Key}: {e.Value!.ToJsonString(Plain)}  # {e.Key}"));
                    break;
                default:
                    lines.Add($"{key}: {value!.ToJsonString(Plain)}  # {key}");
                    break;
            }
        }

        return string.Join('\n', lines) + "\n";
    }

    private static YamlValue Value(JsonNode node) => node switch
    {
        JsonArray list => YamlValue.List([.. list.Select(static i => Value(i!))]),
        JsonObject keys => YamlValue.Map([.. keys.Select(static e => (e.Key, Value(e.Value!)))]),
        _ => YamlValue.Of(node.GetValue<string>()),
    };

    private static JsonNode Read(string text)
    {
        DiagnosticBag bag = new();
        YamlMapping? root = YamlReader.Read(text, "f", bag);
        Assert.Empty(bag.InOrder());
        return Json(root!);
    }

    private static JsonNode Json(YamlNode node) => node switch
    {
        YamlSequence list => new JsonArray([.. list.Items.Select(Json)]),
        YamlMapping keys => new JsonObject(keys.Entries.Select(static e => KeyValuePair.Create(e.Key.Text, (JsonNode?)Json(e.Value)))),
        _ => JsonValue.Create(((YamlScalar)node).Text),
    };

    private static IEnumerable<YamlPath> Paths(JsonNode node, YamlPath at) => node switch
    {
        JsonObject keys => keys.SelectMany(e => Paths(e.Value!, at.Key(e.Key))).Append(at),
        JsonArray list => list.SelectMany((item, i) => Paths(item!, at.Item(i))).Append(at),
        _ => [at],
    };

    private static JsonNode? Find(JsonNode root, YamlPath path) =>
        path.Steps.Aggregate((JsonNode?)root, static (at, step) => step is int i ? at![i] : at![(string)step]);

    private static void Put(JsonObject root, YamlPath path, JsonNode value)
    {
        JsonNode parent = Find(root, path.Parent)!;
        if (path.Steps[^1] is int i)
        {
            parent[i] = value;
        }
        else
        {
            parent[(string)path.Steps[^1]] = value;
        }
    }

    private static void Take(JsonNode parent, object step)
    {
        if (step is int i)
        {
            parent.AsArray().RemoveAt(i);
        }
        else
        {
            parent.AsObject().Remove((string)step);
        }
    }

    private static YamlPath Parse(string path) => path.Split('.').Aggregate(YamlPath.Root, static (at, part) =>
    {
        string[] pieces = part.Split('[', ']');
        YamlPath keyed = at.Key(pieces[0]);
        return pieces.Length == 1 ? keyed : keyed.Item(int.Parse(pieces[1], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture));
    });
}
