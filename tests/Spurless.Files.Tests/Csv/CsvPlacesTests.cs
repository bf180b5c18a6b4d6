using System.Text;
using CsCheck;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Csv;

/// <summary>Tables as spreadsheets and people write them, made together with what must come out: texts, lines and columns.</summary>
public sealed class CsvPlacesTests
{
    private static readonly Gen<string> Blanks = Pick.From("", "", " ", "  ");

    private static readonly Gen<string> Bare = Gen.Char["ab1.-é{:"].Array[1, 6].Select(static c => new string(c));

    private static readonly Gen<Cell> Cells = Gen.OneOf(
        Gen.Select(Blanks, Bare, Blanks).Select(static (before, text, after) => new Cell(text, before, text, after)),
        Gen.Select(Blanks, Pick.From("x, y", "x; y", "say \"z\"", "two\nlines", "x\ty", "# no comment"), Blanks).Select(
            static (before, text, after) =>
                new Cell(text, before, "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"", after)));

    private static readonly Gen<(char Separator, string LineEnd, Cell[][] Rows, bool[] Comments)> Tables =
        from columns in Gen.Int[2, 4]
        from separator in Gen.Char[",;\t"]
        from lineEnd in Pick.From("\n", "\r\n")
        from rows in Cells.Array[columns].Array[1, 6]
        from comments in Gen.Bool.Array[rows.Length]
        select (separator, lineEnd, rows, comments);

    [Fact]
    public void Read_tables_give_each_text_with_the_place_where_it_stands() => Tables.Sample(
        static table =>
        {
            StringBuilder text = new();
            text.AppendJoin(table.Separator, Enumerable.Range(0, table.Rows[0].Length).Select(static i => "h" + (char)('a' + i)));
            List<(string Text, int Index)> expected = [];
            foreach ((Cell[] row, bool comment) in table.Rows.Zip(table.Comments))
            {
                text.Append(table.LineEnd);
                if (comment)
                {
                    text.Append("# a remark, with \"one quote").Append(table.LineEnd);
                }

                for (int i = 0; i < row.Length; i++)
                {
                    text.Append(i == 0 ? "" : table.Separator.ToString());
                    expected.Add((row[i].Text, text.Length + row[i].Lead));
                    text.Append(row[i].Before).Append(row[i].Written).Append(row[i].After);
                }
            }

            string whole = text.ToString();
            DiagnosticBag bag = new();
            CsvTable? read = CsvTable.Read(whole, "t", bag);
            Assert.Empty(bag.InOrder());
            LineMap lines = new(whole);
            Assert.Equal(
                expected.Select(e => (e.Text, lines.At(e.Index).Line, lines.At(e.Index).Column)),
                read!.Rows.SelectMany(static r => r.Cells).Select(static c => (c.Text, c.Line, c.Column)));
        },
        iter: 2_000);

    /// <summary>The separator is the most frequent of the head; in quotes it counts nothing.</summary>
    [Theory]
    [InlineData("a,b,c\n", ',')]
    [InlineData("a;b;c\n", ';')]
    [InlineData("a\tb\tc\n", '\t')]
    [InlineData("a;b,c;d\n", ';')]
    [InlineData("\"a;b;c\",d\n", ',')]
    [InlineData("# x;y;z\n\na,b\n", ',')]
    [InlineData("a;b\tc\n", ';')]
    [InlineData("alone\n", ',')]
    public void Separator_is_the_one_that_the_head_has_most(string text, char expected) =>
        Assert.Equal(expected, CsvTable.Read(text, "t", new DiagnosticBag())!.Separator);

    [Fact]
    public void Rows_of_another_width_are_left_out_and_the_others_stay()
    {
        DiagnosticBag bag = new();
        CsvTable table = CsvTable.Read("a;b\n1;2\n3\n4;5;6\n7;8\n", "t", bag)!;
        Assert.Equal(["1", "2", "7", "8"], table.Rows.SelectMany(static r => r.Cells).Select(static c => c.Text));
        Assert.Equal(
            [
                "t:3:1: the row has 1 cells and the head has 2; write a ';' for each empty cell too",
                "t:4:1: the row has 3 cells and the head has 2; put a cell that holds a ';' in quotes",
            ],
            bag.InOrder().Select(static d => d.ToString()));
    }

    [Fact]
    public void Read_bytes_that_are_no_text_are_refused_as_the_decoder_refuses_them()
    {
        DiagnosticBag bag = new();
        Assert.Null(CsvTable.Read([(byte)'a', 0xFF], "t", bag));
        Assert.Equal("t:1:2: byte 1 (FF in hexadecimal) is not UTF-8; save the file as UTF-8", Assert.Single(bag.InOrder()).ToString());
    }

    /// <summary>Model: keys joined by dots as heads; the row gives the nested keys back.</summary>
    [Fact]
    public void Of_rows_gives_back_the_nested_keys_they_were_made_of() =>
        Gen.Select(Bare.Where(static b => b[0] != '{').Array[5], Gen.Bool.Array[5]).Sample(
            static (texts, there) =>
            {
                string[] heads = ["name", "antenna.gain", "antenna.mast.height", "antenna.mast.name", "level"];
                string[] cells = [.. texts.Select((t, i) => there[i] ? t : "")];
                DiagnosticBag bag = new();
                CsvTable table = CsvTable.Read(string.Join(',', heads) + "\n" + string.Join(',', cells) + "\n#\n", "t", bag)!;
                IReadOnlyList<YamlMapping> rows = CsvRecords.Of(table, bag);
                Assert.Empty(bag.InOrder());
                if (!there.Contains(true))
                {
                    Assert.Empty(rows); // a row without any text is none
                    return;
                }

                YamlMapping row = Assert.Single(rows);
                for (int i = 0; i < heads.Length; i++)
                {
                    YamlNode? at = heads[i].Split('.').Aggregate((YamlNode?)row, static (node, key) => (node as YamlMapping)?.Value(key));
                    Assert.Equal(there[i] ? texts[i] : null, (at as YamlScalar)?.Text);
                }
            },
            iter: 1_000);

    [Fact]
    public void Of_a_cell_that_is_broken_yaml_reports_it_where_it_stands_and_calls_the_row_not_complete()
    {
        DiagnosticBag bag = new();
        YamlMapping row = Assert.Single(CsvRecords.Of(CsvTable.Read("a,b\n1,\"[2, 3\"\n", "t", bag)!, bag));
        Assert.False(row.IsComplete);
        Assert.Equal(["a"], row.Entries.Select(static e => e.Key.Text));
        Diagnostic finding = Assert.Single(bag.InOrder());
        Assert.Equal((2, true), (finding.Line, finding.Column >= 4));
        Assert.StartsWith("this is not YAML (", finding.What, StringComparison.Ordinal);
    }

    /// <summary>A cell: what it says, and how it is written (plain, with blanks round it, in quotes).</summary>
    private sealed record Cell(string Text, string Before, string Written, string After)
    {
        /// <summary>Where the text begins within what is written: behind the quote, if there is one.</summary>
        public int Lead => Before.Length + (Written.StartsWith('"') ? 1 : 0);
    }
}
