using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Text;

public class TextTableTests
{
    [Fact]
    public void ToText_numbers_and_words_stand_under_their_heads()
    {
        TextTable table = new(new("order", TextSide.Right), new("mixture"), new("over\nnoise dB", TextSide.Right));
        table.Add("3", "466.1000 - 2 x 160.5250 = 145.0500", "+23.3");
        table.Note("regional paging, waterworks base");
        table.Add("11", "94.2000 + 50.8500", "-1.9");

        // Laid out by hand.
        Assert.Equal(
            """
                                                           over
            order  mixture                             noise dB
            -----  ----------------------------------  --------
                3  466.1000 - 2 x 160.5250 = 145.0500     +23.3
                regional paging, waterworks base
               11  94.2000 + 50.8500                       -1.9

            """,
            table.ToText());
    }

    [Fact]
    public void ToText_too_wide_wraps_only_the_columns_that_may()
    {
        TextTable table = new(new TextColumn("key"), new TextColumn("meaning", Wraps: true));
        table.Add("if_bandwidth", "the equivalent noise bandwidth of the receiver, not the raster of the channel");

        string[] lines = table.ToText(50).TrimEnd('\n').Split('\n');

        Assert.All(lines, static l => Assert.True(l.Length <= 50, l));
        Assert.Equal("if_bandwidth  the equivalent noise bandwidth of", lines[2]);
        Assert.Equal("              the receiver, not the raster of the", lines[3]);
    }

    [Fact]
    public void ToText_narrow_columns_that_may_not_wrap_stay_whole()
    {
        TextTable table = new(new TextColumn("a"), new TextColumn("b"));
        table.Add(new string('x', 30), new string('y', 30));
        Assert.Contains(new string('x', 30) + "  " + new string('y', 30), table.ToText(20), StringComparison.Ordinal);
    }

    [Fact]
    public void ToText_no_line_ends_in_a_space()
    {
        TextTable table = new(new TextColumn("left"), new TextColumn("right", TextSide.Right), new TextColumn("last"));
        table.Add("a", "", "");
        table.Add("", "1", "");
        Assert.All(table.ToText().Split('\n'), static l => Assert.Equal(l.TrimEnd(), l));
    }

    [Fact]
    public void Add_control_characters_of_the_user_do_not_reach_the_terminal()
    {
        TextTable table = new(new TextColumn("who"));
        table.Add("mast\u001b[2J\r\n\u202etower");
        table.Note("bell\a");
        string text = table.ToText();
        Assert.Contains("mast?[2J???tower", text, StringComparison.Ordinal);
        Assert.Contains("bell?", text, StringComparison.Ordinal);
    }

    [Fact]
    public void WriteTo_colour_adds_nothing_but_colour()
    {
        TextTable table = new(new TextColumn("verdict"), new TextColumn("n", TextSide.Right));
        table.Add(new TextCell("harmful", TextTone.Harmful), "1");
        table.Note("why", TextTone.Faint);
        using StringWriter coloured = new();
        table.WriteTo(coloured, TextInk.Terminal);
        Assert.Contains("\u001b[1;31mharmful\u001b[0m", coloured.ToString(), StringComparison.Ordinal);
        Assert.Equal(table.ToText(), System.Text.RegularExpressions.Regex.Replace(coloured.ToString(), "\u001b\\[[0-9;]*m", ""));
    }

    [Fact]
    public void ToText_letters_with_accents_and_beyond_the_plane_count_once()
    {
        TextTable table = new(new TextColumn("who"), new TextColumn("n"));
        table.Add("u\u0308ber", "1"); // u with a combining diaeresis
        table.Add("\U0001D538bcd", "2"); // a letter of two UTF-16 units
        string[] lines = table.ToText().Split('\n');
        Assert.Equal("u\u0308ber  1", lines[2]);
        Assert.Equal("\U0001D538bcd  2", lines[3]);
    }

    [Fact]
    public void Add_wrong_number_of_cells_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(static () => new TextTable(new TextColumn("a")).Add("1", "2"));
}
