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

    [Theory]
    [InlineData(0, 0, "")]
    [InlineData(2, 2, "")]
    [InlineData(20, 20, "")]
    [InlineData(21, 20, " and 1 more")]
    [InlineData(1020, 20, " and 1000 more")]
    public void Heads_are_twenty_at_most_and_the_rest_counted(int count, int shown, string rest)
    {
        string said = Quote.Heads([.. Enumerable.Range(0, count).Select(static i => FormattableString.Invariant($"h{i}"))]);
        Assert.Equal(string.Join(", ", Enumerable.Range(0, shown).Select(static i => FormattableString.Invariant($"'h{i}'"))) + rest, said);
    }

    [Fact]
    public void Heads_are_bounded_however_long_each_is() =>
        Assert.InRange(Quote.Heads([.. Enumerable.Repeat(new string('y', 5_000), 900)]).Length, 20 * 85, 20 * 85 + 15);

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
