using CsCheck;

namespace Spurless.Files.Tests;

public sealed class QuoteTests
{
    [Fact]
    public void Short_of_80_characters_is_whole_and_of_81_is_cut()
    {
        string eighty = new('x', 80);
        Assert.Equal(eighty, Quote.Short(eighty));
        Assert.Equal(eighty + "…", Quote.Short(eighty + "y"));
        Assert.Equal("", Quote.Short(""));
    }

    /// <summary>U+10330 takes two UTF-16 units: half of one is no character.</summary>
    [Fact]
    public void Short_never_cuts_a_character_in_two()
    {
        string before = new('x', 79);
        Assert.Equal(before + "…", Quote.Short(before + "𐌰" + "yz"));
        Assert.Equal(before[1..] + "𐌰…", Quote.Short(before[1..] + "𐌰" + "yz"));
    }

    [Fact]
    public void Short_is_one_line_of_at_most_81_characters() => Gen.Char["ab \t\n\r\u0085\u2028é"].Array[0, 200].Sample(
        static characters =>
        {
            string shown = Quote.Short(new string(characters));
            Assert.InRange(shown.Length, 0, 81);
            Assert.DoesNotContain(shown, static c => c is not (' ' or '…') && (char.IsControl(c) || char.IsSeparator(c)));
        },
        iter: 2_000);
}
