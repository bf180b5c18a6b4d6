using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Yaml;

public sealed class YamlReaderTests
{
    private static string Findings(DiagnosticBag bag) => string.Join("\n", bag.InOrder());

    private static (YamlMapping? Root, string Findings) Read(string text)
    {
        DiagnosticBag bag = new();
        YamlMapping? root = YamlReader.Read(text, "a.yaml", bag);
        return (root, Findings(bag));
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void Read_positions_point_at_the_text_whatever_the_line_ends(string lineEnd)
    {
        // U+10330 takes two UTF-16 units and is one column.
        string text = string.Join(lineEnd, "# head", "a: one two   # rest", "b: [ '𐌰x', 3 ]", "c:", "  - d: 𐌰 e", "", "f: \"q\"");
        foreach (string whole in new[] { text, "\uFEFF" + text })
        {
            (YamlMapping? root, string findings) = Read(whole);
            Assert.Equal("", findings);
            Assert.NotNull(root);
            Assert.Equal(["a", "b", "c", "f"], root.Entries.Select(e => e.Key.Text));
            YamlNode a = root.Value("a")!;
            Assert.Equal((2, 4), (a.Start.Line, a.Start.Column));
            Assert.Equal("one two", text[a.Start.Index..a.End.Index]);
            YamlSequence b = Assert.IsType<YamlSequence>(root.Value("b"));
            Assert.True(b.IsFlow);
            Assert.Equal("[ '𐌰x', 3 ]", text[b.Start.Index..b.End.Index]);
            Assert.Equal((3, 12), (b.Items[1].Start.Line, b.Items[1].Start.Column));
            Assert.Equal("𐌰x", Assert.IsType<YamlScalar>(b.Items[0]).Text);
            YamlMapping item = Assert.IsType<YamlMapping>(Assert.IsType<YamlSequence>(root.Value("c")).Items[0]);
            Assert.Equal("𐌰 e", text[item.Value("d")!.Start.Index..item.Value("d")!.End.Index]);
            Assert.Equal((7, 4), (root.Value("f")!.Start.Line, root.Value("f")!.Start.Column));
        }
    }

    [Theory]
    [InlineData("", "a.yaml:0:0: the file is empty; fill it in, or start from a template ('new')")]
    [InlineData("# only\n", "a.yaml:0:0: the file is empty; fill it in, or start from a template ('new')")]
    [InlineData("- a\n- b\n", "a.yaml:1:1: the file holds a list; write keys with values, one a line, as in 'site: Hill'")]
    [InlineData("word\n", "a.yaml:1:1: the file holds a single value; write keys with values, one a line, as in 'site: Hill'")]
    [InlineData("a: 1\nb: 2\na: 3\n", "a.yaml:3:1: the key 'a' stands here a second time (first in line 1); keep one of the two")]
    [InlineData(
        "a: &x 1\n",
        "a.yaml:1:4: an anchor ('&name') is not allowed; write the value out where it is "
            + "needed; put a text that begins with '&' in quotes")]
    [InlineData("a: *x\n", "a.yaml:1:4: an alias ('*name') is not allowed; write the value out; put a text that begins with '*' in quotes")]
    [InlineData("a: !!str x\n", "a.yaml:1:4: a tag ('!name') is not allowed; delete it; put a text that begins with '!' in quotes")]
    [InlineData("a: 1\n---\nb: 2\n", "a.yaml:2:1: a second document begins here; keep one document in a file and delete the '---' line")]
    [InlineData("a:\n\tb: 1\n", "a.yaml:2:1: a tab in the indentation; indent with blanks; the rest of the file was not read")]
    [InlineData("[a]: 1\n", "a.yaml:1:1: a list where a key is due; write a plain word, a colon, a blank and the value")]
    [InlineData("a: \u0000\n", "a.yaml:1:4: the character U+0000 does not belong into a text file; delete it")]
    public void Read_bad_text_is_reported_with_its_place(string text, string expected) => Assert.Equal(expected, Read(text).Findings);

    [Fact]
    public void Read_half_a_surrogate_pair_is_refused() =>
        Assert.Equal("a.yaml:1:4: the character U+D800 does not belong into a text file; delete it", Read("a: \ud800\n").Findings);

    [Fact]
    public void Read_syntax_error_keeps_what_stood_before()
    {
        (YamlMapping? root, string findings) = Read("a: 1\na: 2\nb: { c: 3, d: [4, 5\n");
        Assert.NotNull(root);
        Assert.False(root.IsComplete);
        Assert.Equal(["a", "b"], root.Entries.Select(e => e.Key.Text));
        string[] lines = findings.Split('\n');
        Assert.Equal(2, lines.Length);
        Assert.StartsWith("a.yaml:2:1: the key 'a' stands here a second time", lines[0], StringComparison.Ordinal);
        Assert.StartsWith("a.yaml:4:1: this is not YAML (", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_nesting_64_levels_is_allowed_and_65_is_not()
    {
        string At(int depth) => "a: " + new string('[', depth - 1) + new string(']', depth - 1);
        Assert.Equal("", Read(At(64)).Findings);
        Assert.StartsWith("a.yaml:1:67: nested deeper than 64 levels;", Read(At(65)).Findings, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[")]
    [InlineData("{a: ")]
    [InlineData("- ")]
    [InlineData("? ")]
    [InlineData("{")]
    [InlineData("a:\n ")]
    public void Read_very_deep_nesting_neither_overflows_nor_throws(string step)
    {
        string text = string.Concat(Enumerable.Repeat(step, 50_000));
        (_, string findings) = Read(text);
        Assert.NotEqual("", findings);
    }

    [Fact]
    public void Read_bytes_over_10_MB_are_refused()
    {
        DiagnosticBag bag = new();
        Assert.Null(YamlReader.Read(new byte[TextDecoder.MaximumBytes + 1], "big.yaml", bag));
        Assert.Equal("big.yaml:0:0: the file is larger than 10 MB; split it or leave out what is not needed", Findings(bag));

        DiagnosticBag second = new();
        using MemoryStream endless = new(new byte[20_000_000]);
        Assert.Null(YamlReader.Read(endless, "big.yaml", second));
        Assert.Equal(Findings(bag), Findings(second));

        byte[] most = new byte[TextDecoder.MaximumBytes];
        most.AsSpan().Fill((byte)'#');
        "a: 1\n"u8.CopyTo(most);
        DiagnosticBag third = new();
        Assert.NotNull(YamlReader.Read(most, "big.yaml", third));
        Assert.Equal("", Findings(third));
    }

    [Fact]
    public void Read_bytes_in_another_encoding_are_refused_with_the_offset()
    {
        (byte[] Bytes, string Expected)[] rows =
        [
            (
                [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes("a: 1")],
                "x:1:1: the text is in UTF-16 or UTF-32, at byte 0; save the file as UTF-8"),
            (
                [.. Encoding.BigEndianUnicode.GetPreamble(), .. Encoding.BigEndianUnicode.GetBytes("a: 1")],
                "x:1:1: the text is in UTF-16 or UTF-32, at byte 0; save the file as UTF-8"),
            (Encoding.BigEndianUnicode.GetBytes("a: 1"), "x:1:1: the character U+0000 does not belong into a text file; delete it"),
            (Encoding.Latin1.GetBytes("a: 1\nb: Höhe\n"), "x:2:5: byte 9 (F6 in hexadecimal) is not UTF-8; save the file as UTF-8"),
            ("a: "u8.ToArray().Append((byte)0xC3).ToArray(), "x:1:4: byte 3 (C3 in hexadecimal) is not UTF-8; save the file as UTF-8"),
        ];
        foreach ((byte[] bytes, string expected) in rows)
        {
            DiagnosticBag bag = new();
            Assert.Null(YamlReader.Read(bytes, "x", bag));
            Assert.Equal(expected, Findings(bag));
        }
    }

    [Fact]
    public void Read_bytes_with_byte_order_mark_are_read()
    {
        DiagnosticBag bag = new();
        YamlMapping? root = YamlReader.Read([.. Encoding.UTF8.GetPreamble(), .. "a: Höhe\n"u8], "x", bag);
        Assert.Equal("", Findings(bag));
        Assert.Equal((1, 4, 3), (root!.Value("a")!.Start.Line, root.Value("a")!.Start.Column, root.Value("a")!.Start.Index));
    }

    [Fact]
    public void Read_example_of_the_site_format_has_no_findings()
    {
        (YamlMapping? root, string findings) = Read(TestData.Read("site", "example.site.yaml"));
        Assert.Equal("", findings);
        Assert.Equal(
            ["spurless", "site", "place", "receivers", "emitters", "exclusive", "search", "emitters_from", "evidence"],
            root!.Entries.Select(e => e.Key.Text));
    }
}
