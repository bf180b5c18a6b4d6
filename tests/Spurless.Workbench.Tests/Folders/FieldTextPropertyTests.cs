using CsCheck;
using Spurless.Files.Yaml;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>A field as a text that can be typed: what is read and typed back changes nothing, what is typed is what stands there.</summary>
public sealed class FieldTextPropertyTests
{
    // Texts as users name things, and signs that YAML has other plans with.
    private static readonly Gen<string> _value = Gen.OneOf<string>(
        Gen.String[Gen.Char['a', 'z'], 1, 8],
        Gen.OneOf(
            "145.050 MHz", "a, b", "key: value", "north # 2", "say \"so\"", "it's", "yes", "null", "~", "-", "- x", "1e3", "0x10", "*star",
            "&x", "!tag", "%", "@home", "`", "|", ">", "?", "a:", "Zwölf Ω", "two  spaces", "\\back", "{x", "x}", "]", "a:b",
            "2026-11-29"));

    private static readonly Gen<(string Text, string[] Values)> _document = _value.Array[5].Select(static v => (Document(v), v));

    private static readonly string[] _fields =
        ["site", "receivers[0].name", "receivers[0].antenna.gain", "receivers[1].name", "emitters[0].name"];

    [Fact]
    public void ValueOf_of_what_was_written_is_what_was_typed() => _document.Sample(static document =>
    {
        foreach ((string field, string value) in _fields.Zip(document.Values))
        {
            Assert.Equal(value, FieldText.ValueOf(document.Text, field));
        }
    });

    [Fact]
    public void TrySet_of_one_field_leaves_all_others_and_every_comment() =>
        Gen.Select(_document, Gen.Int[0, 4], _value).Sample(static (document, which, value) =>
        {
            Assert.True(FieldText.TrySet(document.Text, _fields[which], value, out string? edited, out string? problem), problem);
            for (int i = 0; i < _fields.Length; i++)
            {
                Assert.Equal(i == which ? value : document.Values[i], FieldText.ValueOf(edited, _fields[i]));
            }

            Assert.Contains("# ours", edited, StringComparison.Ordinal);
            Assert.Contains("# the deaf one", edited, StringComparison.Ordinal);
            Assert.Equal(document.Text.Count(static c => c == '\n'), edited.Count(static c => c == '\n'));

            // And back again.
            Assert.True(FieldText.TrySet(edited, _fields[which], document.Values[which], out string? back, out _));
            Assert.Equal(document.Text, back);
        });

    [Fact]
    public void ValueOf_of_a_list_or_keys_typed_back_is_the_same_list() =>
        Gen.Select(_value.Array[1, 4], _value).Sample(static (items, key) =>
        {
            string text = "spurless: 1\n";
            for (int i = 0; i < items.Length; i++)
            {
                Assert.True(FieldText.TrySet(text, $"list[{i}]", items[i], out text!, out string? problem), problem);
            }

            string typed = FieldText.ValueOf(text, "list")!;
            Assert.True(FieldText.TrySet(text, "list", typed, out string? edited, out _));
            Assert.Equal(items, Items(edited));

            // A list of one that is typed into another document is that list too.
            Assert.True(FieldText.TrySet("a: 1\n", "list", typed, out string? other, out _));
            Assert.Equal(items, Items(other));
            _ = key;
        });

    [Fact]
    public void TrySet_with_nothing_takes_the_field_and_what_would_be_empty_round_it() =>
        Gen.Select(_document, Gen.Int[0, 4], Gen.OneOf("", "  ", "\t")).Sample(static (document, which, blank) =>
        {
            Assert.True(FieldText.TrySet(document.Text, _fields[which], blank, out string? edited, out string? problem), problem);
            Assert.Null(FieldText.ValueOf(edited, _fields[which]));
            for (int i = 0; i < _fields.Length; i++)
            {
                if (i != which)
                {
                    Assert.Equal(document.Values[i], FieldText.ValueOf(edited, _fields[i]));
                }
            }

            // Once more changes nothing.
            Assert.True(FieldText.TrySet(edited, _fields[which], blank, out string? again, out _));
            Assert.Equal(edited, again);
        });

    [Fact]
    public void TryMoveItem_there_and_back_keeps_every_item_in_its_place() =>
        Gen.Select(_value.Array[2, 6], Gen.Int[0, 5], Gen.Int[0, 5]).Sample(static (items, from, to) =>
        {
            string text = "list:\n" + string.Concat(items.Select(static (_, i) => $"  - x{i}\n"));
            for (int i = 0; i < items.Length; i++)
            {
                Assert.True(FieldText.TrySet(text, $"list[{i}]", items[i], out text!, out string? problem), problem);
            }

            if (from >= items.Length || to >= items.Length)
            {
                Assert.False(FieldText.TryMoveItem(text, "list", from, to, out _, out string? why));
                Assert.Contains("no such place", why, StringComparison.Ordinal);
                return;
            }

            Assert.True(FieldText.TryMoveItem(text, "list", from, to, out string? moved, out _));
            List<string> expected = [.. items];
            expected.RemoveAt(from);
            expected.Insert(to, items[from]);
            Assert.Equal(expected, Items(moved));
            Assert.True(FieldText.TryMoveItem(moved, "list", to, from, out string? back, out _));
            Assert.Equal(items, Items(back));
        });

    [Fact]
    public void TrySetAll_writes_all_or_nothing()
    {
        const string text = "site: x\nlist: [1]\n";
        Assert.True(FieldText.TrySetAll(text, [("site", "y"), ("list[1]", "2"), ("note", " ")], out string? edited, out _));
        Assert.Equal("site: y\nlist: [1, 2]\n", edited);
        Assert.False(FieldText.TrySetAll(text, [("site", "y"), ("list[5]", "2")], out _, out string? problem));
        Assert.Contains("there is no 'list[5]'", problem, StringComparison.Ordinal);
    }

    private static string[] Items(string text) =>
        [.. ((YamlSequence)FieldText.NodeOf(FieldText.Parse(text)!, "list")!).Items.Select(static i => ((YamlScalar)i).Text)];

    private static string Document(string[] values)
    {
        string text = """
            # ours
            spurless: 1
            site: x
            receivers:
              - name: r0   # the deaf one
                antenna: { gain: g }
              - name: r1
            emitters: [{ name: e0 }, { name: e1 }]

            """;
        foreach ((string field, string value) in _fields.Zip(values))
        {
            Assert.True(FieldText.TrySet(text, field, value, out text!, out string? problem), problem);
        }

        return text;
    }
}
