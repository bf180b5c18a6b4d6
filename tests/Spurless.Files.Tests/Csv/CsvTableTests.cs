using CsCheck;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Csv;

public sealed class CsvTableTests
{
    private static (CsvTable? Table, string Findings) Read(string text)
    {
        DiagnosticBag bag = new();
        CsvTable? table = CsvTable.Read(text, "t.csv", bag);
        return (table, string.Join("\n", bag.InOrder()));
    }

    private static string Cells(CsvTable table) =>
        string.Join(
            "|",
            table.Rows
                .Prepend(new CsvRow(1, table.Head))
                .SelectMany(r => r.Cells)
                .Select(c => FormattableString.Invariant($"{c.Text}@{c.Line}:{c.Column}")));

    [Theory]
    [InlineData("a,b\n1,2\n", "a@1:1|b@1:3|1@2:1|2@2:3")]
    [InlineData("\uFEFFa;b\r\n1;2,5\r\n", "a@1:1|b@1:3|1@2:1|2,5@2:3")]
    [InlineData("a\tb\n1\t2", "a@1:1|b@1:3|1@2:1|2@2:3")]
    [InlineData("# c,\"\na,b\n# x\n\n1,2\n,\n", "a@2:1|b@2:3|1@5:1|2@5:3")]
    [InlineData("a,b\n\"x, y\",\"say \"\"z\"\"\"\n", "a@1:1|b@1:3|x, y@2:2|say \"z\"@2:9")]
    [InlineData("a,b\n \"x\ny\" ,  2\n", "a@1:1|b@1:3|x\ny@2:3|2@3:7")]
    [InlineData("a,b\n𐌰,\n", "a@1:1|b@1:3|𐌰@2:1|@2:3")]
    [InlineData("a\n1\n2\n", "a@1:1|1@2:1|2@3:1")]
    public void Read_good_table_gives_cells_with_their_places(string text, string expected)
    {
        (CsvTable? table, string findings) = Read(text);
        Assert.Equal("", findings);
        Assert.Equal(expected, Cells(table!));
    }

    [Theory]
    [InlineData("", "t.csv:0:0: the table is empty; write a first row with the heads of the columns")]
    [InlineData("# only\n\n", "t.csv:0:0: the table is empty; write a first row with the heads of the columns")]
    [InlineData("a,,b\n", "t.csv:1:3: column 2 has no head; write what the column holds, or delete it")]
    [InlineData("a,b,a\n", "t.csv:1:5: the head 'a' stands here a second time (first in column 1); keep one of the two")]
    [InlineData(
        "a,b\n1\n1,2,3\n4,5\n",
        "t.csv:2:1: the row has 1 cells and the head has 2; write a ',' for each empty cell too\nt.csv:3:1: "
            + "the row has 3 cells and the head has 2; put a cell that holds a ',' in quotes")]
    [InlineData(
        "a,b\n\"1,2\n", "t.csv:2:1: a quote that is not closed; write a second quote at the end of the cell, or two for one within it")]
    [InlineData("a,b\n\u0001,2\n", "t.csv:2:1: the character U+0001 does not belong into a text file; delete it")]
    public void Read_bad_table_is_reported_with_its_place(string text, string expected) => Assert.Equal(expected, Read(text).Findings);

    private static readonly Gen<string> Cell = Gen.Char["ab ,;\"'#.\n"].Array[0, 8].Select(static c => new string(c).Trim());

    [Fact]
    public void Read_generated_tables_give_back_their_cells() =>
        Gen.Select(
            Gen.Char[",;\t"],
            Gen.Bool.Select(static b => b ? "\n" : "\r\n"),
            Gen.Int[2, 4].SelectMany(n => Cell.Array[n].Array[0, 6])).Sample(
            (separator, lineEnd, rows) =>
            {
                int width = rows.Length == 0 ? 2 : rows[0].Length;
                string[] head = [.. Enumerable.Range(0, width).Select(i => "h" + (char)('a' + i))];
                string Written(string cell) => "\"" + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
                string text = string.Join(
                    lineEnd, rows.Select(r => r.Select(Written)).Prepend(head).Select(r => string.Join(separator, r)));
                (CsvTable? table, string findings) = Read(text);
                Assert.Equal("", findings);
                Assert.Equal(separator, table!.Separator);
                Assert.Equal(
                    rows.Where(r => r.Any(c => c.Length > 0)).SelectMany(r => r), table.Rows.SelectMany(r => r.Cells).Select(c => c.Text));
            },
            iter: 2_000);

    [Fact]
    public void Read_noise_never_throws() =>
        Gen.Char["ab ,;\"'#.{}[]:\t\n\r\u0000é"].Array[0, 60].Select(c => new string(c)).Sample(
            text =>
            {
                DiagnosticBag bag = new();
                CsvTable? table = CsvTable.Read(text, "t", bag);
                Assert.True(table is not null || bag.HasErrors);
                if (table is not null)
                {
                    Assert.All(CsvRecords.Of(table, bag), Assert.NotNull);
                }
            },
            iter: 20_000);

    [Fact]
    public void Of_dotted_heads_nest_and_places_are_those_of_the_table()
    {
        DiagnosticBag bag = new();
        CsvTable table = CsvTable.Read("name,antenna.gain,antenna.height,level\nx,6 dBd,,\"{ a: -1 dBm, b: [c, d] }\"\n", "t", bag)!;
        YamlMapping row = Assert.Single(CsvRecords.Of(table, bag));
        Assert.Empty(bag.InOrder());
        Assert.Equal(["name", "antenna", "level"], row.Entries.Select(e => e.Key.Text));
        YamlMapping antenna = Assert.IsType<YamlMapping>(row.Value("antenna"));
        Assert.Equal(["gain"], antenna.Entries.Select(e => e.Key.Text));
        Assert.Equal((2, 3), (antenna.Value("gain")!.Start.Line, antenna.Value("gain")!.Start.Column));
        YamlSequence b = Assert.IsType<YamlSequence>(Assert.IsType<YamlMapping>(row.Value("level")).Value("b"));
        Assert.Equal((2, 28), (b.Items[0].Start.Line, b.Items[0].Start.Column));
    }

    [Theory]
    [InlineData("a,a.b\n1,2\n", "t:1:3: the heads 'a' and 'a.b' are two ways of saying one thing; keep one of the two")]
    [InlineData("a..b\n1\n", "t:1:1: the head 'a..b' has a dot without a key beside it; write nested keys as in 'antenna.gain'")]
    public void Of_bad_heads_are_reported(string text, string expected)
    {
        DiagnosticBag bag = new();
        Assert.Empty(CsvRecords.Of(CsvTable.Read(text, "t", bag)!, bag));
        Assert.Equal(expected, string.Join("\n", bag.InOrder()));
    }
}
