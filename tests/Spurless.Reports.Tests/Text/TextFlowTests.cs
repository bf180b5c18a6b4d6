using CsCheck;
using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Text;

public class TextFlowTests
{
    [Fact]
    public void Wrap_breaks_at_spaces_and_hangs() => Assert.Equal(
        ["  one two", "    three", "    four"],
        TextFlow.Wrap("one two three four", width: 11, indent: 2, hanging: 2));

    [Fact]
    public void Wrap_a_word_longer_than_the_line_is_broken() =>
        Assert.Equal(["a", "bcdef", "gh i"], TextFlow.Wrap("a bcdefgh i", width: 5));

    [Fact]
    public void Wrap_line_breaks_are_kept() => Assert.Equal(["a", "", "b"], TextFlow.Wrap("a\n\nb"));

    [Fact]
    public void Wrap_any_text_keeps_its_words_and_the_width() =>
        Gen.Select(Gen.String[Gen.Char['a', 'e'], 0, 8].Array[0, 30], Gen.Int[9, 40]).Sample(static (words, width) =>
    {
        string text = string.Join(' ', words);
        IReadOnlyList<string> lines = TextFlow.Wrap(text, width);
        Assert.All(lines, l => Assert.InRange(l.Length, 0, width));
        Assert.Equal(
            text.Split(' ', StringSplitOptions.RemoveEmptyEntries),
            string.Join(' ', lines).Split(' ', StringSplitOptions.RemoveEmptyEntries));
    });

    [Fact]
    public void Printable_ordinary_text_stays_the_same_object()
    {
        const string Text = "Grünhügel, Ωm";
        Assert.Same(Text, TextFlow.Printable(Text));
    }

    [Fact]
    public void Printable_half_a_character_becomes_the_replacement() => Assert.Equal("a\uFFFDb", TextFlow.Printable("a\uD800b"));
}
