using CsCheck;
using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Text;

/// <summary>Cells for a spreadsheet: read back as they were, and never computed.</summary>
public sealed class CsvQuotingTests
{
    private static readonly Gen<string> _text = Gen.OneOf<string>(
        Gen.String,
        Gen.String[Gen.OneOf<char>(Gen.OneOf('"', ',', ';', '\n', '\r', '\t', '=', '-', '+', '@', ' ', '\u00A0', '\u3000', '\uFF1D'),
            Gen.Char['0', '9']), 0, 8]);

    [Fact]
    public void Quote_any_cells_read_back_as_they_were_but_for_the_apostrophe() => _text.Array[1, 5].Sample(static cells =>
    {
        string line = string.Join(',', cells.Select(CsvQuoting.Quote)) + "\n";
        List<string> back = Assert.Single(WrittenText.Csv(line));
        Assert.Equal(cells.Length, back.Count);
        foreach ((string cell, string read) in cells.Zip(back))
        {
            Assert.True(read == cell || read == "'" + cell, $"'{cell}' came back as '{read}'");
            WrittenText.NoFormula(read);
        }
    });

    [Theory]
    [InlineData("-1.5", "-1.5")]
    [InlineData("+1.5", "'+1.5")]
    [InlineData("-1+2", "'-1+2")]
    [InlineData(" =A1", "' =A1")]
    [InlineData("\u3000\uFF1DA1", "'\u3000\uFF1DA1")]
    [InlineData("a=b", "a=b")]
    [InlineData("", "")]
    [InlineData("say \"so\"", "\"say \"\"so\"\"\"")]
    public void Quote_of_a_cell_by_the_rule_of_its_first_character(string cell, string written) =>
        Assert.Equal(written, CsvQuoting.Quote(cell));
}
