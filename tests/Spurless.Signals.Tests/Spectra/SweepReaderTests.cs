using Spurless.Files.Diagnostics;
using Spurless.Signals.Spectra;

namespace Spurless.Signals.Tests.Spectra;

public sealed class SweepReaderTests
{
    private static string Rows(string head, char separator, Func<int, string> frequency, Func<int, string> level, int count = 20) =>
        head + "\n" + string.Concat(Enumerable.Range(0, count).Select(i => $"{frequency(i)}{separator}{level(i)}\n"));

    private static (Sweep? Sweep, string Findings) Read(string text, string? columns = null)
    {
        DiagnosticBag bag = new();
        SweepColumns? named = columns is not null && SweepColumns.TryParse(columns, out SweepColumns parsed, out _) ? parsed : null;
        Sweep? sweep = SweepReader.Read(new StringReader(text), "a.csv", named, bag);
        return (sweep, string.Join('\n', bag.InOrder()));
    }

    [Fact]
    public void Read_of_the_usual_heads_gives_hertz_and_dbm()
    {
        (Sweep? sweep, _) = Read("# invented\n" + Rows("frequency_hz,level_dbm", ',', i =>
            FormattableString.Invariant($"{144_000_000 + (i * 1000)}"), i => FormattableString.Invariant($"{-100 - i}")));

        Assert.NotNull(sweep);
        Assert.Equal((144e6, 1000.0, -119.0), (sweep.FrequenciesHz[0], sweep.SpacingHz, sweep.RowsDbm[0][^1]));
    }

    [Fact]
    public void Read_of_named_columns_takes_units_of_the_heads()
    {
        (Sweep? sweep, string findings) = Read(
            Rows("Freq [MHz];Note;Ampl [dBuV]", ';', i => FormattableString.Invariant($"{144 + (i * 0.001)};x"), static _ => "0"),
                "frequency=Freq [MHz], level=Ampl [dBuV]");

        Assert.Equal("", findings);

        // 0 dBuV in 50 ohm is -106.99 dBm: 10 lg((1e-6)^2 / 50 / 1e-3).
        Assert.Equal(10 * Math.Log10(1e-12 / 50 / 1e-3), sweep!.RowsDbm[0][0], 1e-9);
        Assert.Equal(144.019e6, sweep.FrequenciesHz[^1], 1);
    }

    [Fact]
    public void Read_of_a_wide_table_names_twenty_of_its_columns()
    {
        string heads = string.Join(',', Enumerable.Range(0, 500).Select(static i => FormattableString.Invariant($"a{i}")));
        string told = Read(heads + "\n1,2\n", "frequency=Freq [MHz], level=Level").Findings;
        Assert.Contains("'a18', 'a19' and 480 more; name two of them with --columns", told, StringComparison.Ordinal);
        Assert.DoesNotContain("a20", told, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_of_a_column_that_is_not_there_names_those_that_are()
    {
        Assert.Contains("a.csv:1:1: the table has no column 'Level'; its columns are 'Freq [MHz]', 'Ampl [dBm]'",
            Read("Freq [MHz],Ampl [dBm]\n1,2\n", "frequency=Freq [MHz], level=Level").Findings, StringComparison.Ordinal);
        Assert.Contains("the head 'Freq' has no unit", Read("Freq,Ampl [dBm]\n1,2\n", "frequency=Freq, level=Ampl [dBm]").Findings,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Read_of_rows_takes_one_sweep_a_row()
    {
        string heads = string.Join(',', Enumerable.Range(0, 16).Select(static i => 144_000_000 + (i * 1000)));
        string row = string.Join(',', Enumerable.Repeat("-100", 16));

        (Sweep? sweep, _) = Read($"time,{heads}\n2031-03-04T19:00:00Z,{row}\n2031-03-04T19:00:01Z,{row}\n");

        Assert.Equal(2, sweep!.RowsDbm.Count);
        Assert.Contains("the row has 2 cells", Read($"time,{heads}\nx,1\n").Findings, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("frequency_hz,level_dbm\n1,2\n", "at least 16")]
    public void Read_of_what_is_no_sweep_says_so(string text, string wanted) =>
        Assert.Contains(wanted, Read(text).Findings, StringComparison.Ordinal);

    [Fact]
    public void Read_of_a_bad_number_gives_line_and_column()
    {
        string text = Rows("frequency_hz,level_dbm", ',', i => FormattableString.Invariant($"{144_000_000 + (i * 1000)}"), i => i == 3
            ? "loud" : "-100");

        Assert.Contains("a.csv:5:11: 'loud' is not a level", Read(text).Findings, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_of_two_bands_in_one_file_asks_for_two_files()
    {
        string text = Rows("frequency_hz,level_dbm", ',', i =>
            FormattableString.Invariant($"{(i < 10 ? 144_000_000 : 440_000_000) + (i * 1000)}"), static _ => "-100");

        Assert.Contains("not evenly spaced", Read(text).Findings, StringComparison.Ordinal);
    }
}
