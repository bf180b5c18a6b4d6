using System.Text;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Tests.Csv;

/// <summary>Tables that are wide, deep or wrong throughout cost no more than others, and are refused in words.</summary>
public sealed class CsvLimitsTests
{
    [Theory]
    [InlineData(9)]
    [InlineData(20_000)]
    [InlineData(2_000_000)]
    public void Of_head_of_many_dots_is_refused_without_a_walk_down(int keys)
    {
        string head = string.Join('.', Enumerable.Repeat("a", keys));
        Assert.Equal(
            [$"t.csv:1:6: the head '{Quote.Short(head)}' nests more than 8 keys; write nested keys as in 'antenna.gain'"],
            Told($"name,{head}\nx,1\n", out int rows));
        Assert.Equal(0, rows);
    }

    [Fact]
    public void Of_head_of_eight_keys_is_read()
    {
        Assert.Empty(Told("name,a.b.c.d.e.f.g.h\nx,1\n", out int rows));
        Assert.Equal(1, rows);
    }

    [Fact]
    public void Of_forty_thousand_columns_is_refused_at_the_limit()
    {
        string head = string.Join(',', Enumerable.Range(0, 40_000).Select(static i => $"a{i}.b"));
        string[] told = Told($"{head}\n{new string(',', 39_999)}\n", out _);
        Assert.Equal(
            $"t.csv:1:{head.IndexOf(",a1000.b,", StringComparison.Ordinal) + 2}: the table has 40000 columns, and at most 1000 are read; "
                + "keep the columns that say something of the program's, one thing a column",
            Assert.Single(told));
    }

    [Fact]
    public void Of_a_thousand_columns_that_say_one_thing_twice_names_both()
    {
        string head = string.Join(',', Enumerable.Range(0, 999).Select(static i => $"a{i}.b.c"));
        Assert.Equal(
            $"t.csv:1:{head.IndexOf("a500.b.c", StringComparison.Ordinal) + 1}: the heads 'a500.b' and 'a500.b.c' are two ways of saying "
                + "one thing; keep one of the two",
            Assert.Single(Told($"{head},a500.b\n{new string(',', 999)}\n", out _)));
    }

    /// <summary>300,000 rows of the wrong width: one hundred findings, and the number of the others.</summary>
    [Fact]
    public void Read_rows_wrong_throughout_tells_a_hundred_and_how_many_more()
    {
        StringBuilder text = new("name,frequency\n");
        for (int i = 0; i < 300_000; i++)
        {
            text.Append("x\n");
        }

        string[] told = Told(text.ToString(), out _);
        Assert.Equal(DiagnosticBag.MostOfAFile + 1, told.Length);
        Assert.StartsWith("t.csv:2:1: the row has 1 cells", told[0], StringComparison.Ordinal);
        Assert.Matches(@"^t\.csv:101:1: and at least 299,\d{3} more of this file; mend these first, then check it again$", told[^1]);
    }

    private static string[] Told(string text, out int rows)
    {
        DiagnosticBag bag = new();
        CsvTable? table = CsvTable.Read(text, "t.csv", bag);
        rows = table is null ? 0 : CsvRecords.Of(table, bag).Count;
        return [.. bag.InOrder().Select(static d => d.ToString())];
    }
}
