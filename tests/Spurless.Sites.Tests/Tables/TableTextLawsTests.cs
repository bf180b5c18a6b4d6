using System.Globalization;
using CsCheck;
using Spurless.Sites.Tables;

namespace Spurless.Sites.Tests.Tables;

/// <summary>Cells there and back, numbers in every notation of a spreadsheet, and what decides between a comma and a point.</summary>
public sealed class TableTextLawsTests
{
    private static readonly Gen<string> _cell = Gen.OneOf(
        Gen.String[Gen.OneOf(Gen.Char['a', 'z'], Gen.OneOf(',', ';', '\t', '"', '\'', '#', ' ', '\u00E9', '/')), 1, 12],
        Gen.Const("145.05 MHz"),
        Gen.Const("two\nlines"),
        Gen.Const("say \"so\"")).Select(static c => c.Trim().Trim('\u00A0')).Where(static c => c.Length > 0);

    /// <summary>What is written reads back cell by cell, whatever stands in the cells; the separator is found again.</summary>
    [Fact]
    public void Write_reads_back_cell_by_cell() =>
        Gen.Select(Gen.Int[2, 5], _cell.Array[60], Gen.Int[2, 9]).Sample(static (columns, cells, rows) =>
    {
        string[] keys = [.. Enumerable.Range(0, columns).Select(static c => "key" + c.ToString(CultureInfo.InvariantCulture))];
        TableRow[] table = [.. Enumerable.Range(0, rows).Select(r => new TableRow(
            r + 2, [.. keys.Select((k, c) => (k, cells[((r * columns) + c) % 60]))]))];
        IReadOnlyList<(int Line, IReadOnlyList<string> Cells)> read = TableText.Read(TableText.Write(table), out char separator);
        Assert.Equal(',', separator);
        Assert.Equal(keys, read[0].Cells);
        Assert.Equal(table.Select(static r => r.Values.Select(static v => v.Value)), read.Skip(1).Select(static r => r.Cells));
    });

    /// <summary>A row begins at the line that it stands in, though cells before it hold line ends of their own.</summary>
    [Fact]
    public void Read_counts_the_lines_within_cells() => Gen.Int[0, 4].Array[2, 8].Sample(static breaks =>
    {
        string text = "a,b\n" + string.Concat(breaks.Select(static b => "\"x" + string.Concat(Enumerable.Repeat("\ny", b)) + "\",1\n"));
        int line = 2;
        IReadOnlyList<(int Line, IReadOnlyList<string> Cells)> read = TableText.Read(text, out _);
        for (int i = 0; i < breaks.Length; i++)
        {
            Assert.Equal(line, read[i + 1].Line);
            line += 1 + breaks[i];
        }
    });

    /// <summary>A number that is grouped, signed and marked in any of the usual ways is the number, and what follows is its unit.</summary>
    [Fact]
    public void TryRead_of_any_notation_is_the_number() => Gen.Select(
        Gen.Int[-99_999_999, 99_999_999], Gen.Int[0, 5], Gen.Int[0, 4], Gen.Int[0, 3]).Sample(static (digits, decimals, group, unit) =>
        {
            decimal value = digits;
            for (int i = 0; i < decimals; i++)
            {
                value /= 10;
            }

            foreach (bool comma in new[] { false, true })
            {
                // A sign that parts thousands is never the decimal one.
                string[] groups = ["", " ", "\u00A0", "\u202F", comma ? "." : ","];
                string written = Written(value, comma ? ',' : '.', groups[group]);
                string after = new[] { "", " MHz", "kHz", " dBm" }[unit];

                // 145.050 alone may be a hundred and forty-five thousand: only the table as a whole can say, and does.
                Assert.True(TableNumbers.TryRead(written + after, comma, out string number, out string read), written + after);
                Assert.Equal(after.Trim(), read);
                Assert.Equal(value, decimal.Parse(number, CultureInfo.InvariantCulture));
                Assert.Equal((double)value, TableNumbers.Value(number));
            }
        }, iter: 500);

    private static string Written(decimal value, char mark, string group)
    {
        string plain = Math.Abs(value).ToString("0.#####", CultureInfo.InvariantCulture);
        string[] parts = plain.Split('.');
        string whole = parts[0];
        for (int at = whole.Length - 3; at > 0; at -= 3)
        {
            whole = whole[..at] + group + whole[at..];
        }

        return (value < 0 ? "\u2212" : "") + whole + (parts.Length > 1 ? mark + parts[1] : "");
    }

    /// <summary>Enough numbers with a mark that is no group's tell the mark of all; a table of the other kind tells the other.</summary>
    [Fact]
    public void DecimalComma_is_told_by_numbers_that_can_be_read_one_way_only() =>
        Gen.Select(Gen.Int[1, 999_999].Array[3, 20], Gen.Bool).Sample(static (digits, comma) =>
        {
            string[] cells = [.. digits.Select(d => Written(d / 100m + 0.01m, comma ? ',' : '.', ""))];
            string[] told = [.. cells.Where(c => c.AsSpan().IndexOfAny(',', '.') >= 0
                && c[(c.AsSpan().IndexOfAny(',', '.') + 1)..].Length != 3)];
            bool? found = TableNumbers.DecimalComma(cells);
            Assert.Equal(told.Length == 0 ? null : comma, found);
        });

    [Theory]
    [InlineData("")]
    [InlineData("none of it")]
    [InlineData("-")]
    [InlineData("1,23,456")]
    [InlineData("12.34.5")]
    [InlineData("MHz 145")]
    public void TryRead_of_what_is_no_number_is_none(string cell) => Assert.False(TableNumbers.TryRead(cell, false, out _, out _));
}
