using System.Text;
using CsCheck;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Yaml;

public sealed class LineMapTests
{
    private static readonly Gen<string> Texts = Pick.From("a", "b", " ", "\n", "\r", "\r\n", "é", "𐌰").Array[0, 40]
        .Select(static pieces => string.Concat(pieces));

    /// <summary>Oracle: one walk from the beginning, code point by code point. CR LF ends one line, not two.</summary>
    [Fact]
    public void At_every_index_agrees_with_a_walk_from_the_beginning() => Texts.Sample(
        static text =>
        {
            LineMap map = new(text);
            int line = 1;
            int column = 1;
            int index = 0;
            foreach (Rune rune in text.EnumerateRunes())
            {
                Assert.Equal(new YamlPosition(line, column, index), map.At(index));
                bool pairBegins = rune.Value == '\r' && index + 1 < text.Length && text[index + 1] == '\n';
                index += rune.Utf16SequenceLength;
                (line, column) = rune.Value is '\n' or '\r' && !pairBegins ? (line + 1, 1) : (line, column + 1);
            }

            Assert.Equal(new YamlPosition(line, column, index), map.At(text.Length));
        },
        iter: 5_000);

    [Theory]
    [InlineData(-1, 1, 1, 0)]
    [InlineData(long.MinValue, 1, 1, 0)]
    [InlineData(3, 2, 2, 3)]
    [InlineData(4, 2, 2, 3)]
    [InlineData(long.MaxValue, 2, 2, 3)]
    public void At_outside_the_text_is_its_nearest_end(long index, int line, int column, int expected) =>
        Assert.Equal(new YamlPosition(line, column, expected), new LineMap("a\nb").At(index));

    /// <summary>A cell's text within a table: its first line goes on where the cell begins, its others begin at the margin.</summary>
    [Fact]
    public void At_of_a_text_within_another_counts_from_where_it_begins()
    {
        LineMap map = new("ab\ncd", new YamlPosition(7, 10, 0));
        Assert.Equal((7, 10), (map.At(0).Line, map.At(0).Column));
        Assert.Equal((7, 11), (map.At(1).Line, map.At(1).Column));
        Assert.Equal((8, 1), (map.At(3).Line, map.At(3).Column));
        Assert.Equal((8, 2), (map.At(4).Line, map.At(4).Column));
    }

    /// <summary>A walk over the line for each place would be 10^12 steps: hours, where this is done at once.</summary>
    [Fact]
    public void At_every_place_of_a_line_of_two_million_characters_costs_no_walk_over_it()
    {
        const int Length = 2_000_000;
        LineMap map = new(new string('a', Length));
        for (int i = 0; i < Length; i++)
        {
            Assert.Equal(i + 1, map.At(i).Column);
        }
    }
}
