using Spurless.Sites.Tables;

namespace Spurless.Sites.Tests.Tables;

/// <summary>Somebody's table as emitters. The tables are invented; what each cell means was said by hand beside it.</summary>
public class TableServiceTests
{
    [Theory]
    [InlineData("Station;Frequency (MHz);Level\nalder base;161,3500;-30,5\n", ';', true)] // semicolons, decimal commas
    [InlineData("Station\tTX freq\tLevel [dBm]\nalder base\t161.3500\t-30.5\n", '\t', false)] // tabs, unit assumed by size
    // Of two frequencies the transmitted one.
    [InlineData("station,RX freq (MHz),TX freq (kHz),signal dBm\nalder base,156.75,161350.0,-30.5\n", ',', false)]
    [InlineData("User,Frequency_Hz,RSSI\nalder base,161350000,-30.5 dBm\n", ',', false)] // unit in head and cell
    [InlineData("# a remark\n\n\"Licensee\",\"Freq / MHz\",\"dBm\"\n\"alder base\",\"161,350\",\"-30,5\"\n", ',', true)] // RFC 4180 quotes
    [InlineData("alder base;161,35;-30,5\nbirch base;161,45;-31\n", ';', true)] // no head
    [InlineData("Name\tFrequency\tPower (dBm)\nalder base\t1.6135E+08\t-30.5\n", '\t', false)] // a spreadsheet's exponent; heard, not given
    public void Ask_any_head_separator_and_decimal_sign_gives_the_same_emitter(string text, char separator, bool comma)
    {
        TableAnswer answer = Ask(new TableQuestion { Text = text });
        Assert.Equal(separator, answer.Separator);
        Assert.Equal(comma, answer.DecimalComma);
        TableRow row = answer.Rows[0];
        Assert.Equal("alder base", row.Value("name"));
        Assert.Equal(161_350_000, Radio.Quantities.Frequency.Parse(row.Value("frequency")!).Hertz);
        Assert.Equal(-30.5, Radio.Quantities.Level.Parse(row.Value("level")!).Dbm, 9);
        Assert.Equal("16 kHz", row.Value("bandwidth"));
        Assert.Equal(answer.Rows.Count, answer.WidthAssumed);
        Assert.Empty(answer.Skipped);
        Assert.Empty(answer.Cells);
    }

    [Fact]
    public void Ask_rows_that_cannot_be_written_are_told_with_line_and_reason_and_the_rest_is_kept()
    {
        TableAnswer answer = Ask(new TableQuestion
        {
            Text = "name,frequency (MHz),level,emission\n"
                + "alder,161.35,-30,11K2F3E\n" // 2: good
                + "birch,,-30,11K2F3E\n" // 3: no frequency
                + "cedar,many,-30,11K2F3E\n" // 4: no number
                + "alder,161.35,-20,11K2F3E\n" // 5: there already
                + "alder,162.35,-20,11K2F3E\n" // 6: the same holder's second carrier
                + "elm,163.35,loud,11K2F3E\n" // 7: taken without its level
                + "fir,164.35,n/a,\n" // 8: nothing known of its level and emission
                + "taken,165.35,-30,11K2F3E\n", // 9: in the site
            Taken = new Dictionary<string, long> { ["taken"] = 165_350_000 },
        });
        Assert.Equal([2, 6, 7, 8], answer.Rows.Select(static r => r.Line));
        Assert.Equal(["alder", "alder 162.35 MHz", "elm", "fir"], answer.Rows.Select(static r => r.Value("name")));
        Assert.Equal([3, 4, 5, 9], answer.Skipped.Select(static s => s.Line));
        Assert.Equal("the row has no frequency", answer.Skipped[0].Why.What);
        Assert.Equal("'many' is no number", answer.Skipped[1].Why.What);
        Assert.Contains("is there already", answer.Skipped[2].Why.What, StringComparison.Ordinal);
        LeftOut cell = Assert.Single(answer.Cells);
        Assert.Equal((7, "level"), (cell.Line, cell.Head));
        Assert.Null(answer.Rows[2].Value("level"));
        Assert.Equal("16 kHz", answer.Rows[3].Value("bandwidth"));
        Assert.Equal(1, answer.WidthAssumed);
    }

    [Fact]
    public void Ask_what_the_numbers_do_not_tell_is_asked_never_guessed()
    {
        // 12 is no carrier of these bands in any unit; a gain is over a dipole or over isotropic, 2.15 dB that no number tells.
        TableAnswer answer = Ask(new TableQuestion { Text = "name;frequency;gain\nalder;12;6\n" });
        Assert.Null(answer.Columns[1].Unit);
        Assert.Null(answer.Columns[2].Unit);
        Assert.Empty(answer.Rows);
        TableAnswer told = Ask(answer.Question with { Columns = [null, new("frequency", "GHz"), new("antenna.gain", "dBd")] });
        Assert.Equal(("12 GHz", "6 dBd"), (told.Rows[0].Value("frequency"), told.Rows[0].Value("antenna.gain")));
    }

    [Theory]
    [InlineData("frequency (MHz)\n145,050\n146,075\n", false, null)] // parted by commas: two cells, no decimals
    [InlineData("a;frequency (kHz)\nx;145,050\ny;146,075\n", false, "145050 kHz")] // thousands
    [InlineData("a;frequency (MHz)\nx;145,050\ny;146,075\n", true, "145.050 MHz")] // decimals
    [InlineData("a;frequency (kHz)\nx;145.050,0\n", true, "145050.0 kHz")] // both: the last is the decimal sign
    [InlineData("a;frequency (kHz)\nx;145\u202F050,0\n", true, "145050.0 kHz")] // a narrow blank parts thousands (SI Brochure 5.4.4)
    public void Ask_a_comma_before_three_digits_is_settled_by_what_makes_sense(string text, bool comma, string? frequency)
    {
        TableAnswer answer = Ask(new TableQuestion { Text = text });
        Assert.Equal(comma, answer.DecimalComma);
        if (frequency is not null)
        {
            Assert.Equal(frequency, answer.Rows[0].Value("frequency"));
        }
    }

    [Fact]
    public void Native_is_read_again_as_the_same_rows()
    {
        TableAnswer answer = Ask(new TableQuestion
        {
            Text = "who\tTX freq\tgain (dBi)\tlat\tlong\n\"ferry, \"\"east\"\"\"\t156.8\t3\t40.5\t-35.2\npilots\t156.6\t\t\t\n",
        });
        TableAnswer again = Ask(new TableQuestion { Text = answer.Native });
        Assert.Equal("ferry, \"east\"", answer.Rows[0].Value("name"));
        Assert.Equal(answer.Rows.Select(static r => string.Join('|', r.Values)), again.Rows.Select(static r => string.Join('|', r.Values)));
        Assert.Equal(0, again.WidthAssumed);
    }

    /// <summary>Nothing that is pasted makes it throw, and what is left out is told: rows in are rows out.</summary>
    [Fact]
    public void Ask_any_text_accounts_for_every_row()
    {
        const string Alphabet = "a1.,;\t\n\"-\u2212 MHzE+%\u00A0#";
        Random random = new(16);
        for (int i = 0; i < 3000; i++)
        {
            string text = new([.. Enumerable.Range(0, random.Next(1, 80)).Select(_ => Alphabet[random.Next(Alphabet.Length)])]);
            if (TableService.Ask(new TableQuestion { Text = text }).Answer is { } answer)
            {
                Assert.All(answer.Rows, static r =>
                    Assert.True(Radio.Quantities.Frequency.TryParsePositive(r.Value("frequency")!, out _, out _)));
                Assert.Equal(answer.Rows.Count + answer.Skipped.Count, answer.Rows.Select(static r => r.Line)
                    .Concat(answer.Skipped.Select(static s => s.Line)).Distinct().Count());
            }
        }
    }

    private static TableAnswer Ask(TableQuestion question) => TableService.Ask(question).Answer!;
}
