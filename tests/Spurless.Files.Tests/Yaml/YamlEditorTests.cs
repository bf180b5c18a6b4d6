using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;

namespace Spurless.Files.Tests.Yaml;

public sealed class YamlEditorTests
{
    private const string Text = """
        # head
        site: Hill   # a name
        place: { x: 1, y: 2 }  # where
        list:
          # above the first
          - name: one     # first
            # about level
            level: -1 dBm
            more: [a, b]

          - name: two
            inner:
              deep: 1     # deep
              # in inner
              deeper: 2
          # above the third
          - three
        empty:
        note: |
          some lines
          of text
        # end
        last: x
        """;

    [Fact]
    public void TryRenameKey_changes_the_key_alone_and_refuses_one_that_is_in_use()
    {
        Assert.True(YamlEditor.TryRenameKey(Text, YamlPath.Root.Key("place").Key("y"), "z", out string? edited, out _));
        Assert.Equal(Text.Replace("{ x: 1, y: 2 }", "{ x: 1, z: 2 }", StringComparison.Ordinal), edited);
        Assert.True(YamlEditor.TryRenameKey(Text, YamlPath.Root.Key("list").Item(0).Key("level"), "a: b", out edited, out _));
        Assert.Equal(Text.Replace("level: -1 dBm", "\"a: b\": -1 dBm", StringComparison.Ordinal), edited);
        Assert.False(YamlEditor.TryRenameKey(Text, YamlPath.Root.Key("place").Key("y"), "x", out _, out string? problem));
        Assert.NotEmpty(problem);
    }

    private static string Set(string text, YamlPath path, string value)
    {
        Assert.True(YamlEditor.TrySet(text, path, value, out string? edited, out string? problem), problem);
        return edited;
    }

    private static YamlPath Item(int i) => YamlPath.Root.Key("list").Item(i);

    [Fact]
    public void TrySet_scalar_changes_only_its_own_text()
    {
        Assert.Equal(
            Text.Replace("site: Hill   #", "site: Dale   #", StringComparison.Ordinal), Set(Text, YamlPath.Root.Key("site"), "Dale"));
        Assert.Equal(
            Text.Replace("y: 2 }", "y: \"a, b\" }", StringComparison.Ordinal), Set(Text, YamlPath.Root.Key("place").Key("y"), "a, b"));
        Assert.Equal(Text.Replace("Hill ", "a, b ", StringComparison.Ordinal), Set(Text, YamlPath.Root.Key("site"), "a, b"));
        Assert.Equal(Text.Replace("empty:", "empty: full", StringComparison.Ordinal), Set(Text, YamlPath.Root.Key("empty"), "full"));
        Assert.Equal(
            Text.Replace("deep: 1 ", "deep: -21 dBm ", StringComparison.Ordinal), Set(Text, Item(1).Key("inner").Key("deep"), "-21 dBm"));
        Assert.Equal(
            Text.Replace("note: |\n  some lines\n  of text\n", "note: short\n", StringComparison.Ordinal),
            Set(Text, YamlPath.Root.Key("note"), "short"));
    }

    [Fact]
    public void TrySet_block_becomes_one_line_and_keeps_comments_outside_it()
    {
        Assert.True(YamlEditor.TrySet(Text, Item(1).Key("inner"), YamlValue.Map(("deep", YamlValue.Of("3"))), out string? edited, out _));
        Assert.Equal(
            Text.Replace(
                "inner:\n      deep: 1     # deep\n      # in inner\n      deeper: 2\n", "inner: { deep: 3 }\n", StringComparison.Ordinal),
            edited);
    }

    [Fact]
    public void TryInsertKey_goes_behind_the_last_key()
    {
        Assert.True(YamlEditor.TryInsertKey(Text, Item(0), "power", YamlValue.Of("5 W"), out string? edited, out _));
        Assert.Equal(Text.Replace("    more: [a, b]\n", "    more: [a, b]\n    power: 5 W\n", StringComparison.Ordinal), edited);
        Assert.True(YamlEditor.TryInsertKey(Text, YamlPath.Root.Key("place"), "z", YamlValue.List(YamlValue.Of("3")), out edited, out _));
        Assert.Equal(Text.Replace("y: 2 }", "y: 2, z: [3] }", StringComparison.Ordinal), edited);
        Assert.True(
            YamlEditor.TryInsertKey(
                Text,
                YamlPath.Root,
                "tail",
                YamlValue.List(YamlValue.Map(("a", YamlValue.Of("1")), ("b", YamlValue.Of("2")))),
                out edited,
                out _));
        Assert.Equal(Text + "\ntail:\n  - a: 1\n    b: 2", edited);
        Assert.False(YamlEditor.TryInsertKey(Text, Item(0), "name", YamlValue.Of("x"), out _, out string? problem));
        Assert.Equal("there is no such place in the file; read the file again", problem);
    }

    [Fact]
    public void TryInsertItem_goes_to_its_place()
    {
        YamlValue item = YamlValue.Map(("name", YamlValue.Of("new")), ("level", YamlValue.Of("-3 dBm")));
        const string Block = "  - name: new\n    level: -3 dBm\n";
        Assert.True(YamlEditor.TryInsertItem(Text, YamlPath.Root.Key("list"), 3, item, out string? edited, out _));
        Assert.Equal(Text.Replace("  - three\n", "  - three\n" + Block, StringComparison.Ordinal), edited);
        Assert.True(YamlEditor.TryInsertItem(Text, YamlPath.Root.Key("list"), 1, item, out edited, out _));
        Assert.Equal(Text.Replace("    more: [a, b]\n", "    more: [a, b]\n" + Block, StringComparison.Ordinal), edited);
        Assert.True(YamlEditor.TryInsertItem(Text, YamlPath.Root.Key("list"), 0, item, out edited, out _));
        Assert.Equal(Text.Replace("  - name: one", Block + "  - name: one", StringComparison.Ordinal), edited);
        Assert.True(YamlEditor.TryInsertItem(Text, Item(0).Key("more"), 2, YamlValue.Of("c: d"), out edited, out _));
        Assert.Equal(Text.Replace("[a, b]", "[a, b, \"c: d\"]", StringComparison.Ordinal), edited);
    }

    [Fact]
    public void TryRemove_takes_the_line_and_leaves_the_comments_above_it()
    {
        Assert.True(YamlEditor.TryRemove(Text, Item(0).Key("level"), out string? edited, out _));
        Assert.Equal(Text.Replace("    level: -1 dBm\n", "", StringComparison.Ordinal), edited);
        Assert.True(YamlEditor.TryRemove(Text, Item(0).Key("name"), out edited, out _));
        Assert.Equal(
            Text.Replace(
                "  - name: one     # first\n    # about level\n    level", "    # about level\n  - level", StringComparison.Ordinal),
            edited);
        Assert.True(YamlEditor.TryRemove(Text, Item(1), out edited, out _));
        Assert.Equal(
            Text.Replace(
                "  - name: two\n    inner:\n      deep: 1     # deep\n      # in inner\n      deeper: 2\n", "", StringComparison.Ordinal),
            edited);
        Assert.True(YamlEditor.TryRemove(Text, YamlPath.Root.Key("place").Key("x"), out edited, out _));
        Assert.Equal(Text.Replace("{ x: 1, y: 2 }", "{ y: 2 }", StringComparison.Ordinal), edited);
    }

    [Fact]
    public void Every_place_of_the_example_can_be_set_and_removed_with_any_line_end()
    {
        string example = TestData.Read("site", "example.site.yaml");
        List<YamlPath> all = [.. Paths(YamlReader.Read(example, "x", new DiagnosticBag())!, YamlPath.Root).Where(p => !p.Steps.IsEmpty)];
        Assert.InRange(all.Count, 100, 400);
        foreach (YamlPath path in all)
        {
            Assert.True(
                YamlEditor.TrySet(example, path, "new, 'value': 1", out string? set, out string? problem), $"set {path}: {problem}");
            Assert.True(YamlEditor.TryRemove(example, path, out string? removed, out problem), $"remove {path}: {problem}");

            string windows = "\uFEFF" + example.ReplaceLineEndings("\r\n");
            Assert.True(YamlEditor.TrySet(windows, path, "new, 'value': 1", out string? setWindows, out _));
            Assert.Equal("\uFEFF" + set.ReplaceLineEndings("\r\n"), setWindows);
            Assert.True(YamlEditor.TryRemove(windows, path, out string? removedWindows, out _));
            Assert.Equal("\uFEFF" + removed.ReplaceLineEndings("\r\n"), removedWindows);
        }
    }

    [Fact]
    public void Every_single_value_of_the_example_is_set_without_touching_another_line()
    {
        string example = TestData.Read("site", "example.site.yaml");
        YamlMapping root = YamlReader.Read(example, "x", new DiagnosticBag())!;
        foreach (YamlPath path in Paths(root, YamlPath.Root).Where(p => Find(root, p) is YamlScalar))
        {
            string[] before = example.Split('\n');
            string[] after = Set(example, path, "7 MHz").Split('\n');
            Assert.Equal(before.Length, after.Length);
            int line = Find(root, path)!.Start.Line - 1;
            Assert.Equal(before.Where((_, i) => i != line), after.Where((_, i) => i != line));
            Assert.Equal(Comment(before[line]), Comment(after[line]));
        }
    }

    private static readonly Gen<string> AnyText = Gen.Char["ab1 :-,[]{}#&*!|>'\"%@`?~\n\t\\.<=\u0085\u2028é"].Array[0, 12].Select(
        c => new string(c));

    [Fact]
    public void TrySet_any_text_is_read_back_as_it_was() =>
        Gen.Select(AnyText, Gen.Int[0, 10_000], Gen.Bool).Sample(
            (value, which, windows) =>
            {
                string text = windows ? Text.ReplaceLineEndings("\r\n") : Text;
                YamlMapping root = YamlReader.Read(text, "x", new DiagnosticBag())!;
                List<YamlPath> all = [.. Paths(root, YamlPath.Root).Where(p => !p.Steps.IsEmpty)];
                YamlPath path = all[which % all.Count];
                string edited = Set(text, path, value);
                DiagnosticBag bag = new();
                YamlMapping now = YamlReader.Read(edited, "x", bag)!;
                Assert.Empty(bag.InOrder());
                Assert.Equal(value, Assert.IsType<YamlScalar>(Find(now, path)).Text);
            },
            iter: 3_000);

    [Fact]
    public void Edits_of_noise_never_throw() =>
        Gen.Select(Gen.Char["ab :-,[]{}#|'\"\n"].Array[0, 40].Select(c => new string(c)), AnyText, Gen.Int[0, 1000]).Sample(
            (text, value, which) =>
            {
                DiagnosticBag bag = new();
                YamlMapping? root = YamlReader.Read(text, "x", bag);
                List<YamlPath> all = root is null ? [YamlPath.Root.Key("a")] : [.. Paths(root, YamlPath.Root)];
                YamlPath path = all[which % all.Count];
                YamlEditor.TrySet(text, path, value, out _, out _);
                YamlEditor.TryRemove(text, path, out _, out _);
                YamlEditor.TryInsertKey(text, path, value, YamlValue.Of(value), out _, out _);
                YamlEditor.TryInsertItem(text, path, which % 3, YamlValue.Map((value, YamlValue.Of(value))), out _, out _);
            },
            iter: 10_000);

    private static string Comment(string line) => line.IndexOf(" #", StringComparison.Ordinal) is var at && at >= 0 ? line[at..] : "";

    private static YamlNode? Find(YamlNode root, YamlPath path) => path.Steps.Aggregate((YamlNode?)root, (at, step) => (at, step) switch
    {
        (YamlMapping m, string key) => m.Value(key),
        (YamlSequence s, int i) => s.Items[i],
        _ => null,
    });

    private static IEnumerable<YamlPath> Paths(YamlNode node, YamlPath at) => node switch
    {
        YamlMapping m => m.Entries.SelectMany(e => Paths(e.Value, at.Key(e.Key.Text))).Append(at),
        YamlSequence s => s.Items.SelectMany((item, i) => Paths(item, at.Item(i))).Append(at),
        _ => [at],
    };
}
