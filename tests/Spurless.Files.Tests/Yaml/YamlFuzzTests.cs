using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Yaml;

/// <summary>No input makes the reader throw, and every place it gives lies within the text.</summary>
public sealed class YamlFuzzTests
{
    private const string Alphabet = "ab1 :-,[]{}#&*!|>'\"%@`?~\n\r\t\\.<=\u0000\uFEFF\u0085\u2028é𐌰";

    private static readonly Gen<string> Noise = Gen.Int[0, Alphabet.Length - 1]
        .Select(static i => Alphabet[i]).Array[0, 60]
        .Select(static c => new string(c));

    private static readonly string[] Pieces =
    [
        "a", "b: ", "- ", "[", "]", "{", "}", ", ", "\n", "\n  ", "\n    ", "'", "\"", "# c", "|", ">-\n", "&x ", "*x", "!t ", "---\n",
        "...\n", "? ",
        "%YAML 1.2\n", "<<: ", "\t",
    ];

    private static readonly Gen<string> Words = Gen.Int[0, Pieces.Length - 1]
        .Select(static i => Pieces[i]).Array[0, 40]
        .Select(static w => string.Concat(w));

    [Fact]
    public void Read_noise_never_throws() => Gen.OneOf(Noise, Words).Sample(Check, iter: 20_000);

    [Fact]
    public void Read_mutated_example_never_throws()
    {
        string example = TestData.Read("site", "example.site.yaml");
        Gen<(int At, int Length, string Text)> edit = Gen.Select(
            Gen.Int[0, example.Length - 40], Gen.Int[0, 30], Gen.OneOf(Noise, Words, Gen.Const("")));
        edit.Array[1, 4].Sample(
            edits =>
            {
                string text = example;
                foreach ((int at, int length, string put) in edits)
                {
                    int from = Math.Min(at, text.Length);
                    text = text[..from] + put + text[Math.Min(from + length, text.Length)..];
                }

                Check(text);
            },
            iter: 1_000);
    }

    [Fact]
    public void Read_any_bytes_never_throws() => Gen.Byte.Array[0, 60].Sample(
        static bytes =>
        {
            DiagnosticBag bag = new();
            YamlMapping? root = YamlReader.Read(bytes, "x", bag);
            Assert.True(root is not null || bag.HasErrors);
        },
        iter: 5_000);

    private static void Check(string text)
    {
        DiagnosticBag bag = new();
        YamlMapping? root = YamlReader.Read(text, "x", bag);
        Assert.True(root is not null || bag.HasErrors);
        int lines = text.Split('\n', '\r').Length;
        Assert.All(bag.InOrder(), d => Assert.InRange(d.Line, 0, lines));
        if (root is not null)
        {
            Walk(root, text.Length);
        }
    }

    private static void Walk(YamlNode node, int length)
    {
        Assert.InRange(node.Start.Index, 0, length);
        Assert.InRange(node.End.Index, node.Start.Index, length);
        if (node is YamlMapping mapping)
        {
            foreach (YamlEntry entry in mapping.Entries)
            {
                Walk(entry.Key, length);
                Walk(entry.Value, length);
            }
        }

        foreach (YamlNode item in node is YamlSequence sequence ? sequence.Items : [])
        {
            Walk(item, length);
        }
    }
}
